// SPDX-License-Identifier: MIT
// Where within a value of a file something stands, although YAML folds, quotes and indents it.
#pragma once
#include "harness/scenario/problem.hpp"

#include <cstddef>
#include <string_view>

namespace noonbench::harness {

/// Line and column of an offset in a value that begins at `place`. Reads the file again and walks
/// source and value side by side. Where the two do not fit (escapes, a file that is gone, a value
/// that never stood in a file): `place` itself.
[[nodiscard]] Place place_in_scalar(const Place& place, std::string_view value, std::size_t offset);

/// The same within a source at hand.
[[nodiscard]] Place place_in_scalar(const Place& place, std::string_view value, std::size_t offset,
                                    std::string_view source);

/// Line and column of an offset in a text of its own.
[[nodiscard]] Place place_in_text(std::string_view file, std::string_view text, std::size_t offset);

}  // namespace noonbench::harness
