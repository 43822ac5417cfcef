// SPDX-License-Identifier: MIT
// An exhaustive search on the bench, kept as a file: every setting of a grid in every world of a
// pool, so that a search can be run on the same samples and the best of all is known.
#pragma once
#include "harness/choose/candidates.hpp"
#include "harness/choose/halving_grid.hpp"
#include "harness/choose/score.hpp"
#include "harness/choose/trial.hpp"
#include "harness/choose/trial_runner.hpp"
#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <iosfwd>
#include <string>
#include <vector>

namespace noonbench::harness::testing {

/// What makes the table: change any of it and it must be made anew (target renew_choose_twin).
inline constexpr const char* twin_site = "scenarios/sites/orchard_lane_3.yaml";
inline constexpr std::uint64_t twin_seed = 1;   // of the worlds
inline constexpr std::size_t twin_worlds = 12;  // numbers 0 to 11

[[nodiscard]] std::filesystem::path twin_file();

/// The site, the part of its search space that the table has, and the grid over it. Not to be
/// copied: the grid refers to the space.
struct TwinGround {
    TwinGround();
    TwinGround(const TwinGround&) = delete;
    TwinGround& operator=(const TwinGround&) = delete;
    ~TwinGround() = default;

    Scenario site;
    SearchSpace space;
    Grid grid;
    std::size_t delivered = 0;  // candidate

    /// For a runner of these candidates in worlds of the table's seed.
    [[nodiscard]] TrialGround trials() const;
};

/// All figures that a score needs, and what the file says it was made from.
struct TwinTable {
    std::vector<std::string> heading;                 // lines of words at the file's top
    std::vector<YearFigures> without_sun;             // by world
    std::vector<std::vector<YearFigures>> candidate;  // by world, then by candidate; those that
                                                      // the grid leaves out are empty
};

/// The figures in the table, in the order of its columns: all that limits and objective look at.
[[nodiscard]] std::vector<FigureInfo> twin_figures();

/// What the file's heading has to say of this ground.
[[nodiscard]] std::vector<std::string> twin_heading(const TwinGround& ground);

void write_twin(std::ostream& out, const TwinGround& ground, const TwinTable& table);
/// Throws std::runtime_error for a file that is no table of this ground's size.
[[nodiscard]] TwinTable read_twin(std::istream& in, const TwinGround& ground);

/// As the runner would score it.
[[nodiscard]] Score twin_score(const TwinGround& ground, const TwinTable& table,
                               const Trial& trial);

/// Runs what `rows` (an SQLite file of the runner's) does not hold yet, on one thread: hours of a
/// core may be broken off and gone on with. Writes the table.
void renew_twin(const std::filesystem::path& rows);

}  // namespace noonbench::harness::testing
