// SPDX-License-Identifier: MIT
#include "seeded_air.hpp"

#include "cloud_spells.hpp"
#include "sky_temperature.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::plant {

namespace {

constexpr int days = days_a_weather_year;
constexpr std::array<int, 13> first_day_of_month{0,   31,  59,  90,  120, 151, 181,
                                                 212, 243, 273, 304, 334, 365};

constexpr std::int32_t least_at_s = 5 * 3600;  // typical; just before sunrise on a yearly mean
constexpr std::int32_t most_at_s = 15 * 3600;  // typical
constexpr double air_persistence = 0.8;        // typical of Europe, no source
constexpr double dull_half_swing_k = 1.5;      // typical
constexpr double clear_half_swing_k = 3.5;     // on top; typical
constexpr double dew_below_least_k = 1.0;      // common practice: dew falls about the least
constexpr double mean_wind_m_s = 2.5;          // at a roof in a settlement; typical

constexpr int neighbour(int day, int by) {
    return (day + by + days) % days;
}

constexpr const SeededDay& day_at(const SeededYear& year, int day) {
    return year.days[static_cast<std::size_t>(day)];
}

/// Half a cosine from `from` to `to`.
double eased(double from, double to, double done) {
    return from + (to - from) * 0.5 * (1.0 - std::cos(std::numbers::pi * done));
}

/// A value that holds at noon of each day, straight between noons.
template <typename Value>
double between_noons(int day, std::int32_t second, Value value) {
    const double from_noon = static_cast<double>(second - 43200) / 86400.0;
    const double own = value(day);
    const double other = value(neighbour(day, from_noon < 0.0 ? -1 : 1));
    return own + std::abs(from_noon) * (other - own);
}

/// Straight between the middles of the months.
double monthly_base(const std::array<double, 12>& nodes, int day) {
    const int month = month_of_day(day);
    const auto middle = [](int m) {
        const auto i = static_cast<std::size_t>(m);
        return 0.5 * (first_day_of_month[i] + first_day_of_month[i + 1]);
    };
    const double at = day + 0.5;
    const bool first_half = at < middle(month);
    const int from = first_half ? (month + 11) % 12 : month;
    const int to = first_half ? month : (month + 1) % 12;
    double from_at = middle(from);
    double to_at = middle(to);
    from_at -= first_half && from == 11 ? days : 0.0;
    to_at += !first_half && to == 0 ? days : 0.0;
    const double done = (at - from_at) / (to_at - from_at);
    const double before = nodes[static_cast<std::size_t>(from)];
    return before + done * (nodes[static_cast<std::size_t>(to)] - before);
}

void set_days(SeededYear& year, const std::array<double, 12>& nodes,
              const std::array<double, days>& anomaly_k) {
    for (int day = 0; day < days; ++day) {
        SeededDay& own = year.days[static_cast<std::size_t>(day)];
        const double middle_c = monthly_base(nodes, day) + anomaly_k[static_cast<std::size_t>(day)];
        const double half_swing_k = dull_half_swing_k + clear_half_swing_k * own.clearness;
        own.air_least_c = middle_c - half_swing_k;
        own.air_most_c = middle_c + half_swing_k;
    }
}

/// Mean of 06:00..18:00 over the days of a month; the curve is smooth, hourly points suffice.
double daytime_mean_c(const SeededYear& year, std::size_t month) {
    double sum = 0.0;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day) {
        for (int hour = 6; hour <= 18; ++hour) {
            const double weight = hour == 6 || hour == 18 ? 0.5 : 1.0;
            sum += weight * seeded_air_c(year, day, hour * 3600);
        }
    }
    return sum / (12.0 * (first_day_of_month[month + 1] - first_day_of_month[month]));
}

}  // namespace

std::array<double, days> persistent_noise(RandomStream stream, double persistence) {
    constexpr int spin_up = 200;  // 0.9^200 is below the rounding of a double against 1
    const double fresh = std::sqrt(1.0 - persistence * persistence);
    std::array<double, days> noise{};
    double value = 0.0;
    for (int i = -spin_up; i < days; ++i) {
        const int day = neighbour(i, 0);
        value = persistence * value + fresh * random_noise(stream, static_cast<std::uint64_t>(day));
        noise[static_cast<std::size_t>(day)] = value;
    }
    return noise;
}

int month_of_day(int day) {
    const auto next = std::upper_bound(first_day_of_month.begin(), first_day_of_month.end(), day);
    return static_cast<int>(next - first_day_of_month.begin()) - 1;
}

void draw_air(const ClimateTable& table, SeededYear& year) {
    std::array<double, days> anomaly_k =
        persistent_noise(random_stream(year.seed, "air"), air_persistence);
    for (double& k : anomaly_k) {
        k *= table.day_to_day_air_k;
    }
    const RandomStream wind = random_stream(year.seed, "wind of the day");
    for (int day = 0; day < days; ++day) {
        // Lognormal with mean one: exp(s n - s^2 / 2), s = 0.4.
        const double noise = random_noise(wind, static_cast<std::uint64_t>(day));
        year.days[static_cast<std::size_t>(day)].wind_m_s =
            mean_wind_m_s * std::exp(0.4 * noise - 0.08);
    }
    // The middles of the months are moved until the months' means fit. A node carries about three
    // quarters of its own month and an eighth of each neighbour: every round halves the misfit.
    std::array<double, 12> nodes = table.daytime_air_c;
    for (int round = 0; round < 30; ++round) {
        set_days(year, nodes, anomaly_k);
        for (std::size_t month = 0; month < 12; ++month) {
            nodes[month] += table.daytime_air_c[month] - daytime_mean_c(year, month);
        }
    }
    set_days(year, nodes, anomaly_k);
}

double seeded_air_c(const SeededYear& year, int day, std::int32_t second) {
    constexpr double fall_s = 86400.0 - (most_at_s - least_at_s);
    const SeededDay& own = day_at(year, day);
    if (second < least_at_s) {
        const double done = (second + 86400.0 - most_at_s) / fall_s;
        return eased(day_at(year, neighbour(day, -1)).air_most_c, own.air_least_c, done);
    }
    if (second < most_at_s) {
        const double done = static_cast<double>(second - least_at_s) / (most_at_s - least_at_s);
        return eased(own.air_least_c, own.air_most_c, done);
    }
    const double done = (second - most_at_s) / fall_s;
    return eased(own.air_most_c, day_at(year, neighbour(day, 1)).air_least_c, done);
}

double seeded_sky_c(const SeededYear& year, int day, std::int32_t second, double air_c) {
    const double dew_c = between_noons(day, second, [&year](int which) {
        return day_at(year, which).air_least_c - dew_below_least_k;
    });
    const double tenths = between_noons(day, second, [&year](int which) {
        return 10.0 * cloud_climate(day_at(year, which).clearness).cloudy_share;
    });
    return sky_c_from_emissivity(sky_emissivity(std::min(dew_c, air_c), tenths), air_c);
}

double seeded_wind_m_s(const SeededYear& year, int day, std::int32_t second) {
    const double mean =
        between_noons(day, second, [&year](int which) { return day_at(year, which).wind_m_s; });
    const double afternoon =
        1.0 + 0.25 * std::cos(2.0 * std::numbers::pi * (second - 14.0 * 3600.0) / 86400.0);
    const RandomStream gusts = random_stream(year.seed, "wind of the hour");
    const auto gust = [&gusts, day](int hour) {
        const int of_year = (day * 24 + hour) % (days * 24);
        return std::exp(0.25 * random_noise(gusts, static_cast<std::uint64_t>(of_year)) - 0.03125);
    };
    const int hour = second / 3600;
    const double done = (second % 3600) / 3600.0;
    const double from = gust(hour);
    const double factor = done > 0.0 ? from + done * (gust(hour + 1) - from) : from;
    return mean * afternoon * factor;
}

}  // namespace noonbench::plant
