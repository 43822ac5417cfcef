// SPDX-License-Identifier: MIT
// The sheets' files beside this as they stood when this was built.
#pragma once
#include <string_view>

namespace noonbench::harness {

extern const std::string_view lesson_sheet_html;
extern const std::string_view lesson_sheet_css;

}  // namespace noonbench::harness
