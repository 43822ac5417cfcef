// SPDX-License-Identifier: MIT
// First half: a dozen points spread evenly, then a simplex (Nelder and Mead 1965) from the best of
// them, and again. Second half: back towards the usual point along the line, then side by side,
// then a simplex that minimises the distance and is pushed back to where it breaks.
#include "search.hpp"

#include "plant/random.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <map>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {

namespace {

using Point = std::vector<double>;

// Chosen by measurement, see DEVELOPERS.md; never tuned to the seeds of the benchmark.
constexpr int points_a_start = 12;
constexpr double first_step = 0.25;           // of a band
constexpr double least_step = 0.004;          // of a band; below this a local search is over
constexpr int most_runs_a_side = 12;          // of a local search, for each dimension
constexpr int calls_a_run = 20;               // repeated points are free, but not without end
constexpr double worth_another_round = 0.02;  // of the distance to the usual point

/// Points spread evenly over the cube: multiples of the powers of a generalised golden ratio
/// (Roberts 2018, from memory), shifted by the seed.
class EvenPoints {
  public:
    EvenPoints(std::size_t dimensions, std::uint64_t seed) {
        plant::RandomSequence shifts(seed);
        // The positive root of x^(n+1) = x + 1 by iteration; it contracts for every n.
        double ratio = 1.5;
        for (int i = 0; i < 60; ++i)
            ratio = std::pow(1.0 + ratio, 1.0 / static_cast<double>(dimensions + 1));
        double step = 1.0;
        for (std::size_t i = 0; i < dimensions; ++i) {
            step /= ratio;
            steps_.push_back(step);
            at_.push_back(shifts.uniform());
        }
    }

    Point next() {
        for (std::size_t i = 0; i < at_.size(); ++i) {
            at_[i] += steps_[i];
            at_[i] -= std::floor(at_[i]);
        }
        return at_;
    }

  private:
    Point steps_, at_;
};

class Search {
  public:
    Search(const SearchProblem& problem, const SearchRequest& request)
        : problem_(problem),
          request_(request),
          even_points_(problem.nominal.size(), request.seed),
          most_runs_(request.budget) {}

    SearchResult run() {
        nlopt::srand(static_cast<unsigned long>(request_.seed));
        try {
            look_for_a_break();
            if (request_.mildest) make_milder();
        } catch (const nlopt::forced_stop&) {
            // The runs are spent, or margin_at() failed.
        }
        if (failure_) std::rethrow_exception(failure_);
        return std::move(result_);
    }

  private:
    /// Thrown through NLopt, which passes on no other exception unchanged.
    [[noreturn]] static void stop() { throw nlopt::forced_stop(); }

    /// Runs the point unless it is known already; throws when the runs are spent.
    double margin(const Point& wanted) {
        if (++calls_ > static_cast<std::int64_t>(calls_a_run) * request_.budget) stop();
        Point point = wanted;
        for (double& share : point) share = std::clamp(share, 0.0, 1.0);
        if (problem_.snap) point = problem_.snap(point);
        if (const auto known = known_.find(point); known != known_.end()) return known->second;
        if (result_.runs >= most_runs_) stop();
        ++result_.runs;
        double value = 0.0;
        try {
            value = problem_.margin_at(point);
        } catch (...) {
            failure_ = std::current_exception();
            stop();
        }
        known_.emplace(point, value);
        keep(point, value);
        return value;
    }

    /// Before the first break the smallest margin counts, from then on the mildest broken point.
    void keep(const Point& point, double value) {
        const bool was_broken = result_.broken;
        if (was_broken && (value >= 0.0 || distance(point) >= distance(result_.point))) return;
        if (!was_broken && !result_.history.empty() && value >= result_.margin) return;
        if (!was_broken) result_.history.push_back({result_.runs, value});
        if (!was_broken && value < 0.0) {
            result_.broken = true;
            result_.runs_to_break = result_.runs;
        }
        result_.point = point;
        result_.margin = value;
    }

    [[nodiscard]] double distance(const Point& point) const {
        return mean_move(point, problem_.nominal);
    }

    // ------------------------------------------------------------ a break

    static double margin_for_nlopt(const Point& point, Point& /*gradient*/, void* search) {
        auto& self = *static_cast<Search*>(search);
        const double value = self.margin(point);
        if (value < 0.0) stop();
        return value;
    }

    void look_for_a_break() {
        if (margin(problem_.nominal) < 0.0) return;
        while (true) {
            Point best;
            double least = std::numeric_limits<double>::infinity();
            for (int i = 0; i < points_a_start; ++i) {
                const Point point = even_points_.next();
                const double value = margin(point);
                if (value < 0.0) return;
                if (value < least) best = point;
                least = std::min(value, least);
            }
            if (local_search_breaks(std::move(best))) return;
        }
    }

    bool local_search_breaks(Point start) {
        nlopt::opt local = optimiser();
        local.set_min_objective(margin_for_nlopt, this);
        minimise(local, std::move(start));
        return result_.broken;
    }

    [[nodiscard]] nlopt::opt optimiser() const {
        const std::size_t n = problem_.nominal.size();
        nlopt::opt opt(nlopt::LN_NELDERMEAD, static_cast<unsigned>(n));
        opt.set_lower_bounds(0.0);
        opt.set_upper_bounds(1.0);
        opt.set_initial_step(first_step);
        opt.set_xtol_abs(least_step);
        opt.set_maxeval(most_runs_a_side * static_cast<int>(n));
        return opt;
    }

    /// Whatever it finds is kept by margin(); its own result is of no interest.
    void minimise(nlopt::opt& opt, Point start) {
        double value = 0.0;
        try {
            (void)opt.optimize(start, value);
        } catch (const nlopt::forced_stop&) {
            if (failure_ || !result_.broken || result_.runs >= most_runs_) throw;
        }
    }

    // ------------------------------------------------------------ the mildest

    void make_milder() {
        // The last runs put back the sides that a simplex has moved for nothing.
        const int a_run_for_each_side = static_cast<int>(problem_.nominal.size());
        most_runs_ = std::max(result_.runs, request_.budget - a_run_for_each_side);
        try {
            approach();
        } catch (const nlopt::forced_stop&) {
            if (failure_) throw;
        }
        most_runs_ = request_.budget;
        reset_sides();
    }

    /// Nearer and nearer, as long as it is worth another round.
    void approach() {
        double before = std::numeric_limits<double>::infinity();
        while (distance(result_.point) > 0.0 &&
               distance(result_.point) < before * (1.0 - worth_another_round)) {
            before = distance(result_.point);
            shrink_along_the_line();
            reset_sides();
            search_nearby();
        }
    }

    /// Halves the way to the usual point; what lies broken on the way is kept.
    void shrink_along_the_line() {
        const Point broken = result_.point;
        double good = 0.0;  // share of the way from the usual point at which it holds
        double bad = 1.0;
        for (int i = 0; i < 7; ++i) {
            const double middle = 0.5 * (good + bad);
            Point point = broken;
            for (std::size_t k = 0; k < point.size(); ++k)
                point[k] = problem_.nominal[k] + middle * (broken[k] - problem_.nominal[k]);
            (margin(point) < 0.0 ? bad : good) = middle;
        }
    }

    /// Each side back to its usual value if it breaks all the same, the farthest first.
    void reset_sides() {
        std::vector<std::size_t> order(problem_.nominal.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        const Point start = result_.point;
        const auto move = [&](std::size_t k) { return std::abs(start[k] - problem_.nominal[k]); };
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return move(a) > move(b); });
        for (const std::size_t k : order) {
            Point point = result_.point;
            if (point[k] == problem_.nominal[k]) continue;
            point[k] = problem_.nominal[k];
            (void)margin(point);
        }
    }

    /// The distance, and where it holds a step upward that grows with the margin: a slope back to
    /// where it breaks, never worth more than a nearer point that does.
    static double mildness_for_nlopt(const Point& point, Point& /*gradient*/, void* search) {
        constexpr double a_step_up = 0.01;
        constexpr double slope = 0.2;       // of the distance, for one step of the scale
        constexpr double most_steps = 4.0;  // of the scale; a cliff should not drown the slope
        auto& self = *static_cast<Search*>(search);
        const double value = self.margin(point);
        const double distance = self.distance(point);
        if (value < 0.0) return distance;
        return distance + a_step_up + slope * std::min(value, most_steps);
    }

    void search_nearby() {
        nlopt::opt local = optimiser();
        local.set_maxeval(2 * most_runs_a_side * static_cast<int>(problem_.nominal.size()));
        local.set_min_objective(mildness_for_nlopt, this);
        minimise(local, result_.point);
    }

    const SearchProblem& problem_;
    const SearchRequest& request_;
    EvenPoints even_points_;
    int most_runs_;
    std::map<Point, double> known_;
    std::int64_t calls_ = 0;
    std::exception_ptr failure_;
    SearchResult result_;
};

}  // namespace

SearchResult search(const SearchProblem& problem, const SearchRequest& request) {
    if (problem.nominal.empty()) throw std::invalid_argument("search: nothing is uncertain");
    if (request.budget < 1) throw std::invalid_argument("search: no runs");
    return Search(problem, request).run();
}

double greatest_move(std::span<const double> point, std::span<const double> nominal) {
    double greatest = 0.0;
    for (std::size_t i = 0; i < point.size(); ++i)
        greatest = std::max(greatest, std::abs(point[i] - nominal[i]));
    return greatest;
}

double mean_move(std::span<const double> point, std::span<const double> nominal) {
    double sum = 0.0;
    for (std::size_t i = 0; i < point.size(); ++i)
        sum += (point[i] - nominal[i]) * (point[i] - nominal[i]);
    return std::sqrt(sum / static_cast<double>(point.size()));
}

}  // namespace noonbench::harness
