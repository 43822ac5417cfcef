// SPDX-License-Identifier: MIT
// The pages' files beside this as they stood when this was built.
#pragma once
#include <string_view>

namespace noonbench::harness {

extern const std::string_view page_html;
extern const std::string_view page_css;
extern const std::string_view page_js;
extern const std::string_view faults_html;
extern const std::string_view faults_css;

}  // namespace noonbench::harness
