// SPDX-License-Identifier: MIT
// The 24-hour load profiles of Regulation (EU) 812/2013, Annex VII table 3 (the same as in
// Regulation (EU) 814/2013, Annex III table 1), as printed there.
#pragma once
#include "draw_pattern.hpp"

#include <cstdint>
#include <span>

namespace noonbench::plant {

/// One row of the table, in the table's own units.
struct ProfileRow {
    std::int8_t hour;
    std::int8_t minute;
    double energy_kwh;
    double flow_lpm;       // least flow that counts
    double useful_from_c;  // water counts from here
    double peak_c;         // to be reached; 0: none
};

/// The rows in order of time; empty for `none` and `people`.
std::span<const ProfileRow> load_profile(DrawProfile profile);

}  // namespace noonbench::plant
