// SPDX-License-Identifier: MIT
// Temperature of the cold water that enters the house, over the year.
#pragma once
#include "sky.hpp"

namespace noonbench::plant {

/// Either a correlation with the climate's air temperature or a fixed yearly sine.
struct Mains {
    bool from_air = false;  // true: Christensen & Burch, from the two figures below

    // From the air (Christensen & Burch). Fitted to mains in the USA; elsewhere a rough guide.
    double air_mean_c = 11.0;   // mean of the year
    double air_range_k = 19.4;  // warmest minus coldest monthly mean
    bool southern = false;      // half a year later

    // Fixed: mean + amplitude, warmest on the given day of the year.
    double mean_c = 10.0;
    double amplitude_k = 3.0;  // typical for buried mains in Central Europe; 0: constant
    double warmest_day = 227.0;

    double least_c = 1.0;  // clamp: the correlation can fall below freezing in cold climates
};

/// Temperature in degrees Celsius on a day of the year (1.0 = 1 January, fractions allowed).
double mains_on_day_c(const Mains& mains, double day_of_year);

/// The same at an instant of local standard time.
double mains_c(const Mains& mains, CivilSeconds at_s);

}  // namespace noonbench::plant
