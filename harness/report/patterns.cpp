// SPDX-License-Identifier: MIT
#include "patterns.hpp"

#include <fmt/format.h>

#include <array>

namespace noonbench::harness {
namespace {

/// Marks within a square of 8 by 8. Families: calm (no mark or sparse), running (stripes), barred
/// (crosses), by hand (dots).
constexpr std::array<const char*, 15> pump_marks = {
    "",                                  // waiting for sun: plain
    "M-2 2 2 -2M-2 10 10 -2M6 10 10 6",  // collecting: rising stripes
    "M0 4h2M4 4h2",                      // resting: dashes
    "M-2 6 2 10M-2 -2 10 10M6 -2 10 2",  // running on: falling stripes
    "M0 2h8M0 6h8",                      // store full: level lines
    "M0 0 8 8M8 0 0 8M0 4h8",            // ceiling: cross and bar
    "M0 0 8 8M8 0 0 8",                  // collector too hot: cross
    "M2 0v8M6 0v8",                      // shedding by day: uprights
    "M4 0v8",                            // shedding by night
    "M4 1v6M1 4h6M2 2 6 6M6 2 2 6",      // frost: stars
    "M0 8 4 0 8 8",                      // test run: zigzag
    "M0 4q2 -4 4 0t4 0",                 // exercise: wave
    "M2 2h1v1h-1zM6 6h1v1h-1z",          // on by hand: dots
    "M4 4h1v1h-1z",                      // off by hand: sparse dots
    "M2 0v8M6 0v8M0 2h8M0 6h8",          // sensor lost: grid
};
constexpr std::array<const char*, firmware::pump_reason_count> pump_tints = {
    "rest", "run", "rest", "run", "full", "alarm", "alarm", "run",
    "run",  "run", "run",  "run", "run",  "rest",  "alarm"};

constexpr std::array<const char*, 10> backup_marks = {"M-2 2 2 -2M-2 10 10 -2M6 10 10 6",
                                                      "",
                                                      "M0 4h8",
                                                      "M0 4h2M4 4h2",
                                                      "M2 0v8M6 0v8",
                                                      "M4 4h1v1h-1z",
                                                      "M0 0 8 8M8 0 0 8M0 4h8",
                                                      "M2 2h1v1h-1zM6 6h1v1h-1z",
                                                      "M4 4h1v1h-1z",
                                                      "M2 0v8M6 0v8M0 2h8M0 6h8"};
constexpr std::array<const char*, firmware::backup_reason_count> backup_tints = {
    "warm", "rest", "rest", "rest", "warm", "rest", "alarm", "warm", "rest", "alarm"};

std::string pattern(const std::string& id, const char* tint, const char* marks) {
    return fmt::format(
        "<pattern id=\"{}\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\">"
        "<rect class=\"tint-{}\" width=\"8\" height=\"8\"/><path class=\"mark\" d=\"{}\"/>"
        "</pattern>",
        id, tint, marks);
}

}  // namespace

std::string pattern_definitions() {
    std::string out = "<defs>";
    for (std::size_t i = 0; i < firmware::pump_reason_count; ++i) {
        out += pattern(fmt::format("pump-{}", i), pump_tints[i], pump_marks[i]);
    }
    for (std::size_t i = 0; i < firmware::backup_reason_count; ++i) {
        out += pattern(fmt::format("backup-{}", i), backup_tints[i], backup_marks[i]);
    }
    out += pattern("flow-sun", "sun", "");
    out += pattern("flow-useful", "run", "M-2 2 2 -2M-2 10 10 -2M6 10 10 6");
    out += pattern("flow-lost", "rest", "M4 4h1v1h-1z");
    out += pattern("flow-backup", "warm", "M0 2h8M0 6h8");
    return out + "</defs>";
}

std::string swatch(const std::string& pattern) {
    return fmt::format(
        "<svg class=\"swatch\" width=\"26\" height=\"16\" aria-hidden=\"true\">"
        "<rect width=\"26\" height=\"16\" fill=\"url(#{})\"/></svg>",
        pattern);
}

}  // namespace noonbench::harness
