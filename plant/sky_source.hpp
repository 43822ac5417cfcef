// SPDX-License-Identifier: MIT
// The common shape of everything that can be asked for a day of sky.
#pragma once
#include "sky.hpp"

#include <concepts>
#include <vector>

namespace noonbench::plant {

/// For a source S there is a function
///     std::vector<SkyKnot> knots_of_day(const S&, CivilSeconds day_start_s)
/// that gives the sky from the midnight `day_start_s` to the next. The first knot stands on the
/// one, the last before the other, whose own first knot closes the day; at_s rises strictly;
/// between knots all is linear. Days may be asked for in any order: the answer depends on the
/// arguments alone. A source carries its site.
template <typename S>
concept SkySource = requires(const S& source, CivilSeconds day_start_s) {
    { knots_of_day(source, day_start_s) } -> std::same_as<std::vector<SkyKnot>>;
};

}  // namespace noonbench::plant
