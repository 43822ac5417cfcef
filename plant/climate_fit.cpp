// SPDX-License-Identifier: MIT
#include "climate_fit.hpp"

#include "clear_moment.hpp"
#include "cloud_spells.hpp"
#include "seeded_air.hpp"
#include "si.hpp"
#include "transposition.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

namespace noonbench::plant {

namespace {

constexpr int days = days_a_weather_year;
constexpr double fitting_slope_rad = radians(45.0);
constexpr double fitting_azimuth_rad = radians(180.0);
constexpr int fitting_year = 2021;

// Lag-one correlation of daily clearness: 0.2..0.4 in the literature (from memory: Aguiar &
// Collares-Pereira 1988). The spread makes dull and clear days common and half-clear ones rare.
constexpr double clearness_persistence = 0.4;
constexpr double clearness_spread = 1.8;

/// A moment of the reference place that does not depend on the clouds.
struct FittingMoment {
    std::int32_t second;
    HorizontalSky clear;
    SkyState state;
    PlaneView plane;
};

using FittingDay = std::vector<FittingMoment>;

FittingDay fitting_day(const ClimateTable& table, int day) {
    const Site& site = table.reference_site;
    const double turbidity = table.linke_turbidity[static_cast<std::size_t>(month_of_day(day))];
    const CivilSeconds midnight_s = midnight_of({fitting_year, 1, 1}) + day * seconds_a_day;
    const Direction normal = normal_of_plane(fitting_slope_rad, fitting_azimuth_rad);
    FittingDay moments;
    for (const std::int32_t second : daylight_marks(site, midnight_s, seeded_grid_s)) {
        const ClearMoment clear = clear_moment(site, turbidity, midnight_s + second);
        FittingMoment moment{second, clear.sky, {}, {}};
        moment.state.extraterrestrial_normal_w_m2 = clear.extraterrestrial_normal_w_m2;
        moment.state.air_mass = clear.air_mass;
        moment.state.cos_zenith = clear.cos_zenith;
        moment.plane.slope_rad = fitting_slope_rad;
        moment.plane.ground_albedo = site.ground_albedo;
        moment.plane.cos_incidence =
            dot(normal, direction_of(clear.sun.apparent_elevation_rad, clear.sun.azimuth_rad));
        moments.push_back(moment);
    }
    return moments;
}

double received_w_m2(const FittingMoment& moment, const CloudClimate& clouds, double cover) {
    if (moment.clear.global_horizontal_w_m2 <= 0.0) {
        return 0.0;
    }
    const HorizontalSky sky = behind_clouds(moment.clear, clouds, cover, moment.state.cos_zenith);
    SkyState state = moment.state;
    state.beam_normal_w_m2 = sky.beam_normal_w_m2;
    state.diffuse_horizontal_w_m2 = sky.diffuse_horizontal_w_m2;
    return on_plane(SkyModel::perez, state, moment.plane).total();
}

/// What the plane receives in a gap and under a cloud; straight between two moments.
struct Pair {
    std::int32_t second;
    double gap_w_m2;
    double cloud_w_m2;
};

double at_cover(const Pair& from, const Pair& to, std::int32_t second, double cover) {
    const double done =
        static_cast<double>(second - from.second) / static_cast<double>(to.second - from.second);
    const double gap = from.gap_w_m2 + done * (to.gap_w_m2 - from.gap_w_m2);
    const double cloud = from.cloud_w_m2 + done * (to.cloud_w_m2 - from.cloud_w_m2);
    return gap + cover * (cloud - gap);
}

/// The day's cover with its bends, read forward.
class CoverWalk {
  public:
    explicit CoverWalk(const std::vector<CloudEdge>& edges)
        : turns_(bends(edges)), turn_(turns_.begin()), cover_(edges) {}

    /// J/m2 between two neighbouring moments, by trapezoids between the bends.
    double energy_j_m2(const Pair& from, const Pair& to) {
        turn_ = std::upper_bound(turn_, turns_.cend(), from.second);
        double energy = 0.0;
        std::int32_t at_s = from.second;
        double w_m2 = at_cover(from, to, at_s, cover_.at(at_s));
        while (at_s < to.second) {
            const bool bend_first = turn_ != turns_.cend() && *turn_ < to.second;
            const std::int32_t next_s = bend_first ? *turn_++ : to.second;
            const double next_w_m2 = at_cover(from, to, next_s, cover_.at(next_s));
            energy += 0.5 * (w_m2 + next_w_m2) * (next_s - at_s);
            at_s = next_s;
            w_m2 = next_w_m2;
        }
        return energy;
    }

  private:
    std::vector<std::int32_t> turns_;
    std::vector<std::int32_t>::const_iterator turn_;
    CoverReader cover_;
};

/// J/m2 of a day on the plane.
double energy_j_m2(const FittingDay& moments, double clearness, RandomStream stream) {
    const CloudClimate clouds = cloud_climate(clearness);
    const std::vector<CloudEdge> edges = cloud_edges(clouds.cloudy_share, stream);
    CoverWalk walk(edges);
    double energy = 0.0;
    Pair from{};
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const FittingMoment& moment = moments[i];
        const Pair to{moment.second, received_w_m2(moment, clouds, 0.0),
                      received_w_m2(moment, clouds, 1.0)};
        if (i > 0) {
            energy += walk.energy_j_m2(from, to);
        }
        from = to;
    }
    return energy;
}

double logistic(double x) {
    return 1.0 / (1.0 + std::exp(-x));
}

/// One month under the bisection.
class MonthFit {
  public:
    MonthFit(const ClimateTable& table, SeededYear& year, const std::array<double, days>& noise,
             int month)
        : year_(year), noise_(noise) {
        for (int day = 0; day < days; ++day) {
            if (month_of_day(day) == month) {
                first_ = moments_.empty() ? day : first_;
                moments_.push_back(fitting_day(table, day));
            }
        }
    }

    /// Sets the month's days for this shift; returns the mean over 24 h.
    double apply(double shift) {
        double energy = 0.0;
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            const int day = first_ + static_cast<int>(i);
            const auto index = static_cast<std::size_t>(day);
            const double clearness = logistic(shift + clearness_spread * noise_[index]);
            year_.days[index].clearness = clearness;
            energy += energy_j_m2(moments_[i], clearness, cloud_stream(year_, day));
        }
        return energy / (static_cast<double>(moments_.size()) * seconds_a_day);
    }

  private:
    SeededYear& year_;
    const std::array<double, days>& noise_;
    std::vector<FittingDay> moments_{};
    int first_ = 0;
};

void fit_month(const ClimateTable& table, SeededYear& year, const std::array<double, days>& noise,
               int month) {
    const double target = table.irradiance_w_m2[static_cast<std::size_t>(month)];
    MonthFit fit(table, year, noise, month);
    double dull = -10.0;
    double clear = 10.0;
    if (!(fit.apply(dull) < target && target < fit.apply(clear))) {
        throw std::domain_error("climate " + std::string(table.name) + ": month " +
                                std::to_string(month + 1) + " cannot reach " +
                                std::to_string(target) + " W/m2");
    }
    // Nearly continuous in the shift (edges sit on whole seconds), so a change of sign is enough.
    for (int halving = 0; halving < 18; ++halving) {
        const double middle = 0.5 * (dull + clear);
        (fit.apply(middle) < target ? dull : clear) = middle;
    }
    fit.apply(0.5 * (dull + clear));
}

}  // namespace

RandomStream cloud_stream(const SeededYear& year, int day) {
    return sub_stream(random_stream(year.seed, "clouds"), static_cast<std::uint64_t>(day));
}

void draw_clearness(const ClimateTable& table, SeededYear& year) {
    const std::array<double, days> noise =
        persistent_noise(random_stream(year.seed, "clearness"), clearness_persistence);
    for (int month = 0; month < 12; ++month) {
        fit_month(table, year, noise, month);
    }
}

}  // namespace noonbench::plant
