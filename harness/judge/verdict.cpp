// SPDX-License-Identifier: MIT
#include "judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

/// A margin as a person reads it: seconds as such up to two minutes, then minutes, then hours.
std::string seconds_text(double s) {
    if (std::abs(s) < 120.0) return fmt::format("{:.0f} s", s);
    if (std::abs(s) < 3600.0) return fmt::format("{:.1f} min", s / 60.0);
    return fmt::format("{:.1f} h", s / 3600.0);
}

/// Where numbers of one unit are all that a requirement is about, only a missing number takes its
/// margin to minus infinity.
bool lacked_a_value(const Outcome& outcome) {
    return outcome.margins.size() == 1 && !outcome.margins.front().margin_class.shift &&
           std::isinf(outcome.margins.front().hi);
}

/// ", by 3.1 K": the first margin that says something; empty if none does.
std::string by_how_much(const Outcome& outcome) {
    for (const Margin& m : outcome.margins) {
        const double size = std::min(std::abs(m.lo), std::abs(m.hi));
        if (!std::isinf(size)) return ", by " + margin_text(m.margin_class, size);
    }
    return {};
}

}  // namespace

std::string margin_text(const MarginClass& margin_class, double margin) {
    if (std::isinf(margin)) return margin > 0.0 ? "any" : "-any";
    const std::string_view unit = unit_of(margin_class);
    if (unit == "s") {
        const bool capped = margin_class.shift && std::abs(margin) >= double{longest_shift_s};
        return (capped ? "over " : "") + seconds_text(margin);
    }
    if (unit == "W" && std::abs(margin) >= 1000.0) return fmt::format("{:.1f} kW", margin / 1000.0);
    const bool whole = unit.empty() && margin == std::floor(margin);
    const std::string number =
        whole ? fmt::format("{:.0f}", margin)
              : fmt::format("{:.{}f}", margin, std::abs(margin) < 10.0 ? 2 : 1);
    return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

std::string verdict_words(const Outcome& outcome) {
    switch (outcome.truth) {
        case Truth::held:
            if (!outcome.put_to_the_test) return "held, but never put to the test";
            return "held" + by_how_much(outcome);
        case Truth::not_held:
            if (lacked_a_value(outcome)) return "not held: there was no value to compare";
            return "not held" + by_how_much(outcome);
        case Truth::not_known:
            break;
    }
    if (outcome.margins.empty()) return "not yet known";
    const Margin& m = outcome.margins.front();
    return fmt::format("not yet known ({} to {})", margin_text(m.margin_class, m.lo),
                       margin_text(m.margin_class, m.hi));
}

bool all_held(std::span<const Verdict> verdicts) {
    return std::all_of(verdicts.begin(), verdicts.end(),
                       [](const Verdict& v) { return v.outcome.truth == Truth::held; });
}

}  // namespace noonbench::harness
