// SPDX-License-Identifier: MIT
// The settings sheet's page and what it adds to the style of the report's page.
#pragma once
#include <string_view>

namespace noonbench::harness {

/// For filled_page(): style, size, site, site_line, finding, settings, figures, theory, cautions,
/// found, repeat.
extern const std::string_view settings_page;
extern const std::string_view settings_css;

}  // namespace noonbench::harness
