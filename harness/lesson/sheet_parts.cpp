// SPDX-License-Identifier: MIT
#include "sheet_parts.hpp"

#include "assets.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <array>

namespace noonbench::harness {

std::string lesson_sheet_page(const Lesson& lesson, std::string_view kind, std::string_view facts,
                              std::string_view main) {
    return filled_page(lesson_sheet_html, {{"title", escaped(lesson.title)},
                                           {"number", std::to_string(lesson.number)},
                                           {"kind", std::string(kind)},
                                           {"facts", std::string(facts)},
                                           {"style", std::string(lesson_sheet_css)},
                                           {"main", std::string(main)}});
}

std::string sheet_section(std::string_view css_class, std::string_view heading,
                          std::string_view content) {
    if (content.empty()) return {};
    return fmt::format("<section class=\"{}\">\n<h2>{}</h2>\n{}</section>\n", css_class, heading,
                       content);
}

std::string sheet_paragraph(std::string_view text) {
    return text.empty() ? std::string() : fmt::format("<p>{}</p>\n", escaped(text));
}

std::string sheet_list(const std::vector<std::string>& texts) {
    if (texts.empty()) return {};
    std::string list = "<ul>\n";
    for (const std::string& text : texts) list += fmt::format("<li>{}</li>\n", escaped(text));
    return list + "</ul>\n";
}

std::string cautions_section(const Lesson& lesson) {
    return sheet_section("cautions", "Before you touch anything", sheet_list(lesson.cautions));
}

std::string_view step_word(const LessonStep& step) {
    static constexpr std::array<std::string_view, 6> words{"Tell", "Predict", "Watch",
                                                           "Try",  "Task",    "Hunt"};
    return words[step.index()];
}

std::string minutes_text(int minutes) {
    return fmt::format("{} {}", minutes, minutes == 1 ? "minute" : "minutes");
}

}  // namespace noonbench::harness
