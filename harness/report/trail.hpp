// SPDX-License-Identifier: MIT
// A column of a trace made small enough for a drawing of some hundred units.
#pragma once
#include "traces/table.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace noonbench::harness {

/// One point; without a value the line has a gap there.
struct TrailPoint {
    std::int64_t at_s = 0;
    std::optional<double> value;
};
using Trail = std::vector<TrailPoint>;

/// At most `most` points in order of time. A longer trace is cut into stretches of equal time that
/// keep their least and greatest value, each at its own moment: course_of() spaces them evenly,
/// which a small drawing shows as stairs. A stretch without any value is a gap.
[[nodiscard]] Trail trail_of(const traces::Table& trace, std::size_t column, std::size_t most);

/// What holds of a stretch of time: nowhere in it, all through it, or now and then.
enum class Cell : std::uint8_t { off, on, both };

/// The trace's time in `count` equal stretches. `rows` says for each row whether it holds from then
/// until the next row.
[[nodiscard]] std::vector<Cell> cells_of(const traces::Table& trace, const std::vector<bool>& rows,
                                         std::size_t count);

}  // namespace noonbench::harness
