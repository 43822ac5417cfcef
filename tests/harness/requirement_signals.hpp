// SPDX-License-Identifier: MIT
// What the tests of requirements share: the columns of the default bench and a look at refusals.
#pragma once
#include "traces/signal.hpp"

#include "harness/bench/signals.hpp"
#include "harness/language/requirement.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/scenario.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness::test {

inline std::vector<traces::Signal> default_signals() {
    return signals_of(columns_of(Scenario{}));
}

/// The formula of a text in STL, or the refusal in words: "1:5: what; allowed: ...".
inline std::string understood(std::string_view text, const std::vector<traces::Signal>& signals) {
    try {
        return stl_text(*parse_formula(text, signals), signals);
    } catch (const InputRefused& refused) {
        constexpr std::string_view file = "requirement:";
        std::string line = harness::text(refused.problems().at(0));
        return line.starts_with(file) ? line.substr(file.size()) : line;
    }
}

}  // namespace noonbench::harness::test
