// SPDX-License-Identifier: MIT
#include "flat_set_rivals.hpp"

#include "plant/random.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace noonbench::harness {

namespace {

constexpr double negligible = 1e-5;
constexpr std::size_t nearest = 5;  // that tell how far a dropped one's differences scatter
// Boost.Math would go through long double, for digits that no draw needs.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

/// World by world, in the worlds of the one that ran in fewer.
std::vector<double> differences(std::span<const double> values, std::span<const double> of) {
    std::vector<double> found;
    found.reserve(values.size());
    for (std::size_t w = 0; w < std::min(values.size(), of.size()); ++w)
        found.push_back(values[w] - of[w]);
    return found;
}

/// The whole length of a dimension counts 1.
double squared_way(const Grid& grid, const GridPoint& a, const GridPoint& b) {
    double sum = 0.0;
    for (std::size_t d = 0; d < a.size(); ++d) {
        const double last = std::max(1.0, static_cast<double>(grid.levels[d]) - 1.0);
        const double way = (static_cast<double>(a[d]) - static_cast<double>(b[d])) / last;
        sum += way * way;
    }
    return sum;
}

std::size_t worlds_of(const RivalTable& table) {
    return table.tried[table.winner].by_world.size();
}

/// Standard deviation of the difference from the winner in one world, from those that ran
/// everywhere and are most like the one that was dropped. Differences scatter the more the farther
/// two settings are apart; were all taken together, the far ones would make the near ones
/// uncertain.
double spread_of_its_like(const RivalTable& table, std::size_t place) {
    const std::vector<double> winners = objectives_of(table.tried[table.winner]);
    const GridPoint own = table.grid.point_of(table.tried[place].candidate);
    const GridPoint winner = table.grid.point_of(table.tried[table.winner].candidate);
    const double own_way = squared_way(table.grid, own, winner);
    std::vector<std::pair<double, double>> like;  // how near, variance
    for (std::size_t i = 0; i < table.tried.size(); ++i) {
        const Tried& other = table.tried[i];
        if (i == table.winner || other.by_world.size() != winners.size()) continue;
        const GridPoint point = table.grid.point_of(other.candidate);
        const double spread = standard_deviation_of(differences(objectives_of(other), winners));
        const double farther = std::max(1.0, own_way / squared_way(table.grid, point, winner));
        like.emplace_back(squared_way(table.grid, own, point), spread * spread * farther);
    }
    std::sort(like.begin(), like.end());
    like.resize(std::min(like.size(), nearest));
    double sum = 0.0;
    for (const auto& [way, variance] : like) sum += variance;
    return like.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(like.size()));
}

/// The draw whose stretch candidate number `place` takes. All share the worlds drawn, but how far
/// the scatter of a few worlds is from the true one is another matter for each pair of settings:
/// with one stretch for all, the luck of the luckiest of many would be taken too lightly.
const WorldDraw& own_draw(const RivalTable& table, std::size_t place, std::size_t draw) {
    const plant::RandomStream stream = plant::random_stream(table.seed, "choose: own stretch");
    const std::uint64_t shift = plant::random_bits(stream, table.tried[place].candidate);
    return table.draws[(draw + shift % table.draws.size()) % table.draws.size()];
}

/// Of one who ran everywhere.
std::vector<double> leads_by_draw(const RivalTable& table, std::size_t place) {
    const std::vector<double> ahead =
        differences(objectives_of(table.tried[place]), objectives_of(table.tried[table.winner]));
    std::vector<double> leads;
    leads.reserve(table.draws.size());
    for (std::size_t b = 0; b < table.draws.size(); ++b)
        leads.push_back(mean_in(table.draws[b], ahead, own_draw(table, place, b).stretch));
    return leads;
}

/// Of one who was dropped; empty if it could not break the promise anyway.
std::vector<double> dropped_leads_by_draw(const RivalTable& table, std::size_t place) {
    const std::vector<double> winners = objectives_of(table.tried[table.winner]);
    const std::vector<double> ahead = differences(objectives_of(table.tried[place]), winners);
    const double mean = mean_of(ahead);
    const double spread = std::max(spread_of_its_like(table, place), standard_deviation_of(ahead));
    const double error = spread / std::sqrt(static_cast<double>(ahead.size()));
    const boost::math::students_t student(static_cast<double>(winners.size()) - 1.0);
    const double needed = table.tolerance_kwh - mean;
    if (needed >= error * boost::math::quantile(student, 1.0 - negligible)) return {};

    const boost::math::normal_distribution<double, InDouble> bell;
    const plant::RandomStream own =
        plant::sub_stream(plant::random_stream(table.seed, "choose: dropped candidates"),
                          table.tried[place].candidate);
    std::vector<double> leads;
    leads.reserve(table.draws.size());
    for (std::size_t b = 0; b < table.draws.size(); ++b) {
        const double share = std::max(plant::random_uniform(own, b), 0x1.0p-54);
        const double deviation =
            own_draw(table, place, b).student * boost::math::quantile(bell, share);
        leads.push_back(mean + error * deviation);
    }
    return leads;
}

}  // namespace

std::vector<double> objectives_of(const Tried& tried) {
    std::vector<double> values;
    values.reserve(tried.by_world.size());
    for (const Score& score : tried.by_world) values.push_back(score.objective_kwh);
    return values;
}

std::vector<double> margins_of(const Tried& tried, std::size_t constraint) {
    std::vector<double> values;
    values.reserve(tried.by_world.size());
    for (const Score& score : tried.by_world) values.push_back(score.margins[constraint]);
    return values;
}

bool keeps_margins(const RivalTable& table, std::size_t place) {
    const Tried& one = table.tried[place];
    const std::size_t count = one.by_world[0].margins.size();
    for (std::size_t k = 0; k < count; ++k) {
        const std::vector<double> own = margins_of(one, k);
        double mean = mean_of(own);
        if (own.size() != worlds_of(table)) {
            const std::vector<double> winners = margins_of(table.tried[table.winner], k);
            mean = mean_of(winners) + mean_of(differences(own, winners));
        }
        if (mean < 0.0) return false;
    }
    return true;
}

std::vector<Rival> list_rivals(const RivalTable& table) {
    std::vector<Rival> rivals;
    for (std::size_t i = 0; i < table.tried.size(); ++i) {
        if (!keeps_margins(table, i)) continue;
        if (table.tried[i].by_world.size() == worlds_of(table)) {
            rivals.push_back({i, true, leads_by_draw(table, i), false});
        } else if (!table.draws.empty()) {
            Rival rival{i, false, dropped_leads_by_draw(table, i), false};
            if (!rival.leads_kwh.empty()) rivals.push_back(std::move(rival));
        }
    }
    return rivals;
}

}  // namespace noonbench::harness
