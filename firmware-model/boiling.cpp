// SPDX-License-Identifier: MIT
#include "boiling.hpp"

#include "bounds.hpp"
#include "setting_values.hpp"

#include <array>
#include <cstddef>

namespace noonbench::firmware {

namespace {

constexpr std::int32_t share_step_pct = 10;
constexpr std::int32_t most_share_pct = 50;

struct BoilingRow {
    std::int16_t absolute_centibar;
    std::array<std::int16_t, 6> centicelsius;  // at 0, 10, .. 50 % of glycol
};

constexpr std::array<BoilingRow, 13> table = {{
    {50, {8132, 8198, 8277, 8375, 8498, 8658}},
    {75, {9176, 9246, 9331, 9435, 9566, 9736}},
    {100, {9961, 10035, 10123, 10232, 10368, 10546}},
    {125, {10597, 10673, 10765, 10877, 11019, 11203}},
    {150, {11135, 11214, 11308, 11424, 11570, 11760}},
    {200, {12021, 12104, 12203, 12324, 12477, 12676}},
    {250, {12741, 12827, 12930, 13056, 13214, 13420}},
    {300, {13353, 13441, 13547, 13677, 13840, 14052}},
    {350, {13886, 13977, 14085, 14219, 14386, 14604}},
    {400, {14361, 14454, 14565, 14702, 14873, 15095}},
    {500, {15184, 15280, 15395, 15537, 15715, 15946}},
    {600, {15883, 15983, 16102, 16248, 16431, 16669}},
    {700, {16495, 16598, 16720, 16870, 17058, 17302}},
}};

/// Between two columns of one row; exact at the columns. Products stay below 50 * 900.
std::int32_t at_share(const BoilingRow& row, std::int32_t share_pct) {
    const auto left = static_cast<std::size_t>(
        lesser(share_pct / share_step_pct, most_share_pct / share_step_pct - 1));
    const std::int32_t beyond = share_pct - static_cast<std::int32_t>(left) * share_step_pct;
    const std::int32_t rise = row.centicelsius[left + 1] - row.centicelsius[left];
    return row.centicelsius[left] + rise * beyond / share_step_pct;
}

}  // namespace

Temperature boiling_point(std::int16_t glycol_share_pct, std::int32_t absolute_centibar) noexcept {
    const std::int32_t share = held_within<std::int32_t>(glycol_share_pct, 0, most_share_pct);
    const std::int32_t pressure = held_within<std::int32_t>(
        absolute_centibar, table.front().absolute_centibar, table.back().absolute_centibar);
    std::size_t upper = 1;
    while (pressure > table[upper].absolute_centibar) {
        ++upper;
    }
    const BoilingRow& below = table[upper - 1];
    const BoilingRow& above = table[upper];
    const std::int32_t low = at_share(below, share);
    const std::int32_t rise = at_share(above, share) - low;
    const std::int32_t step = above.absolute_centibar - below.absolute_centibar;
    return {static_cast<std::int16_t>(low + rise * (pressure - below.absolute_centibar) / step)};
}

std::int32_t collector_pressure_centibar(const Settings& settings) noexcept {
    // 1030 kg/m3 * 9.81 m/s2 = 10'104 Pa a metre = 1.01 centibar each tenth of a metre.
    return settings[Setting::site_pressure] + 101 - settings[Setting::collector_height] * 101 / 100;
}

bool cut_out_above_boiling(const Settings& settings) noexcept {
    const Temperature boils =
        boiling_point(settings[Setting::glycol_share], collector_pressure_centibar(settings));
    return degrees_of(settings, Setting::collector_cut_out) > above_zero(boils) - boiling_margin;
}

}  // namespace noonbench::firmware
