// SPDX-License-Identifier: MIT
// The series behind the sun's place: earth about the sun (VSOP87) and nutation (IAU 1980), both as
// tabled by Reda & Andreas, NREL/TP-560-34302, tables A4.2 and A4.3, cut to the larger terms.
#pragma once

namespace noonbench::plant {

/// Earth seen from the sun, ecliptic of date.
struct EarthPlace {
    double longitude_rad = 0.0;
    double latitude_rad = 0.0;
    double distance_au = 1.0;
};
/// `millennia`: Julian ephemeris millennia of 365250 days since J2000.0.
[[nodiscard]] EarthPlace earth_place(double millennia);

struct Nutation {
    double longitude_rad = 0.0;
    double obliquity_rad = 0.0;
};
/// `centuries`: Julian ephemeris centuries of 36525 days since J2000.0.
[[nodiscard]] Nutation nutation(double centuries);

}  // namespace noonbench::plant
