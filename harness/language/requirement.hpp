// SPDX-License-Identifier: MIT
// From the text of a requirement to its tree. The language is described in DEVELOPERS.md and by
// `noonbench list phrases`.
#pragma once
#include "formula.hpp"

#include "traces/signal.hpp"

#include "harness/scenario/problem.hpp"
#include "harness/scenario/scenario.hpp"

#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// One unit in which a requirement has a margin. Comparisons of the other classes then count by
/// their sign alone. `shift` is the class of relays and reasons: how many seconds earlier or later
/// they could have acted before the verdict changed.
struct MarginClass {
    bool shift = false;
    Measure measure = Measure::plain;  // of a distance: difference, never temperature; not `clock`
                                       // but duration
    bool operator==(const MarginClass&) const = default;
};
/// "K", "l/min", "s", "" and, for shift, "s" as well.
[[nodiscard]] std::string_view unit_of(const MarginClass& margin_class);

/// What an installer would call a clear difference of two such numbers, in the measure's unit (own
/// choice).
[[nodiscard]] double clear_difference(Measure measure);

struct Requirement {
    std::string name;
    std::string text;     // as written, in one line
    std::string look_at;  // as written, or made from the meanings of its signals
    FormulaPtr formula;
    AtEnd at_end = AtEnd::unknown;
    /// In order of first appearance in the text, numeric ones first; empty if there is none. The
    /// first is the requirement's own, unless `scale` names another.
    std::vector<MarginClass> classes;
    /// For the hunt: margin / scale has no unit. In the unit of classes[0], > 0.
    double scale = 1.0;
};

/// Understands all texts against the signals. Throws InputRefused with every problem at
/// FILE:LINE:COLUMN within the text: unknown words (with the nearest known one), units that do not
/// meet, an endless window inside another, a count without a period, two requirements of one name.
[[nodiscard]] std::vector<Requirement> understood_requirements(
    std::span<const RequirementText> texts, std::span<const traces::Signal> signals);

/// One formula alone, for tests and tools. Places count within `text`, file "requirement".
[[nodiscard]] FormulaPtr parse_formula(std::string_view text,
                                       std::span<const traces::Signal> signals);

/// As in formula.hpp, with the words of relays and reasons: "F[0,600](pump_relay = on)".
[[nodiscard]] std::string stl_text(const Formula& formula, std::span<const traces::Signal> signals);

/// The margin classes of a formula, in the order that Requirement::classes states.
[[nodiscard]] std::vector<MarginClass> classes_of(const Formula& formula);

}  // namespace noonbench::harness
