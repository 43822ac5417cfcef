// SPDX-License-Identifier: MIT
// The hunt for the worst day: within the bands of what nobody knows exactly on site, the mildest
// combination that breaks a requirement, or the smallest margin found and the effort spent.
#pragma once
#include "search.hpp"
#include "space.hpp"

#include "harness/judge/judge.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace noonbench::harness {

struct HuntRequest {
    std::filesystem::path scenario;
    std::vector<std::string> sets;              // overrides path.to.key=VALUE
    std::vector<std::filesystem::path> checks;  // files whose requirements are laid over it
    std::string requirement;                    // by its name
    std::vector<Uncertain> uncertain;           // general bands; the scenario's own lie over them
    int budget = 400;                           // runs
    std::uint64_t seed = 1;
};

/// Where a hunt takes place: the scenario with its bands, and the margin at each point of the cube.
class Ground {
  public:
    /// Throws as hunt() does.
    explicit Ground(const HuntRequest& request);

    [[nodiscard]] const std::string& title() const { return title_; }
    [[nodiscard]] const Requirement& requirement() const { return requirement_; }
    [[nodiscard]] const std::vector<Dimension>& dimensions() const { return dimensions_; }

    /// Points must be snapped().
    [[nodiscard]] Node tree(std::span<const double> point) const;
    [[nodiscard]] Outcome outcome(std::span<const double> point) const;
    /// search_margin() there; where no scenario can be made, far from broken.
    [[nodiscard]] double margin(std::span<const double> point);
    /// For search(); it refers to this ground.
    [[nodiscard]] SearchProblem problem();

    /// Points so far that made no scenario, and what was wrong with the first.
    [[nodiscard]] int refused() const { return refused_; }
    [[nodiscard]] const std::string& first_refusal() const { return first_refusal_; }

  private:
    std::filesystem::path scenario_;
    Node root_;
    std::string title_;
    Requirement requirement_;
    std::vector<Dimension> dimensions_;
    int refused_ = 0;
    std::string first_refusal_;
};

struct HuntResult {
    HuntRequest request;
    std::string title;  // of the scenario that was varied
    Requirement requirement;
    std::vector<Dimension> dimensions;
    SearchResult search;             // the point found, its margin in units of the scale
    std::vector<std::string> texts;  // the values found, one for each dimension
    Outcome usual;                   // of the scenario with the usual values
    Outcome found;                   // of the day found
    int refused = 0;                 // points that make no scenario, counted as not broken
    std::string first_refusal;
    Node tree;  // the day found, complete
};

/// Told before each run how many there are with it; may be empty.
using HuntProgress = std::function<void(int runs)>;

/// Throws InputRefused: no such requirement (the nearest is named), nothing uncertain, bands that
/// do not fit the scenario, and all that reading and running it throw.
[[nodiscard]] HuntResult hunt(const HuntRequest& request, const HuntProgress& progress = {});

/// One number for the search: margin / scale, negative exactly if the requirement did not hold,
/// finite. Where the run has not decided, the end of the interval that is finite.
[[nodiscard]] double search_margin(const Outcome& outcome, double scale);

/// Writes the day found as an ordinary scenario file, whole or not at all, with what was varied
/// from what to what. Makes its folder.
void write_worst_day(const HuntResult& result, const std::filesystem::path& file);
/// "NAME_worst_day" of a scenario file.
[[nodiscard]] std::string worst_day_name(const std::filesystem::path& scenario);

/// Table of quantity, usual, found and band; margin, mildness and runs; for the terminal.
[[nodiscard]] std::string hunt_text(const HuntResult& result);

}  // namespace noonbench::harness
