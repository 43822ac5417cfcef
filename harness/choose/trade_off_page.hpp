// SPDX-License-Identifier: MIT
// The page of all choices tried: frame, what it adds to the style of the report's page, and script.
#pragma once
#include <string_view>

namespace noonbench::harness {

/// For filled_page(): style, site, site_line, finding, axis_controls, filters, picture, legend,
/// none_tried, table, theory, cautions, found, repeat, data, script.
extern const std::string_view trade_off_page;
extern const std::string_view trade_off_css;
extern const std::string_view trade_off_js;

}  // namespace noonbench::harness
