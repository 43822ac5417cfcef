// SPDX-License-Identifier: MIT
#include "mains.hpp"

#include "calendar.hpp"
#include "si.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

namespace {

// Christensen & Burch (Hendron et al., SimBuild 2004; Burch & Christensen, NREL 2007). The
// correlation is published in degrees Fahrenheit and degrees of arc; kept so to be comparable.
double correlation_c(const Mains& mains, double day_of_year) {
    const double mean_f = mains.air_mean_c * 1.8 + 32.0;
    const double half_range_f = mains.air_range_k * 1.8 / 2.0;
    const double ratio = 0.4 + 0.01 * (mean_f - 44.0);
    const double lag_days = 35.0 - 1.0 * (mean_f - 44.0);
    const double season = mains.southern ? 90.0 : -90.0;
    const double angle = radians(0.986 * (day_of_year - 15.0 - lag_days) + season);
    const double mains_f = mean_f + 6.0 + ratio * half_range_f * std::sin(angle);
    return (mains_f - 32.0) / 1.8;
}

double fixed_c(const Mains& mains, double day_of_year) {
    const double angle = radians(360.0 * (day_of_year - mains.warmest_day) / 365.0);
    return mains.mean_c + mains.amplitude_k * std::cos(angle);
}

}  // namespace

double mains_on_day_c(const Mains& mains, double day_of_year) {
    const double free =
        mains.from_air ? correlation_c(mains, day_of_year) : fixed_c(mains, day_of_year);
    return std::max(free, mains.least_c);
}

double mains_c(const Mains& mains, CivilSeconds at_s) {
    const CivilSeconds new_year = midnight_of({date_of(at_s).year, 1, 1});
    const double days = static_cast<double>(at_s - new_year) / static_cast<double>(seconds_a_day);
    return mains_on_day_c(mains, 1.0 + days);
}

}  // namespace noonbench::plant
