// SPDX-License-Identifier: MIT
// A number asked of a run, in the words of requirements: "over the run: starts of pump_relay",
// "at 12:00: flow_lpm"; or what was on or off at one moment: "at 08:30: pump_turning".
#pragma once
#include "formula.hpp"

#include "traces/signal.hpp"

#include "harness/scenario/problem.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace noonbench::harness {

struct NumberPhrase {
    ExpressionPtr number;              // this or the next; null if it is the other
    FormulaPtr condition;              // of a single tick, without windows
    std::optional<std::int32_t> at_s;  // time of day of the tick that is meant; none: the last one
    std::vector<std::size_t> signals;  // of which it speaks, in order of first appearance
};

/// Understands a text that stands at `place`. Throws InputRefused at FILE:LINE:COLUMN within it.
[[nodiscard]] NumberPhrase parse_number(std::string_view text, const Place& place,
                                        std::span<const traces::Signal> signals);

}  // namespace noonbench::harness
