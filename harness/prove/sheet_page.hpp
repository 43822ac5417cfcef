// SPDX-License-Identifier: MIT
// The data sheet's page and what it adds to the style of the report's page.
#pragma once
#include <string_view>

namespace noonbench::harness {

/// For filled_page(): style, device, not_a_certificate, not_covered, result, troubles, tests,
/// grounds, cautions.
extern const std::string_view sheet_page;
extern const std::string_view sheet_css;

}  // namespace noonbench::harness
