// SPDX-License-Identifier: MIT
#include "lesson_unit.hpp"
#include "sheet.hpp"
#include "sheet_parts.hpp"

#include "harness/judge/judge.hpp"
#include "harness/report/text.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

constexpr int lines_for_the_take_away = 2;

std::string free_lines(int count) {
    std::string lines;
    for (int i = 0; i < count; ++i) lines += "<div class=\"free\"></div>\n";
    return lines;
}

std::string to_write(std::string_view line, std::string_view css_class = "write") {
    return fmt::format("<p class=\"{}\"><span>{}</span></p>\n", css_class, escaped(line));
}

std::string tick_boxes(const std::vector<std::string>& texts) {
    std::string list = "<ul class=\"boxes\">\n";
    for (const std::string& text : texts) list += fmt::format("<li>{}</li>\n", escaped(text));
    return list + "</ul>\n";
}

/// "collector as the controller reads it", for a signal of any house.
std::string meaning_of(const std::string& name) {
    static const std::vector<traces::Signal> usual = judged_signals(Scenario{});
    const auto found = std::find_if(usual.begin(), usual.end(),
                                    [&](const traces::Signal& s) { return s.name == name; });
    return found == usual.end() ? name : found->meaning;
}

std::string until_text(const LessonUntil& until) {
    if (until.moment_s) return moment_text(*until.moment_s);
    return until.time_of_day_s ? time_of_day_text(*until.time_of_day_s) : std::string();
}

struct LearnerStep {
    const Lesson& lesson;
    bool after_a_hunt = false;  // the houses' names would tell on paper what was to be found

    /// What is told later gives answers away.
    std::string operator()(const TextStep& /*step*/) const { return {}; }

    std::string operator()(const PredictStep& step) const {
        std::string part = sheet_paragraph(step.question);
        if (step.form == PredictStep::Form::choice) return part + tick_boxes(step.choices);
        const std::string unit = step.form == PredictStep::Form::clock ? " (time)"
                                 : step.unit.empty()
                                     ? ""
                                     : " (" + unit_behind(step.unit).substr(1) + ")";
        return part + fmt::format(
                          "<p class=\"say\"><span>I say{0}</span><span>The bench "
                          "shows{0}</span></p>\n",
                          escaped(unit));
    }

    std::string operator()(const WatchStep& step) const {
        std::string part = fmt::format("<p>Until {}. Keep an eye on:</p>\n<ul class=\"eyes\">\n",
                                       escaped(until_text(step.until)));
        for (const std::string& name : step.look_at)
            part += fmt::format("<li>{}</li>\n", escaped(meaning_of(name)));
        return part + "</ul>\n" + to_write("What I noticed");
    }

    std::string operator()(const TryStep& step) const {
        std::string part = sheet_paragraph(step.say) +
                           "<table class=\"to-fill\">\n<thead><tr><th scope=\"col\">House</th>";
        for (const Compared& each : step.compare)
            part += fmt::format("<th scope=\"col\">{}</th>", escaped(each.name + unit_of(each)));
        part += "</tr></thead>\n<tbody>\n";
        for (const std::size_t house : step.houses) {
            const bool tells = after_a_hunt && house != 0;
            part += tells ? std::string("<tr><td></td>")
                          : fmt::format("<tr><th scope=\"row\">{}</th>",
                                        escaped(lesson.houses.at(house).name));
            for (std::size_t i = 0; i < step.compare.size(); ++i) part += "<td></td>";
            part += "</tr>\n";
        }
        return part + "</tbody>\n</table>\n";
    }

    /// ", bar"; nothing where the name has said it ("minutes with mains", "litres moved").
    static std::string unit_of(const Compared& compared) {
        static constexpr std::array<std::pair<std::string_view, std::string_view>, 3> said{
            {{"min", "minutes"}, {"h", "hours"}, {"l", "litres"}}};
        for (const auto& [unit, word] : said)
            if (compared.unit == unit && compared.name.find(word) != std::string::npos) return {};
        if (compared.unit == clock_unit) return ", time";
        return compared.unit.empty() ? std::string() : "," + unit_behind(compared.unit);
    }

    std::string operator()(const TaskStep& step) const {
        std::vector<std::string> parts;
        parts.reserve(step.require.size());
        for (const TaskPart& part : step.require) parts.push_back(part.name);
        return sheet_paragraph(step.say) + tick_boxes(parts) + to_write("What I did");
    }

    std::string operator()(const HuntStep& step) const {
        std::string part = sheet_paragraph(step.say);
        part += fmt::format("<p>You have {}. Write down only what you pay for.</p>\n",
                            minutes_text(step.budget_min));
        part +=
            "<table class=\"to-fill looks\">\n<thead><tr><th scope=\"col\">Look</th><th "
            "scope=\"col\" "
            "class=\"figure\">minutes</th><th scope=\"col\" class=\"reads\">reads</th><th "
            "scope=\"col\">minutes "
            "left</th></tr></thead>\n<tbody>\n";
        for (const HuntMeasurement& each : step.measurements)
            part += fmt::format(
                "<tr><th scope=\"row\">{}</th><td "
                "class=\"figure\">{}</td><td></td><td></td></tr>\n",
                escaped(each.name), each.price_min);
        const std::size_t causes = step.right.empty() ? 1 : step.right.front().size();
        part += fmt::format("</tbody>\n</table>\n<p>I name {}:</p>\n",
                            causes == 1 ? "one cause" : fmt::format("{} causes", causes));
        return part + tick_boxes(step.causes);
    }
};

std::string notes(const Lesson& lesson) {
    std::string part;
    for (const SheetLine& line : lesson.sheet) {
        if (line.lines > 0)
            part += sheet_paragraph(line.line) + free_lines(line.lines);
        else
            part += to_write(line.line, line.blank == "text" ? "write" : "write short");
    }
    return part;
}

/// The scene, where the lesson begins by setting one.
std::string scene(const Lesson& lesson) {
    if (lesson.steps.empty()) return {};
    const auto* first = std::get_if<TextStep>(&lesson.steps.front());
    if (first == nullptr) return {};
    return fmt::format("<p class=\"scene\">{}</p>\n", escaped(first->text));
}

}  // namespace

std::string learner_sheet(const Lesson& lesson) {
    const std::string facts = fmt::format(
        "<p class=\"facts\">{}</p>\n<p class=\"who\"><span>Name</span>"
        "<span>Date</span></p>",
        minutes_text(lesson.minutes));
    std::string main = cautions_section(lesson);
    main += sheet_section("aim", "Aim", sheet_paragraph(lesson.aim) + scene(lesson));
    int number = 0;
    LearnerStep on_paper{lesson};
    for (const LessonStep& step : lesson.steps) {
        const std::string part = std::visit(on_paper, step);
        if (std::holds_alternative<HuntStep>(step)) on_paper.after_a_hunt = true;
        if (part.empty()) continue;
        main += sheet_section(
            "step", fmt::format("<span class=\"what\">{}</span> {}", ++number, step_word(step)),
            part);
    }
    main += sheet_section("notes", "For your notes", notes(lesson));
    main += sheet_section("take-away", "What I take away", free_lines(lines_for_the_take_away));
    return lesson_sheet_page(lesson, "learner's sheet", facts, main);
}

}  // namespace noonbench::harness
