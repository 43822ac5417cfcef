// SPDX-License-Identifier: MIT
#include "sheet.hpp"
#include "sheet_parts.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <variant>

namespace noonbench::harness {
namespace {

/// What is said or asked in a step, in one line.
struct StepGist {
    std::string operator()(const TextStep& step) const { return first_sentence(step.text); }
    std::string operator()(const PredictStep& step) const { return step.question; }
    std::string operator()(const WatchStep& step) const { return first_sentence(step.say); }
    std::string operator()(const TryStep& step) const { return first_sentence(step.say); }
    std::string operator()(const TaskStep& step) const { return first_sentence(step.say); }
    std::string operator()(const HuntStep& step) const { return first_sentence(step.say); }

    static std::string first_sentence(const std::string& text) {
        for (std::size_t at = 0; at + 1 < text.size(); ++at) {
            const bool ends = text[at] == '.' || text[at] == '?' || text[at] == '!';
            if (ends && (text[at + 1] == ' ' || text[at + 1] == '\n'))
                return text.substr(0, at + 1);
        }
        return text;
    }
};

std::string timing(const Lesson& lesson) {
    std::string table =
        "<table>\n<thead><tr><th scope=\"col\">Step</th><th scope=\"col\">What</th><th "
        "scope=\"col\" class=\"figure\">minutes</th><th scope=\"col\" class=\"figure\">from the "
        "start</th></tr></thead>\n<tbody>\n";
    int at = 0;
    for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
        const int minutes = lesson.trainer.timing_min.at(i);
        table += fmt::format(
            "<tr><th scope=\"row\" class=\"together\">{} {}</th><td>{}</td><td "
            "class=\"figure\">{}</td><td "
            "class=\"figure\">{} to {}</td></tr>\n",
            i + 1, step_word(lesson.steps[i]), escaped(std::visit(StepGist{}, lesson.steps[i])),
            minutes, at, at + minutes);
        at += minutes;
    }
    return table + "</tbody>\n</table>\n";
}

std::string causes_of(const HuntStep& hunt, std::size_t house) {
    std::string causes;
    for (const std::size_t cause : hunt.right.at(house))
        causes += (causes.empty() ? "" : ", ") + hunt.causes.at(cause);
    return causes;
}

/// Each hidden house of the hunts with what is wrong there.
std::string hunts(const Lesson& lesson) {
    std::string rows;
    for (const LessonStep& step : lesson.steps) {
        const auto* hunt = std::get_if<HuntStep>(&step);
        if (hunt == nullptr) continue;
        for (std::size_t i = 0; i < hunt->hidden.size(); ++i)
            rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n",
                                escaped(lesson.houses.at(hunt->hidden[i]).name),
                                escaped(causes_of(*hunt, i)));
    }
    if (rows.empty()) return {};
    return "<table>\n<thead><tr><th scope=\"col\">Hidden house</th><th "
           "scope=\"col\">Right</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n";
}

/// Questions of choice with their right one.
std::string right_choices(const Lesson& lesson) {
    std::string list;
    for (const LessonStep& step : lesson.steps) {
        const auto* predict = std::get_if<PredictStep>(&step);
        if (predict == nullptr || predict->form != PredictStep::Form::choice) continue;
        list += fmt::format("<li>{} <strong>{}.</strong> {}</li>\n", escaped(predict->question),
                            escaped(predict->choices.at(predict->true_choice - 1)),
                            escaped(predict->because));
    }
    return list.empty() ? list : "<ul>\n" + list + "</ul>\n";
}

}  // namespace

std::string instructor_sheet(const Lesson& lesson) {
    const std::string facts =
        fmt::format("<p class=\"facts\">{}. Not for learners: the answers are on it.</p>",
                    minutes_text(lesson.minutes));
    const Trainer& trainer = lesson.trainer;
    std::string main = cautions_section(lesson);
    main += sheet_section("aim", "Aim", sheet_paragraph(lesson.aim));
    main += "<div class=\"pair\">\n";
    main += sheet_section("misconception", "What learners believe",
                          sheet_paragraph(lesson.misconception));
    main += sheet_section("take-away", "What they take away", sheet_paragraph(lesson.take_away));
    main += "</div>\n";
    main += sheet_section("timing", "Timing", timing(lesson));
    main += "<div class=\"pair\">\n";
    main += sheet_section("usual", "What they usually answer", sheet_list(trainer.usual_answers));
    main +=
        sheet_section("differs", "Where the bench differs", sheet_paragraph(lesson.bench_differs));
    main += "</div>\n";
    main += sheet_section("answers", "What the bench shows",
                          sheet_list(trainer.answers) + right_choices(lesson) + hunts(lesson));
    main += sheet_section("talk", "To speak about", sheet_list(trainer.talking_points));
    return lesson_sheet_page(lesson, "instructor's sheet", facts, main);
}

}  // namespace noonbench::harness
