// SPDX-License-Identifier: MIT
#include "theory_effects.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace noonbench::harness {

namespace {

constexpr const char* review =
    "Eur. J. Sust. Dev. Res. 3(1), 2019, em0066, and what cites Schiller et al. 1980: Kahwaji & "
    "Winn 1986, Huang 1994, Hirsch 1985 (summaries seen, not the papers)";
constexpr const char* rule_source =
    "formula of the textbook (Duffie & Beckman, controls; from memory, derived anew), 4 m2 with "
    "A F_R U_L of 15.2 W/K, water, no exchanger";
constexpr const char* handbook = "Kalogirou, Solar Energy Engineering (excerpts seen)";

std::vector<PublishedEffect> differences_and_cycling() {
    using enum Direction;
    return {
        {"start_difference_efficiency",
         "start difference raised by 5 to 10 K from 2 to 5 K: daily collection efficiency", review,
         falls, true, -26.0, 0.0, "points"},
        {"start_difference_run_time",
         "start difference raised by 5 to 10 K from 2 to 5 K: running time of the pump", review,
         falls, true, -69.0, -3.0, "%"},
        {"differences_order",
         "higher start and stop difference: heat collected, not in strict order", review, falls,
         false, 0.0, 0.0, "%"},
        {"smaller_gap_starts", "smaller gap between start and stop: pump starts", review, rises,
         false, 0.0, 0.0, "%"},
        {"ratio_high_flow", "start over stop that keeps the pump from cycling at 50 l/h m2",
         rule_source, either, true, 15.278, 15.278, ""},
        {"ratio_middle_flow", "the same at 30 l/h m2", rule_source, either, true, 9.167, 9.167, ""},
        {"ratio_low_flow", "the same at 12 l/h m2", rule_source, either, true, 3.667, 3.667, ""},
        {"ratio_usual", "start over stop in use", "from memory and common practice", either, true,
         4.0, 6.0, ""},
        {"start_usual", "start difference in use", handbook, either, true, 4.0, 11.0, "K"},
        {"stop_usual", "stop difference in use", handbook, either, true, 2.0, 5.0, "K"}};
}

std::vector<PublishedEffect> flow_and_drive() {
    using enum Direction;
    return {
        {"low_flow_efficiency",
         "flow from 0.9 to 0.3 l/min m2 (54 to 18 l/h m2): efficiency of the collector", handbook,
         falls, true, -6.5, -5.5, "%"},
        {"low_flow_solar_fraction", "low flow with a stratified store: solar fraction", handbook,
         rises, false, 0.0, 0.0, "%"},
        {"low_flow_stratification",
         "about 7 kg/h m2 with a stratified store against a well mixed one: solar fraction",
         "Wuestling, Klein & Duffie 1985 (from memory)", rises, true, 5.0, 20.0, "%"},
        {"proportional_day", "speed in proportion against on and off, single days: heat collected",
         "J. Sol. Energy Eng. 106(4), 1984, 423 (abstract seen)", rises, false, 0.0, 0.0, "%"},
        {"proportional_year", "speed in proportion against on and off, a year: solar fraction",
         "Solar Energy 177, 2019, 68 (abstract seen; the other way at very small area)", rises,
         true, 0.0, 50.0, "%"},
        {"clear_day_starts", "on and off with the rule kept, a clear day: starts",
         "Rorres, Orbach & Fischl, IEEE Trans. Autom. Control 25(6), 1980, 1085 (abstract seen)",
         either, true, 1.0, 1.0, ""}};
}

/// "-26 to 0 points", "rises", "4 to 6"
std::string band_text(const PublishedEffect& effect) {
    if (!effect.has_band) return effect.direction == Direction::falls ? "falls" : "rises";
    const double size = std::max(std::abs(effect.least), std::abs(effect.most));
    const bool whole =
        effect.least == std::round(effect.least) && effect.most == std::round(effect.most);
    const int decimals = whole ? 0 : (size < 100.0 ? 1 : 0);
    std::string text = number_text(effect.least, decimals);
    if (effect.most > effect.least) text += " to " + number_text(effect.most, decimals);
    return effect.unit.empty() ? text : text + " " + effect.unit;
}

}  // namespace

const std::vector<PublishedEffect>& published_effects() {
    static const std::vector<PublishedEffect> effects = [] {
        std::vector<PublishedEffect> all = differences_and_cycling();
        const std::vector<PublishedEffect> more = flow_and_drive();
        all.insert(all.end(), more.begin(), more.end());
        return all;
    }();
    return effects;
}

const PublishedEffect& published_effect(std::string_view key) {
    const auto& effects = published_effects();
    const auto found = std::find_if(effects.begin(), effects.end(),
                                    [&](const PublishedEffect& e) { return e.key == key; });
    if (found == effects.end()) {
        throw std::out_of_range("no published effect '" + std::string(key) + "'");
    }
    return *found;
}

Against against(const PublishedEffect& effect, double simulated, double noise) {
    if (effect.has_band && simulated >= effect.least - noise && simulated <= effect.most + noise) {
        return Against::within;
    }
    if (effect.direction == Direction::either) return Against::opposite;
    if (std::abs(simulated) <= noise) return Against::no_change;
    return (simulated < 0.0) == (effect.direction == Direction::falls) ? Against::same_direction
                                                                       : Against::opposite;
}

const char* words_of(Against found, bool has_band) {
    switch (found) {
        case Against::within:
            return "within the published band";
        case Against::same_direction:
            return has_band ? "same direction, outside the published band" : "same direction";
        case Against::no_change:
            return "no change to be told from noise";
        case Against::opposite:
            return has_band ? "outside the published band" : "the other way";
    }
    return "";
}

TheoryLine effect_line(const PublishedEffect& effect, double simulated, double noise,
                       int decimals) {
    const std::string unit = effect.unit.empty() ? "" : " " + effect.unit;
    return {.name = "published",
            .rule = effect.finding,
            .source = effect.source,
            .theory = band_text(effect),
            .simulated = number_text(simulated, decimals) + unit,
            .why = words_of(against(effect, simulated, noise), effect.has_band)};
}

}  // namespace noonbench::harness
