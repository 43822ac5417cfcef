// SPDX-License-Identifier: MIT
// What the two sheets of a lesson have in common.
#pragma once
#include "lesson.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// The whole page around its main part.
[[nodiscard]] std::string lesson_sheet_page(const Lesson& lesson, std::string_view kind,
                                            std::string_view facts, std::string_view main);

/// A section with a heading; nothing where the content is empty.
[[nodiscard]] std::string sheet_section(std::string_view css_class, std::string_view heading,
                                        std::string_view content);
[[nodiscard]] std::string sheet_paragraph(std::string_view text);
/// An unordered list of texts; empty for none.
[[nodiscard]] std::string sheet_list(const std::vector<std::string>& texts);

[[nodiscard]] std::string cautions_section(const Lesson& lesson);

/// "Predict", "Watch", ...
[[nodiscard]] std::string_view step_word(const LessonStep& step);

/// ", 3 minutes" and its kind: "1 minute", "25 minutes".
[[nodiscard]] std::string minutes_text(int minutes);

}  // namespace noonbench::harness
