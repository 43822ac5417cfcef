// SPDX-License-Identifier: MIT
#include "axis.hpp"

#include "text.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace noonbench::harness {

double round_step(double span, int wanted) {
    const double rough = span / wanted;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (rough <= factor * power) return factor * power;
    }
    return 10.0 * power;
}

std::vector<double> round_values(double from, double until, double step) {
    constexpr double slack = 1e-9;  // of a step: an end that is a multiple stays within
    const long first = std::lround(std::ceil(from / step - slack));
    const long last = std::lround(std::floor(until / step + slack));
    std::vector<double> values;
    for (long i = first; i <= last; ++i) values.push_back(static_cast<double>(i) * step);
    return values;
}

std::vector<std::int64_t> time_ticks(std::int64_t from_s, std::int64_t until_s, int most) {
    constexpr std::array<std::int64_t, 12> steps{60,    300,   900,   1800,  3600,   7200,
                                                 10800, 21600, 43200, 86400, 172800, 604800};
    std::int64_t step = steps.back();
    for (const std::int64_t candidate : steps) {
        if ((until_s - from_s) / candidate > most) continue;
        step = candidate;
        break;
    }
    std::vector<std::int64_t> ticks;
    for (std::int64_t at = (from_s + step - 1) / step * step; at <= until_s; at += step) {
        ticks.push_back(at);
    }
    return ticks;
}

std::string tick_text(std::int64_t at_s) {
    if (second_of_day(at_s) != 0) return hour_text(second_of_day(at_s));
    const CivilDate date = date_of(at_s);
    return fmt::format("{} {}", date.day, month_text(date.month));
}

}  // namespace noonbench::harness
