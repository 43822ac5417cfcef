// SPDX-License-Identifier: MIT
#include "halving_scores.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {

namespace {

/// Candidate plus world, fitted by alternating means; `ran[i]` holds candidate i's worlds. Returns
/// the candidates' part when the worlds' parts have mean 0.
std::vector<double> candidate_parts(const std::vector<std::vector<double>>& ran,
                                    std::size_t worlds) {
    constexpr int most_rounds = 200;
    constexpr double enough = 1e-10;  // of the largest value; ranks do not depend on less
    std::vector<double> candidate(ran.size(), 0.0);
    std::vector<double> world(worlds, 0.0);
    for (int round = 0; round < most_rounds; ++round) {
        double change = 0.0;
        double largest = 0.0;
        for (std::size_t i = 0; i < ran.size(); ++i) {
            double sum = 0.0;
            for (std::size_t w = 0; w < ran[i].size(); ++w) sum += ran[i][w] - world[w];
            const double part = sum / static_cast<double>(ran[i].size());
            change = std::max(change, std::abs(part - candidate[i]));
            largest = std::max(largest, std::abs(part));
            candidate[i] = part;
        }
        if (change <= enough * largest) break;
        std::vector<double> sum(worlds, 0.0);
        std::vector<double> count(worlds, 0.0);
        for (std::size_t i = 0; i < ran.size(); ++i) {
            for (std::size_t w = 0; w < ran[i].size(); ++w) {
                sum[w] += ran[i][w] - candidate[i];
                count[w] += 1.0;
            }
        }
        for (std::size_t w = 0; w < worlds; ++w) world[w] = sum[w] / count[w];
        const double mean = mean_of(world);
        for (double& part : world) part -= mean;
    }
    return candidate;
}

/// A margin that is 0 in every world must not come out of a fit as broken.
double without_rounding(double part, const std::vector<std::vector<double>>& ran) {
    double largest = 0.0;
    for (const auto& values : ran)
        for (const double value : values) largest = std::max(largest, std::abs(value));
    return std::abs(part) <= 1e-9 * largest ? 0.0 : part;
}

std::vector<std::size_t> order_by(std::size_t count, const auto& before) {
    std::vector<std::size_t> order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), before);
    return order;
}

void check_score(const Score& score, std::size_t margins) {
    bool finite = std::isfinite(score.saving_kwh) && std::isfinite(score.objective_kwh);
    for (const double margin : score.margins) finite = finite && std::isfinite(margin);
    if (!finite) throw std::runtime_error("choose: a score is not finite");
    if (score.margins.size() != margins)
        throw std::runtime_error("choose: scores differ in their number of margins");
}

}  // namespace

ScoreBook::ScoreBook(RunTrials run, std::size_t budget) : run_(std::move(run)), budget_(budget) {}

void ScoreBook::run(std::span<const std::size_t> candidates, std::size_t worlds) {
    std::vector<Wanted> wanted;
    wanted.reserve(candidates.size());
    for (const std::size_t candidate : candidates) wanted.push_back({candidate, worlds});
    run(wanted);
}

void ScoreBook::run(std::span<const Wanted> wanted) {
    std::vector<Trial> trials;
    std::set<std::size_t> asked;
    for (const auto& [candidate, worlds] : wanted) {
        if (!asked.insert(candidate).second) continue;
        const std::size_t has = worlds_of(candidate);
        if (has >= worlds) continue;
        if (trials.size() + (worlds - has) > left()) break;
        for (std::size_t world = has; world < worlds; ++world) trials.push_back({candidate, world});
    }
    if (trials.empty()) return;
    const std::vector<Score> scores = run_(trials);
    if (scores.size() != trials.size())
        throw std::runtime_error("choose: not as many scores as trials");
    keep(trials, scores);
}

void ScoreBook::keep(std::span<const Trial> trials, std::span<const Score> scores) {
    const std::size_t margins =
        scores_.empty() ? scores[0].margins.size() : scores_.begin()->second[0].margins.size();
    for (std::size_t i = 0; i < trials.size(); ++i) {
        check_score(scores[i], margins);
        scores_[trials[i].candidate].push_back(scores[i]);
    }
    done_ += trials.size();
}

std::size_t ScoreBook::missing(std::span<const std::size_t> candidates, std::size_t worlds) const {
    const std::set<std::size_t> each(candidates.begin(), candidates.end());
    std::size_t trials = 0;
    for (const std::size_t candidate : each)
        trials += worlds - std::min(worlds, worlds_of(candidate));
    return trials;
}

std::size_t ScoreBook::worlds_of(std::size_t candidate) const {
    const auto found = scores_.find(candidate);
    return found == scores_.end() ? 0 : found->second.size();
}

std::vector<Tried> ScoreBook::tried() const {
    std::vector<Tried> all;
    all.reserve(scores_.size());
    for (const auto& [candidate, by_world] : scores_) all.push_back({candidate, by_world});
    return all;
}

std::vector<Estimate> estimates(std::span<const Tried> tried, std::size_t worlds) {
    std::vector<Estimate> found(tried.size());
    if (tried.empty()) return found;
    const std::size_t margins = tried[0].by_world.at(0).margins.size();
    std::vector<std::vector<double>> ran(tried.size());
    const auto fit = [&](const auto& value, const auto& keep) {
        for (std::size_t i = 0; i < tried.size(); ++i) {
            ran[i].clear();
            for (const Score& score : tried[i].by_world) ran[i].push_back(value(score));
        }
        const std::vector<double> parts = candidate_parts(ran, worlds);
        for (std::size_t i = 0; i < tried.size(); ++i)
            keep(found[i],
                 ran[i].size() >= worlds ? mean_of(ran[i]) : without_rounding(parts[i], ran));
    };
    for (std::size_t i = 0; i < tried.size(); ++i) {
        found[i].candidate = tried[i].candidate;
        found[i].worlds = tried[i].by_world.size();
    }
    fit([](const Score& score) { return score.objective_kwh; },
        [](Estimate& estimate, double part) { estimate.objective_kwh = part; });
    for (std::size_t k = 0; k < margins; ++k)
        fit([k](const Score& score) { return score.margins[k]; },
            [](Estimate& estimate, double part) { estimate.margins.push_back(part); });
    return found;
}

std::vector<double> violations(std::span<const Estimate> estimates) {
    std::vector<double> sums(estimates.size(), 0.0);
    const std::size_t margins = estimates.empty() ? 0 : estimates[0].margins.size();
    for (std::size_t k = 0; k < margins; ++k) {
        std::vector<double> values;
        values.reserve(estimates.size());
        for (const Estimate& estimate : estimates) values.push_back(estimate.margins[k]);
        const double deviation = standard_deviation_of(values);
        const double scale = deviation > 0.0 ? deviation : 1.0;
        for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += std::max(0.0, -values[i]) / scale;
    }
    return sums;
}

std::vector<std::size_t> in_strict_order(std::span<const Estimate> estimates) {
    const std::vector<double> broken = violations(estimates);
    return order_by(estimates.size(), [&](std::size_t a, std::size_t b) {
        if (broken[a] != broken[b]) return broken[a] < broken[b];
        return estimates[a].objective_kwh > estimates[b].objective_kwh;
    });
}

std::vector<std::size_t> in_priced_order(std::span<const Estimate> estimates) {
    const std::vector<double> broken = violations(estimates);
    std::vector<double> value;
    value.reserve(estimates.size());
    for (const Estimate& estimate : estimates) value.push_back(estimate.objective_kwh);
    const double price_kwh = price_of_violation * standard_deviation_of(value);
    for (std::size_t i = 0; i < value.size(); ++i) value[i] -= price_kwh * broken[i];
    return order_by(value.size(),
                    [&](std::size_t a, std::size_t b) { return value[a] > value[b]; });
}

double mean_of(std::span<const double> values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double standard_deviation_of(std::span<const double> values) {
    if (values.size() < 2) return 0.0;
    const double mean = mean_of(values);
    double sum = 0.0;
    for (const double value : values) sum += (value - mean) * (value - mean);
    return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

}  // namespace noonbench::harness
