// SPDX-License-Identifier: MIT
#include "irradiance.hpp"

#include "incidence.hpp"
#include "skyline.hpp"
#include "sun.hpp"
#include "transposition.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <string>

namespace noonbench::plant {
namespace {

/// The sky of a knot and what Perez's model must know of the sun, before any skyline.
SkyState seen_sky(const SkyKnot& sky, const SunPosition& sun) {
    SkyState seen;
    seen.extraterrestrial_normal_w_m2 = extraterrestrial_normal_w_m2(sun.distance_au);
    seen.air_mass = relative_air_mass(sun.apparent_elevation_rad);
    seen.cos_zenith = std::sin(sun.apparent_elevation_rad);
    seen.beam_normal_w_m2 = sun.apparent_elevation_rad > 0.0 ? sky.beam_normal_w_m2 : 0.0;
    seen.diffuse_horizontal_w_m2 = std::max(0.0, sky.diffuse_horizontal_w_m2);
    return seen;
}

struct Loss {
    bool sun_hidden = false;
    double sky_view = 1.0;
};

/// What comes through: the model first sees the whole sky (its brightness does not depend on our
/// hills), then the hills take their part of each component.
PlaneIrradiance through_skyline(PlaneIrradiance on, const Loss& loss, const SkyState& sky,
                                const PlaneView& plane) {
    if (loss.sun_hidden) on.beam = on.circumsolar = 0.0;
    on.dome *= loss.sky_view;
    on.horizon *= loss.sky_view;
    const double beam = loss.sun_hidden ? 0.0 : sky.beam_normal_w_m2 * sky.cos_zenith;
    const double on_ground = beam + sky.diffuse_horizontal_w_m2 * loss.sky_view;
    on.ground = plane.ground_albedo * on_ground * 0.5 * (1.0 - std::cos(plane.slope_rad));
    return on;
}

}  // namespace

PlaneKnot on_planes(const Site& site, std::span<const Row> rows, const SkyKnot& sky) {
    if (rows.size() > static_cast<std::size_t>(most_rows)) {
        throw std::invalid_argument("on_planes: " + std::to_string(rows.size()) +
                                    " rows, at most " + std::to_string(most_rows));
    }
    PlaneKnot knot;
    knot.at_s = sky.at_s;
    knot.air_c = sky.air_c;
    knot.sky_c = sky.sky_c;
    knot.wind_m_s = sky.wind_m_s;
    if (sky.beam_normal_w_m2 <= 0.0 && sky.diffuse_horizontal_w_m2 <= 0.0) return knot;

    const SunPosition sun = sun_position(site, static_cast<double>(sky.at_s));
    const SkyState seen = seen_sky(sky, sun);
    const Direction towards = direction_of(sun.apparent_elevation_rad, sun.azimuth_rad);
    const Loss loss{sun.apparent_elevation_rad < skyline_rad(site.horizon, sun.azimuth_rad),
                    sky_view(site.horizon)};
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Row& row = rows[i];
        const IncidenceAngles angles = incidence_angles(row.slope_rad, row.azimuth_rad, towards);
        const PlaneView plane{row.slope_rad, angles.cos_incidence, site.ground_albedo};
        const PlaneIrradiance on =
            through_skyline(on_plane(SkyModel::perez, seen, plane), loss, seen, plane);
        const IncidenceModifier& modifier = row.collector.incidence;
        const double aimed = on.beam + on.circumsolar;
        const double spread = on.dome + on.horizon + on.ground;
        knot.received_w_m2[i] = on.total();
        knot.absorbable_w_m2[i] =
            std::max(0.0, beam_modifier(modifier, angles) * aimed + modifier.diffuse * spread);
    }
    return knot;
}

}  // namespace noonbench::plant
