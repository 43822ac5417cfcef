// SPDX-License-Identifier: MIT
#include "sun_series.hpp"

#include "si.hpp"

#include <cmath>
#include <numbers>
#include <span>

namespace noonbench::plant {
namespace {

struct Term {
    double amplitude;  // 1e-8 rad or au
    double phase_rad;
    double rate_rad;  // per millennium
};

constexpr Term longitude_0[] = {
    {175347046.0, 0.0, 0.0},       {3341656.0, 4.6692568, 6283.07585},
    {34894.0, 4.6261, 12566.1517}, {3497.0, 2.7441, 5753.3849},
    {3418.0, 2.8289, 3.5231},      {3136.0, 3.6277, 77713.7715},
    {2676.0, 4.4181, 7860.4194},   {2343.0, 6.1352, 3930.2097},
    {1324.0, 0.7425, 11506.7698},  {1273.0, 2.0371, 529.691},
    {1199.0, 1.1096, 1577.3435},   {990.0, 5.233, 5884.927},
    {902.0, 2.045, 26.298},        {857.0, 3.508, 398.149},
    {780.0, 1.179, 5223.694},      {753.0, 2.533, 5507.553},
    {505.0, 4.583, 18849.228},     {492.0, 4.205, 775.523},
    {357.0, 2.92, 0.067},          {317.0, 5.849, 11790.629},
    {284.0, 1.899, 796.298},       {271.0, 0.315, 10977.079},
};
constexpr Term longitude_1[] = {
    {628331966747.0, 0.0, 0.0}, {206059.0, 2.678235, 6283.07585}, {4303.0, 2.6351, 12566.1517},
    {425.0, 1.59, 3.523},       {119.0, 5.796, 26.298},           {109.0, 2.966, 1577.344},
};
constexpr Term longitude_2[] = {
    {52919.0, 0.0, 0.0}, {8720.0, 1.0721, 6283.0758}, {309.0, 0.867, 12566.152}};
constexpr Term latitude_0[] = {{280.0, 3.199, 84334.662}, {102.0, 5.422, 5507.553}};
constexpr Term distance_0[] = {
    {100013989.0, 0.0, 0.0},        {1670700.0, 3.0984635, 6283.07585},
    {13956.0, 3.05525, 12566.1517}, {3084.0, 5.1985, 77713.7715},
    {1628.0, 1.1739, 5753.3849},    {1576.0, 2.8469, 7860.4194},
    {925.0, 5.453, 11506.77},       {542.0, 4.564, 3930.21},
    {472.0, 3.661, 5884.927},       {346.0, 0.964, 5507.553},
    {329.0, 5.9, 5223.694},         {307.0, 0.299, 5573.143},
    {243.0, 4.273, 11790.629},      {212.0, 5.847, 1577.344},
};
constexpr Term distance_1[] = {
    {103019.0, 1.10749, 6283.07585}, {1721.0, 1.0644, 12566.1517}, {702.0, 3.142, 0.0}};
constexpr Term distance_2[] = {{4359.0, 5.7846, 6283.0758}, {124.0, 5.579, 12566.152}};

double sum(std::span<const Term> terms, double millennia) {
    double total = 0.0;
    for (const Term& term : terms) {
        total += term.amplitude * std::cos(term.phase_rad + term.rate_rad * millennia);
    }
    return total * 1e-8;
}

/// Multiples of the five arguments; amplitudes in 0.0001 arc seconds, and their change a century.
struct NutationTerm {
    int elongation, sun_anomaly, moon_anomaly, moon_latitude, node;
    double longitude, longitude_rate, obliquity, obliquity_rate;
};

constexpr NutationTerm nutation_terms[] = {
    {0, 0, 0, 0, 1, -171996.0, -174.2, 92025.0, 8.9},
    {-2, 0, 0, 2, 2, -13187.0, -1.6, 5736.0, -3.1},
    {0, 0, 0, 2, 2, -2274.0, -0.2, 977.0, -0.5},
    {0, 0, 0, 0, 2, 2062.0, 0.2, -895.0, 0.5},
    {0, 1, 0, 0, 0, 1426.0, -3.4, 54.0, -0.1},
    {0, 0, 1, 0, 0, 712.0, 0.1, -7.0, 0.0},
    {-2, 1, 0, 2, 2, -517.0, 1.2, 224.0, -0.6},
    {0, 0, 0, 2, 1, -386.0, -0.4, 200.0, 0.0},
    {0, 0, 1, 2, 2, -301.0, 0.0, 129.0, -0.1},
    {-2, -1, 0, 2, 2, 217.0, -0.5, -95.0, 0.3},
};

}  // namespace

EarthPlace earth_place(double millennia) {
    const double t = millennia;
    return {sum(longitude_0, t) + t * (sum(longitude_1, t) + t * sum(longitude_2, t)),
            sum(latitude_0, t),
            sum(distance_0, t) + t * (sum(distance_1, t) + t * sum(distance_2, t))};
}

Nutation nutation(double centuries) {
    const double t = centuries;
    // Linear parts only: the squares move these angles by less than 0.002 deg within a century,
    // which changes the nutation by nothing that counts here.
    const double elongation = radians(297.85036 + 445267.11148 * t);
    const double sun_anomaly = radians(357.52772 + 35999.05034 * t);
    const double moon_anomaly = radians(134.96298 + 477198.867398 * t);
    const double moon_latitude = radians(93.27191 + 483202.017538 * t);
    const double node = radians(125.04452 - 1934.136261 * t);
    Nutation total;
    for (const NutationTerm& term : nutation_terms) {
        const double angle = term.elongation * elongation + term.sun_anomaly * sun_anomaly +
                             term.moon_anomaly * moon_anomaly + term.moon_latitude * moon_latitude +
                             term.node * node;
        total.longitude_rad += (term.longitude + term.longitude_rate * t) * std::sin(angle);
        total.obliquity_rad += (term.obliquity + term.obliquity_rate * t) * std::cos(angle);
    }
    constexpr double unit = std::numbers::pi / 180.0 / 3600.0 * 1e-4;
    return {total.longitude_rad * unit, total.obliquity_rad * unit};
}

}  // namespace noonbench::plant
