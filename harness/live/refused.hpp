// SPDX-License-Identifier: MIT
// How a page is told that a wish is no good.
#pragma once
#include <stdexcept>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// Told to the page; nothing was changed.
struct Refused : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// {"is":"error","of":..,"what":..}
[[nodiscard]] std::string error_message(std::string_view of, std::string_view what);

}  // namespace noonbench::harness
