// SPDX-License-Identifier: MIT
#include "draw_pattern.hpp"

#include "calendar.hpp"
#include "load_profiles.hpp"
#include "random.hpp"
#include "si.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <stdexcept>
#include <string>

namespace noonbench::plant {

namespace {

constexpr double nominal_cold_c = 10.0;
constexpr double nominal_cp_j_kgk = 4186.0;
constexpr double nominal_density_kg_m3 = 1000.0;
constexpr double nominal_warm_c = 40.0;  // for a draw that names no temperature

struct Window {
    std::int32_t from_s;
    std::int32_t until_s;
    double share;  // of the category's draws; the shares of a category sum to 1
};

struct Category {
    std::array<Window, 4> windows;
    double volume_share;  // of the day's water at 45 degC
    double volume_m3;     // mean of one draw
    double flow_m3_s;
    double useful_from_c;
};

constexpr std::int32_t clock(int hour, int minute) {
    return hour * 3600 + minute * 60;
}

// A family's day: common practice, no source. Four kinds of draw with these orders of size and
// share are usual in synthetic household profiles.
constexpr std::array<Category, 4> categories{{
    // Basin: hands and face, all day.
    {{{{clock(6, 0), clock(9, 0), 0.30},
       {clock(9, 0), clock(17, 0), 0.30},
       {clock(17, 0), clock(23, 0), 0.40},
       {0, 0, 0.0}}},
     0.16,
     0.0015,
     3.0 / 60000.0,
     25.0},
    // Kitchen: around meals.
    {{{{clock(6, 30), clock(9, 0), 0.20},
       {clock(11, 30), clock(14, 0), 0.35},
       {clock(14, 0), clock(17, 30), 0.05},
       {clock(17, 30), clock(21, 0), 0.40}}},
     0.24,
     0.006,
     6.0 / 60000.0,
     40.0},
    // Shower: morning first, some in the evening.
    {{{{clock(6, 0), clock(8, 30), 0.60},
       {clock(8, 30), clock(17, 0), 0.05},
       {clock(17, 0), clock(19, 0), 0.10},
       {clock(19, 0), clock(22, 30), 0.25}}},
     0.48,
     0.040,
     8.0 / 60000.0,
     36.0},
    // Bath: mostly evenings.
    {{{{clock(8, 0), clock(11, 0), 0.20},
       {clock(15, 0), clock(18, 0), 0.20},
       {clock(18, 0), clock(22, 0), 0.60},
       {0, 0, 0.0}}},
     0.12,
     0.120,
     12.0 / 60000.0,
     38.0},
}};

constexpr std::int64_t people_wait_s = 120;     // for warm water, then the tap is shut: judged
constexpr double people_draw_c = 45.0;          // the volume is counted at this temperature
constexpr double volume_spread = 0.25;          // of the mean; noise is bounded, so never below 0
constexpr std::int32_t weekend_later_s = 5400;  // mornings start an hour and a half later

void check(const DrawPattern& pattern) {
    if (!(pattern.scale >= 0.0)) {
        throw std::invalid_argument("draw pattern: scale is " + std::to_string(pattern.scale));
    }
    if (pattern.profile != DrawProfile::people) {
        return;
    }
    if (pattern.people < 1 || pattern.people > 20) {
        throw std::invalid_argument("draw pattern: people is " + std::to_string(pattern.people));
    }
    if (!(pattern.volume_m3_person_day >= 0.0 && pattern.volume_m3_person_day <= 0.5)) {
        throw std::invalid_argument("draw pattern: volume_m3_person_day is " +
                                    std::to_string(pattern.volume_m3_person_day));
    }
}

bool is_away(const DrawPattern& pattern, CivilSeconds day_start_s) {
    return std::any_of(pattern.away.begin(), pattern.away.end(), [&](const DaysAway& days) {
        return days.first_s <= day_start_s && day_start_s < days.end_s;
    });
}

bool is_weekend(CivilSeconds day_start_s) {
    // 2000-01-01 was a Saturday.
    const std::int64_t since_saturday = ((day_start_s / seconds_a_day) % 7 + 7) % 7;
    return since_saturday <= 1;
}

std::int32_t time_in_windows(const Category& category, RandomStream stream, std::uint64_t counter) {
    double left = random_uniform(stream, counter);
    const Window* chosen = &category.windows[0];
    for (const Window& window : category.windows) {
        if (window.share > 0.0) {
            chosen = &window;
            if (left < window.share) {
                break;
            }
            left -= window.share;
        }
    }
    return static_cast<std::int32_t>(
        random_integer(stream, counter + 1, chosen->from_s, chosen->until_s - 1));
}

void add_category(const DrawPattern& pattern, std::size_t which, CivilSeconds day_start_s,
                  std::vector<Draw>& draws) {
    const Category& category = categories[which];
    const RandomStream stream =
        sub_stream(sub_stream(random_stream(pattern.seed, "household draws"),
                              static_cast<std::uint64_t>(day_start_s / seconds_a_day)),
                   which);
    const double expected =
        pattern.people * pattern.volume_m3_person_day * category.volume_share / category.volume_m3;
    // Rounded up or down by chance, so that the mean over many days is the expected number.
    const auto count = static_cast<std::uint64_t>(expected + random_uniform(stream, 0));
    for (std::uint64_t i = 0; i < count; ++i) {
        const std::uint64_t counter = 1 + 3 * i;
        std::int32_t second = time_in_windows(category, stream, counter);
        if (is_weekend(day_start_s) && second < clock(11, 0)) {
            second += weekend_later_s;
        }
        const double volume_m3 =
            category.volume_m3 * (1.0 + volume_spread * random_noise(stream, counter + 2));
        const double energy_j =
            volume_m3 * nominal_density_kg_m3 * nominal_cp_j_kgk * (people_draw_c - nominal_cold_c);
        draws.push_back({day_start_s + second, energy_j * pattern.scale, category.flow_m3_s,
                         category.useful_from_c, 0.0, people_wait_s});
    }
}

std::vector<Draw> from_profile(const DrawPattern& pattern, CivilSeconds day_start_s) {
    std::vector<Draw> draws;
    for (const ProfileRow& row : load_profile(pattern.profile)) {
        draws.push_back({day_start_s + clock(row.hour, row.minute),
                         joules_from_kwh(row.energy_kwh) * pattern.scale, row.flow_lpm / 60000.0,
                         row.useful_from_c, row.peak_c});
    }
    return draws;
}

}  // namespace

std::vector<Draw> draws_of_day(const DrawPattern& pattern, CivilSeconds day_start_s) {
    check(pattern);
    if (pattern.scale == 0.0 || is_away(pattern, day_start_s)) {
        return {};
    }
    if (pattern.profile != DrawProfile::people) {
        return from_profile(pattern, day_start_s);
    }
    std::vector<Draw> draws;
    for (std::size_t which = 0; which < categories.size(); ++which) {
        add_category(pattern, which, day_start_s, draws);
    }
    std::stable_sort(draws.begin(), draws.end(),
                     [](const Draw& a, const Draw& b) { return a.at_s < b.at_s; });
    return draws;
}

double energy_asked_j(const std::vector<Draw>& draws) {
    double sum_j = 0.0;
    for (const Draw& draw : draws) {
        sum_j += draw.energy_j;
    }
    return sum_j;
}

double nominal_mass_kg(const Draw& draw) {
    const double named_c = draw.peak_c > 0.0 ? draw.peak_c : draw.useful_from_c;
    const double warm_c = named_c > nominal_cold_c ? named_c : nominal_warm_c;
    return draw.energy_j / (nominal_cp_j_kgk * (warm_c - nominal_cold_c));
}

double nominal_duration_s(const Draw& draw) {
    return nominal_mass_kg(draw) / (draw.flow_m3_s * nominal_density_kg_m3);
}

}  // namespace noonbench::plant
