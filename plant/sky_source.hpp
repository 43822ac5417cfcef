// SPDX-License-Identifier: MIT
// The common shape of everything that can be asked for a day of sky.
#pragma once
#include <concepts>
#include <vector>

#include "parameters.hpp"
#include "sky.hpp"

namespace noonbench::plant {

/// For a source S there is a function
///     std::vector<SkyKnot> knots_of_day(const Site&, const S&, CivilSeconds midnight_s)
/// It gives the sky from `midnight_s` to the next midnight. The first knot stands on the one, the
/// last on the other; at_s rises strictly; between knots all is linear. The last knot of a day is
/// the first of the next, so days join when one of the two is dropped. Days may be asked for in any
/// order: the answer depends on the arguments alone.
template <typename S>
concept SkySource = requires(const Site& site, const S& source, CivilSeconds midnight_s) {
    { knots_of_day(site, source, midnight_s) } -> std::same_as<std::vector<SkyKnot>>;
};

}  // namespace noonbench::plant
