// SPDX-License-Identifier: MIT
#include "hunt.hpp"

#include "harness/scenario/compose.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

namespace noonbench::harness {

namespace {

/// The requirements of a file of checks, written into the scenario, so that the day found needs no
/// other file.
void lay_checks_over(Node& root, const std::filesystem::path& file) {
    (void)read_checks(file);  // complains of what is wrong in it
    const Node checks = compose_file(file);
    const Node* more = find(checks, "require");
    if (more == nullptr) return;
    Node* require = find(root, "require");
    if (require == nullptr) {
        root.entries.push_back({"require", more->place, {}});
        require = &root.entries.back().value;
    }
    if (require->kind == Node::Kind::map) {
        Node only = std::move(*require);
        *require = {};
        require->items.push_back(std::move(only));
    }
    require->kind = Node::Kind::list;
    if (more->kind == Node::Kind::map)
        require->items.push_back(*more);
    else
        require->items.insert(require->items.end(), more->items.begin(), more->items.end());
}

Requirement requirement_named(const std::string& name, const Scenario& scenario,
                              const std::string& file) {
    std::vector<Requirement> all = requirements_of(scenario);
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const Requirement& each) { return each.name == name; });
    if (found != all.end()) return std::move(*found);
    std::vector<std::string_view> names;
    std::transform(all.begin(), all.end(), std::back_inserter(names),
                   [](const Requirement& each) -> std::string_view { return each.name; });
    std::string what = "there is no requirement " + in_quotes(name);
    const std::string_view nearest = nearest_word(name, names);
    if (!nearest.empty()) what += fmt::format(" (did you mean {}?)", in_quotes(nearest));
    throw InputRefused(
        {{file, 0, 0, what, names.empty() ? "a scenario with `require:`" : joined(names)}});
}

}  // namespace

Ground::Ground(const HuntRequest& request) : scenario_(request.scenario) {
    root_ = composed_tree(request.scenario, request.sets);
    for (const auto& file : request.checks) lay_checks_over(root_, file);
    const Scenario scenario = read_scenario_tree(root_, request.scenario);
    const std::string file = request.scenario.string();
    title_ = scenario.title;
    requirement_ = requirement_named(request.requirement, scenario, file);
    const auto uncertain = laid_over(request.uncertain, scenario.uncertain);
    if (uncertain.empty())
        throw InputRefused({{file, 0, 0, "nothing is uncertain here",
                             "`uncertain:` in the scenario, or a file of bands"}});
    dimensions_ = dimensions_of(uncertain, root_, scenario);
}

Node Ground::tree(std::span<const double> point) const {
    return tree_at(dimensions_, point, root_);
}

Outcome Ground::outcome(std::span<const double> point) const {
    const Scenario scenario = read_scenario_tree(tree(point), scenario_);
    return std::move(outcomes_of(scenario, {&requirement_, 1}).front());
}

/// Two bands can meet where no plant can be built (a pipe longer outdoors than in all): such a
/// point is no day, and tells the search to turn back.
double Ground::margin(std::span<const double> point) {
    constexpr double far_from_broken = 1e6;
    try {
        return search_margin(outcome(point), requirement_.scale);
    } catch (const InputRefused& refused) {
        if (refused_++ == 0) first_refusal_ = text(refused.problems().front());
        return far_from_broken;
    }
}

SearchProblem Ground::problem() {
    return {nominal_point(dimensions_),
            [this](std::span<const double> point) { return margin(point); },
            [this](std::span<const double> point) { return snapped(dimensions_, point); }};
}

HuntResult hunt(const HuntRequest& request, const HuntProgress& progress) {
    Ground ground(request);
    HuntResult result;
    result.request = request;
    result.title = ground.title();
    result.requirement = ground.requirement();
    result.dimensions = ground.dimensions();
    result.usual = ground.outcome(nominal_point(ground.dimensions()));
    SearchProblem problem = ground.problem();
    if (progress) {
        problem.margin_at = [&ground, &progress, runs = 0](std::span<const double> point) mutable {
            progress(++runs);
            return ground.margin(point);
        };
    }
    result.search = search(problem, {request.budget, request.seed});
    result.texts = texts_at(ground.dimensions(), result.search.point);
    result.found = ground.outcome(result.search.point);
    result.tree = ground.tree(result.search.point);
    result.refused = ground.refused();
    result.first_refusal = ground.first_refusal();
    return result;
}

double search_margin(const Outcome& outcome, double scale) {
    constexpr double most = 1e6;    // steps of the scale; an infinite margin is cut to it
    constexpr double least = 1e-9;  // the sign of a margin of nothing
    double margin = most;
    if (!outcome.margins.empty()) {
        const Margin& first = outcome.margins.front();
        margin = (std::isfinite(first.lo) ? first.lo : first.hi) / scale;
    }
    margin = std::clamp(margin, -most, most);
    if (outcome.truth == Truth::not_held) return std::min(margin, -least);
    return std::max(margin, 0.0);
}

}  // namespace noonbench::harness
