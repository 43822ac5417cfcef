// SPDX-License-Identifier: MIT
#include "put_back.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

std::vector<Score> in_all_worlds(std::size_t candidate, std::size_t worlds, const RunTrials& run) {
    std::vector<Trial> trials;
    trials.reserve(worlds);
    for (std::size_t world = 0; world < worlds; ++world) trials.push_back({candidate, world});
    return run(trials);
}

bool are_the_same(const std::vector<Score>& a, const std::vector<Score>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Score& x, const Score& y) {
        return x.saving_kwh == y.saving_kwh && x.objective_kwh == y.objective_kwh &&
               x.margins == y.margins;
    });
}

/// In ascending order of candidates, as the others.
void add_tried(std::vector<Tried>& tried, std::size_t candidate, const std::vector<Score>& scores) {
    const auto at =
        std::lower_bound(tried.begin(), tried.end(), candidate,
                         [](const Tried& each, std::size_t c) { return each.candidate < c; });
    if (at != tried.end() && at->candidate == candidate) {
        at->by_world = scores;
    } else {
        tried.insert(at, {candidate, scores});
    }
}

/// The same scores, so the same place: in front of the winner found.
void make_winner(FlatSet& set, std::size_t candidate) {
    const auto found =
        std::find_if(set.members.begin(), set.members.end(),
                     [&](const Member& each) { return each.candidate == set.winner; });
    if (found != set.members.end()) {
        Member member = *found;
        member.candidate = candidate;
        std::erase_if(set.members, [&](const Member& m) { return m.candidate == candidate; });
        set.members.insert(set.members.begin(), member);
    }
    std::erase(set.threats, candidate);
    std::erase(set.undecided, candidate);
    set.winner = candidate;
}

}  // namespace

void put_back_what_changes_nothing(const Grid& grid, std::size_t delivered, const RunTrials& run,
                                   HalvingResult& result) {
    const std::size_t worlds = result.set.worlds;
    const std::vector<Score> scores = in_all_worlds(result.set.winner, worlds, run);
    const GridPoint before = grid.point_of(delivered);
    GridPoint point = grid.point_of(result.set.winner);
    for (std::size_t d = 0; d < point.size(); ++d) {
        if (point[d] == before[d]) continue;
        GridPoint back = point;
        back[d] = before[d];
        const std::size_t candidate = grid.candidate_of(back);
        if (!grid.is_possible(candidate)) continue;
        if (are_the_same(in_all_worlds(candidate, worlds, run), scores)) point = std::move(back);
    }
    const std::size_t settled = grid.candidate_of(point);
    if (settled == result.set.winner) return;
    add_tried(result.tried, settled, scores);
    make_winner(result.set, settled);
}

}  // namespace noonbench::harness
