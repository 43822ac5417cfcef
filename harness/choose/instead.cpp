// SPDX-License-Identifier: MIT
#include "instead.hpp"

#include "notable.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

/// Levels of one dimension in the order in which they are wanted.
std::vector<std::size_t> wanted_levels(std::size_t count, std::size_t winner,
                                       std::size_t delivered) {
    std::vector<std::size_t> levels;
    levels.reserve(count);
    for (std::size_t level = 0; level < count; ++level) {
        if (level != winner) levels.push_back(level);
    }
    const auto steps = [&](std::size_t level) {
        return level > winner ? level - winner : winner - level;
    };
    std::stable_sort(levels.begin(), levels.end(), [&](std::size_t a, std::size_t b) {
        if ((a == delivered) != (b == delivered)) return a == delivered;
        return steps(a) < steps(b);
    });
    return levels;
}

bool ran_everywhere(std::span<const Tried> tried, std::size_t candidate, std::size_t worlds) {
    return std::any_of(tried.begin(), tried.end(), [&](const Tried& each) {
        return each.candidate == candidate && each.by_world.size() >= worlds;
    });
}

std::string energy_text(const Interval& better) {
    if (better.low == 0.0 && better.high == 0.0) return "the same";
    if (better.low > 0.0 || better.high < 0.0) {
        const double sign = better.low > 0.0 ? 1.0 : -1.0;
        const double least = sign > 0.0 ? better.low : -better.high;
        const double most = sign > 0.0 ? better.high : -better.low;
        return fmt::format("{} kWh {} ({} to {})", number_text(sign * better.figure, 0),
                           sign > 0.0 ? "better" : "worse", number_text(least, 0),
                           number_text(most, 0));
    }
    const double most = std::max(std::abs(better.low), std::abs(better.high));
    return fmt::format("no difference to tell (±{} kWh)", number_text(std::ceil(most), 0));
}

}  // namespace

std::vector<std::optional<std::size_t>> instead_candidates(const Grid& grid, std::size_t winner,
                                                           std::size_t delivered,
                                                           std::span<const Tried> tried,
                                                           std::size_t worlds) {
    const GridPoint at = grid.point_of(winner);
    const GridPoint before = grid.point_of(delivered);
    std::vector<std::optional<std::size_t>> found(at.size());
    for (std::size_t d = 0; d < at.size(); ++d) {
        std::size_t nearest = grid.levels[d];  // steps of the first that is possible
        for (const std::size_t level : wanted_levels(grid.levels[d], at[d], before[d])) {
            GridPoint point = at;
            point[d] = level;
            const std::size_t candidate = grid.candidate_of(point);
            if (!grid.is_possible(candidate)) continue;
            const std::size_t steps = level > at[d] ? level - at[d] : at[d] - level;
            if (!found[d]) {
                found[d] = candidate;
                nearest = steps;
                if (level == before[d]) break;
            } else if (steps == nearest && ran_everywhere(tried, candidate, worlds) &&
                       !ran_everywhere(tried, *found[d], worlds)) {
                found[d] = candidate;
            }
        }
    }
    return found;
}

std::string reason_text(const Instead& instead) {
    std::string text =
        instead.as_delivered ? "Left at " + instead.value + ": " : instead.value + " instead: ";
    text += energy_text(instead.better_kwh);
    constexpr std::size_t most_others = 2;
    std::size_t others = 0;
    for (const NotableFigure& figure : notable_figures()) {
        const double chosen = instead.chosen.*figure.quantity;
        const double other = instead.other.*figure.quantity;
        if (others == most_others || !is_notable(figure, chosen, other)) continue;
        text += fmt::format(", {} {} {}", number_text(std::abs(other - chosen), figure.decimals),
                            figure.short_unit, other > chosen ? "more" : "fewer");
        ++others;
    }
    for (std::size_t i = 0; i < instead.broken.size(); ++i) {
        text += (i == 0 ? "; breaks the limit of " : " and ") + instead.broken[i];
    }
    return text + ".";
}

}  // namespace noonbench::harness
