// SPDX-License-Identifier: MIT
#include "space.hpp"

#include "harness/scenario/key_lookup.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

namespace noonbench::harness {

namespace {

const std::string& name_of(const Uncertain& uncertain) {
    return uncertain.lever.empty() ? uncertain.key : uncertain.lever;
}

Problem problem_at(const Place& place, std::string what, std::string allowed) {
    return {place.file, place.line, place.column, std::move(what), std::move(allowed)};
}

/// The key of the scenario that would be dropped if this path were written, "sky.seeded_year".
std::string dropped_by(std::string_view path, const Node& root) {
    for (const Rivals& rivals : all_rivals()) {
        if (!path.starts_with(rivals.path) || path.size() <= rivals.path.size()) continue;
        const std::string_view below = path.substr(rivals.path.size() + 1);
        const std::string_view word = below.substr(0, below.find('.'));
        if (std::find(rivals.keys.begin(), rivals.keys.end(), word) == rivals.keys.end()) continue;
        const Node* map = node_at(root, rivals.path);
        if (map == nullptr) continue;
        for (const std::string_view rival : rivals.keys)
            if (rival != word && find(*map, rival) != nullptr)
                return fmt::format("{}.{}", rivals.path, rival);
    }
    return {};
}

double width(const Dimension& dimension) {
    return dimension.band.most - dimension.band.least;
}

/// Where a value lies in its band, 0..1.
double share_of(const Dimension& dimension, double value) {
    return (value - dimension.band.least) / width(dimension);
}

/// The value that can be written nearest to a share; the usual value lies on no grid.
double value_at(const Dimension& dimension, double share) {
    const double wanted = dimension.band.least + std::clamp(share, 0.0, 1.0) * width(dimension);
    if (std::abs(wanted - dimension.nominal) < 0.5 * dimension.band.step) return dimension.nominal;
    return on_grid(dimension.band, wanted);
}

class Fitting {
  public:
    Fitting(const Node& root, const Scenario& scenario) : root_(root), scenario_(scenario) {}

    std::vector<Dimension> all(std::span<const Uncertain> uncertain) {
        for (const Uncertain& each : uncertain) add(each);
        if (!problems_.empty()) throw InputRefused(std::move(problems_));
        return std::move(dimensions_);
    }

  private:
    void add(const Uncertain& uncertain) {
        std::vector<Objection> objections;
        const std::optional<Band> band = understood_band(uncertain, objections);
        for (const Objection& each : objections)
            problems_.push_back(problem_at(each.place, each.what, each.allowed));
        if (!band || !may_stand(uncertain)) return;
        Dimension dimension{uncertain, *band, {}, {}, 0.0};
        dimension.usual_text = usual_text(uncertain, *band, root_, scenario_);
        const auto usual = number_in(*band, dimension.usual_text, scenario_.start_s);
        if (!usual) {
            problems_.push_back(
                problem_at(uncertain.place,
                           in_quotes(name_of(uncertain)) + " holds no such value in this scenario",
                           "a number or a time that the scenario has"));
            return;
        }
        dimension.nominal = std::clamp(*usual, band->least, band->most);
        dimension.nominal_text =
            dimension.nominal == *usual ? dimension.usual_text : written(*band, dimension.nominal);
        dimensions_.push_back(std::move(dimension));
    }

    bool may_stand(const Uncertain& uncertain) {
        const std::string& name = name_of(uncertain);
        for (const Dimension& other : dimensions_) {
            if (name_of(other.uncertain) != name) continue;
            problems_.push_back(problem_at(uncertain.place,
                                           in_quotes(name) + " is uncertain a second time",
                                           "each quantity once"));
            return false;
        }
        const std::string dropped = uncertain.key.empty() ? "" : dropped_by(uncertain.key, root_);
        if (dropped.empty()) return true;
        problems_.push_back(problem_at(uncertain.place,
                                       fmt::format("{} would take the place of {}", name, dropped),
                                       "keys that this scenario has"));
        return false;
    }

    const Node& root_;
    const Scenario& scenario_;
    std::vector<Dimension> dimensions_;
    std::vector<Problem> problems_;
};

}  // namespace

std::vector<Dimension> dimensions_of(std::span<const Uncertain> uncertain, const Node& root,
                                     const Scenario& scenario) {
    return Fitting(root, scenario).all(uncertain);
}

std::vector<Uncertain> laid_over(std::span<const Uncertain> general,
                                 std::span<const Uncertain> own) {
    std::vector<Uncertain> all;
    for (const Uncertain& each : general) {
        const bool is_hidden = std::any_of(own.begin(), own.end(), [&](const Uncertain& other) {
            return name_of(other) == name_of(each);
        });
        if (!is_hidden) all.push_back(each);
    }
    all.insert(all.end(), own.begin(), own.end());
    return all;
}

const std::string& name_of(const Dimension& dimension) {
    return name_of(dimension.uncertain);
}

std::vector<double> nominal_point(std::span<const Dimension> dimensions) {
    std::vector<double> point;
    for (const Dimension& each : dimensions) point.push_back(share_of(each, each.nominal));
    return point;
}

std::vector<double> snapped(std::span<const Dimension> dimensions, std::span<const double> point) {
    std::vector<double> out;
    for (std::size_t i = 0; i < dimensions.size(); ++i)
        out.push_back(share_of(dimensions[i], value_at(dimensions[i], point[i])));
    return out;
}

std::vector<std::string> texts_at(std::span<const Dimension> dimensions,
                                  std::span<const double> point) {
    std::vector<std::string> texts;
    for (std::size_t i = 0; i < dimensions.size(); ++i) {
        const Dimension& each = dimensions[i];
        const double value = value_at(each, point[i]);
        texts.push_back(value == each.nominal ? each.nominal_text : written(each.band, value));
    }
    return texts;
}

Node tree_at(std::span<const Dimension> dimensions, std::span<const double> point,
             const Node& root) {
    Node tree = root;
    const std::vector<std::string> texts = texts_at(dimensions, point);
    for (std::size_t i = 0; i < dimensions.size(); ++i)
        if (texts[i] != dimensions[i].usual_text)
            lay_value(tree, dimensions[i].uncertain, texts[i]);
    return tree;
}

}  // namespace noonbench::harness
