// SPDX-License-Identifier: MIT
// The sky brought to the collectors: sun's place, skyline, Perez's sky on each plane, incidence.
#pragma once
#include "parameters.hpp"
#include "sky.hpp"

#include <span>

namespace noonbench::plant {

/// What each row receives and could absorb (before eta0) at a knot.
/// - Beam and circumsolar light come from the apparent sun; both are gone while its centre stands
///   behind the skyline.
/// - The rest of the sky, and the sky's light on the ground, are reduced by `sky_view(skyline)`;
///   the skyline itself sends nothing.
/// - The ground reflects what reaches it, with the site's albedo.
/// - Beam and circumsolar pass the beam's modifier, everything else K_d.
/// Between knots all is linear, so the edge of a skyline is as wide as the knots are apart.
/// Nothing is below zero. Throws std::invalid_argument for more than `most_rows` rows.
[[nodiscard]] PlaneKnot on_planes(const Site& site, std::span<const Row> rows, const SkyKnot& sky);

}  // namespace noonbench::plant
