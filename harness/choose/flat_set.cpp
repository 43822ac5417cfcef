// SPDX-License-Identifier: MIT
#include "flat_set.hpp"

#include "flat_set_bootstrap.hpp"
#include "flat_set_rivals.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace noonbench::harness {

namespace {

constexpr double no_objective = -std::numeric_limits<double>::infinity();

class SetFinder {
  public:
    SetFinder(const Grid& grid, std::span<const Tried> tried, std::size_t worlds,
              const FlatSetRequest& request)
        : grid_(grid), tried_(tried), worlds_(worlds), request_(request) {}

    FlatSet run() {
        const bool keeps = find_winner();
        if (worlds_ >= 2) draws_ = draw_worlds(worlds_, request_.draws, request_.seed);
        if (keeps) {
            rivals_ = list_rivals(table());
            start_set();
            if (worlds_ >= 2) make_sure();
            describe_members();
        }
        if (worlds_ >= 2) list_undecided(keeps);
        return std::move(set_);
    }

  private:
    /// Whether it keeps the constraints.
    bool find_winner() {
        set_.worlds = worlds_;
        const std::vector<Estimate> all = estimates(tried_, worlds_);
        std::vector<std::size_t> everywhere;
        for (const std::size_t i : in_strict_order(all))
            if (all[i].worlds == worlds_) everywhere.push_back(i);
        set_.ran_everywhere = everywhere.size();
        winner_ = everywhere.front();
        set_.winner = tried_[winner_].candidate;
        set_.tolerance_kwh = std::max(0.0, request_.tolerance * member_of(winner_).saving_kwh);
        return violations(all)[winner_] == 0.0;
    }

    [[nodiscard]] RivalTable table() const {
        return {grid_, tried_, winner_, set_.tolerance_kwh, draws_, request_.seed};
    }

    void start_set() {
        const double best = mean_of(objectives_of(tried_[winner_]));
        for (Rival& rival : rivals_)
            rival.in_set = rival.ran_everywhere &&
                           mean_of(objectives_of(tried_[rival.place])) >= best - set_.tolerance_kwh;
    }

    [[nodiscard]] std::vector<double> bests_of_set() const {
        std::vector<double> best(draws_.size(), no_objective);
        for (const Rival& rival : rivals_)
            for (std::size_t b = 0; rival.in_set && b < best.size(); ++b)
                best[b] = std::max(best[b], rival.leads_kwh[b]);
        return best;
    }

    /// In how many draws each one outside breaks the promise; `broken`: draws in which any does.
    [[nodiscard]] std::vector<std::size_t> breaks(std::size_t& broken) const {
        const std::vector<double> best = bests_of_set();
        std::vector<bool> is_broken(best.size(), false);
        std::vector<std::size_t> count(rivals_.size(), 0);
        for (std::size_t r = 0; r < rivals_.size(); ++r) {
            if (rivals_[r].in_set) continue;
            for (std::size_t b = 0; b < best.size(); ++b) {
                if (rivals_[r].leads_kwh[b] <= best[b] + set_.tolerance_kwh) continue;
                ++count[r];
                is_broken[b] = true;
            }
        }
        broken = static_cast<std::size_t>(std::count(is_broken.begin(), is_broken.end(), true));
        return count;
    }

    void make_sure() {
        // Where those that were dropped keep the promise from being reached anyway, only whoever
        // matters joins; else everybody who is needed.
        const double needless = can_be_sure() ? 0.0 : 0.01 * static_cast<double>(draws_.size());
        while (true) {
            std::size_t broken = 0;
            const std::vector<std::size_t> count = breaks(broken);
            set_.confidence = share_of_the_rest(broken);
            set_.sure = set_.confidence >= request_.confidence;
            Rival* worst = nullptr;
            std::size_t most = 0;
            for (std::size_t r = 0; r < rivals_.size(); ++r) {
                if (!rivals_[r].ran_everywhere || count[r] <= most) continue;
                most = count[r];
                worst = &rivals_[r];
            }
            if (set_.sure || worst == nullptr || static_cast<double>(most) < needless) {
                if (!set_.sure) list_threats(count);
                return;
            }
            worst->in_set = true;
        }
    }

    /// Whether it would do if all that ran everywhere were in the set.
    [[nodiscard]] bool can_be_sure() const {
        SetFinder widest = *this;
        for (Rival& rival : widest.rivals_) rival.in_set = rival.ran_everywhere;
        std::size_t broken = 0;
        (void)widest.breaks(broken);
        return share_of_the_rest(broken) >= request_.confidence;
    }

    [[nodiscard]] double share_of_the_rest(std::size_t broken) const {
        return 1.0 - static_cast<double>(broken) / static_cast<double>(draws_.size());
    }

    void list_threats(const std::vector<std::size_t>& count) {
        std::vector<std::pair<std::size_t, std::size_t>> found;  // breaks, candidate
        for (std::size_t r = 0; r < rivals_.size(); ++r)
            if (count[r] > 0 && !rivals_[r].ran_everywhere)
                found.emplace_back(count[r], tried_[rivals_[r].place].candidate);
        std::stable_sort(found.begin(), found.end(),
                         [](const auto& a, const auto& b) { return a.first > b.first; });
        set_.threats.reserve(found.size());
        for (const auto& [breaks, candidate] : found) set_.threats.push_back(candidate);
    }

    /// The share of draws in which no mean margin is below 0.
    [[nodiscard]] double keeping_share(std::size_t place) const {
        std::vector<bool> keeps(draws_.size(), true);
        const std::size_t count = tried_[place].by_world[0].margins.size();
        for (std::size_t k = 0; k < count; ++k) {
            const std::vector<double> margins = margins_of(tried_[place], k);
            for (std::size_t b = 0; b < draws_.size(); ++b)
                if (mean_in(draws_[b], margins) < 0.0) keeps[b] = false;
        }
        return share_of(keeps);
    }

    static double share_of(const std::vector<bool>& holds) {
        if (holds.empty()) return 0.0;
        return static_cast<double>(std::count(holds.begin(), holds.end(), true)) /
               static_cast<double>(holds.size());
    }

    void describe_members() {
        std::vector<double> best(draws_.size(), no_objective);
        for (const Rival& rival : rivals_)
            for (std::size_t b = 0; b < best.size(); ++b)
                best[b] = std::max(best[b], rival.leads_kwh[b]);
        const double winners = mean_of(objectives_of(tried_[winner_]));
        for (const Rival& rival : rivals_) {
            if (!rival.in_set) continue;
            Member member = member_of(rival.place);
            member.behind_kwh = winners - member.objective_kwh;
            member.only_to_be_sure = member.behind_kwh > set_.tolerance_kwh;
            std::vector<bool> within(draws_.size());
            for (std::size_t b = 0; b < best.size(); ++b)
                within[b] = rival.leads_kwh[b] >= best[b] - set_.tolerance_kwh;
            member.chance = share_of(within);
            set_.members.push_back(std::move(member));
        }
        std::stable_sort(
            set_.members.begin(), set_.members.end(),
            [](const Member& a, const Member& b) { return a.behind_kwh < b.behind_kwh; });
    }

    [[nodiscard]] Member member_of(std::size_t place) const {
        const Tried& tried = tried_[place];
        Member member;
        member.candidate = tried.candidate;
        for (const Score& score : tried.by_world) member.saving_kwh += score.saving_kwh;
        member.saving_kwh /= static_cast<double>(worlds_);
        member.objective_kwh = mean_of(objectives_of(tried));
        member.keeps_constraints = keeping_share(place);
        for (std::size_t k = 0; k < tried.by_world[0].margins.size(); ++k) {
            const std::vector<double> margins = margins_of(tried, k);
            member.margins.push_back(mean_of(margins));
            member.worst_margins.push_back(*std::min_element(margins.begin(), margins.end()));
        }
        return member;
    }

    void list_undecided(bool winner_keeps) {
        constexpr double chance_that_counts = 0.05;
        const double best = mean_of(objectives_of(tried_[winner_])) + set_.tolerance_kwh;
        for (std::size_t i = 0; i < tried_.size(); ++i) {
            if (tried_[i].by_world.size() != worlds_ || keeps_margins(table(), i)) continue;
            if (winner_keeps && mean_of(objectives_of(tried_[i])) <= best) continue;
            if (keeping_share(i) > chance_that_counts)
                set_.undecided.push_back(tried_[i].candidate);
        }
    }

    const Grid& grid_;
    std::span<const Tried> tried_;
    std::size_t worlds_;
    const FlatSetRequest& request_;
    std::size_t winner_ = 0;  // its place among the tried
    std::vector<WorldDraw> draws_;
    std::vector<Rival> rivals_;
    FlatSet set_;
};

}  // namespace

FlatSet flat_set(const Grid& grid, std::span<const Tried> tried, std::size_t worlds,
                 const FlatSetRequest& request) {
    std::size_t most = 0;
    for (const Tried& one : tried) most = std::max(most, one.by_world.size());
    if (worlds == 0 || most != worlds)
        throw std::invalid_argument("choose: no candidate ran in all worlds, or one in more");
    return SetFinder(grid, tried, worlds, request).run();
}

std::vector<LevelRange> level_ranges(const Grid& grid, const FlatSet& set) {
    std::vector<LevelRange> ranges(grid.levels.size());
    const GridPoint winner = grid.point_of(set.winner);
    for (std::size_t d = 0; d < ranges.size(); ++d) {
        std::vector<bool> present(grid.levels[d], false);
        std::vector<bool> alone(grid.levels[d], false);
        for (const Member& member : set.members) {
            const GridPoint point = grid.point_of(member.candidate);
            GridPoint moved = winner;
            moved[d] = point[d];
            present[point[d]] = true;
            if (moved == point) alone[point[d]] = true;
        }
        for (std::size_t level = 0; level < grid.levels[d]; ++level) {
            if (present[level]) ranges[d].present.push_back(level);
            if (alone[level]) ranges[d].alone.push_back(level);
        }
        ranges[d].every_level = ranges[d].present.size() == grid.levels[d];
    }
    return ranges;
}

}  // namespace noonbench::harness
