// SPDX-License-Identifier: MIT
// The files page.html, page.css and page.js as they stood when this was built.
#pragma once
#include <string_view>

namespace noonbench::harness {

extern const std::string_view page_html;
extern const std::string_view page_css;
extern const std::string_view page_js;

}  // namespace noonbench::harness
