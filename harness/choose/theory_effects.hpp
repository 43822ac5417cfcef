// SPDX-License-Identifier: MIT
// Sizes of effects that others found, to hold against what the bench finds; and the theory of one
// loop as lines for a page.
#pragma once
#include "chosen.hpp"
#include "theory.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// What happens to the quantity.
enum class Direction : std::uint8_t {
    falls,
    rises,
    either,  // the band alone counts
};

/// One published finding. The band is that of the figures seen; without one (`has_band` false) only
/// the direction was found.
struct PublishedEffect {
    std::string key;      // to ask for it by: "start_difference_efficiency"
    std::string finding;  // what was done, and which quantity changed
    std::string source;   // and how far it was seen
    Direction direction = Direction::either;
    bool has_band = false;
    double least = 0.0;  // change of the quantity, in `unit`; falls are negative
    double most = 0.0;
    std::string unit;
};

/// All findings, in the order of a page.
[[nodiscard]] const std::vector<PublishedEffect>& published_effects();

/// The finding of that key. Throws std::out_of_range for a key that there is not.
[[nodiscard]] const PublishedEffect& published_effect(std::string_view key);

/// Where a figure of the bench lies: changes no larger than `noise` count as none.
enum class Against : std::uint8_t { within, same_direction, no_change, opposite };
[[nodiscard]] Against against(const PublishedEffect& effect, double simulated, double noise);
/// "within the published band", "same direction, outside the published band", ...
[[nodiscard]] const char* words_of(Against found, bool has_band);

/// A line for the page: the finding, its band, the bench's figure and how the two agree.
[[nodiscard]] TheoryLine effect_line(const PublishedEffect& effect, double simulated, double noise,
                                     int decimals);

/// The theory of the scenario's loop with its own settings as lines, without what the bench found
/// (`simulated`, `why` stay empty): start/stop rule at full and, with a speed-driven pump, at least
/// level; irradiances; coil; economic bound; flow. `electricity_weight` is how many kilowatt-hours
/// of heat one of electricity counts in the objective.
/// Throws std::invalid_argument like loop_figures().
[[nodiscard]] std::vector<TheoryLine> theory_lines(const Scenario& scenario, const Moment& moment,
                                                   double electricity_weight);

}  // namespace noonbench::harness
