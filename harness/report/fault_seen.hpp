// SPDX-License-Identifier: MIT
// What is kept of a fault's run and of its healthy twin's for a page of many faults: a small
// picture, sums and verdicts, but no trace.
#pragma once
#include "chart_lines.hpp"
#include "trail.hpp"

#include "harness/judge/judge.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// What a customer's log shows of temperatures: the chart's lines but the last, the air.
inline constexpr std::span picture_lines =
    std::span(temperature_lines).first<temperature_lines.size() - 1>();

/// The lines and bands that the picture draws.
struct RunPicture {
    std::int64_t from_s = 0;
    std::int64_t until_s = 1;
    std::vector<Trail> lines;  // in the order of picture_lines
    Trail gauge;               // bar
    traces::Visibility gauge_visible = traces::Visibility::read_on_site;
    std::vector<Cell> pump;  // switched on; picture_cells of them
    std::vector<Cell> lost;  // without a reading of any of the lines; picture_cells of them
};

inline constexpr std::size_t picture_points = 300;  // a line, at most
inline constexpr std::size_t picture_cells = 306;   // one a unit of the drawing's width

/// One requirement, and who could see on a real site what it speaks of.
struct SeenVerdict {
    std::string name;
    std::string text;
    Outcome outcome;
    std::string in_words;  // "held, by 3.1 K"
    traces::Visibility visible = traces::Visibility::bench_only;
    bool twin_must_fail = false;  // it names the healthy twin as what it fails with
};

struct SeenRun {
    Scenario scenario;
    RunPicture picture;
    Sums total;
    std::vector<SeenVerdict> verdicts;  // in the order of the requirements
};

/// The requirements are those with which it was judged.
[[nodiscard]] SeenRun seen_run(const Judged& judged, std::span<const Requirement> requirements);

struct SeenFault {
    SeenRun fault;
    std::optional<SeenRun> twin;  // where there is anything to heal
};

/// The twin's verdict on the requirement of this name; null without a twin.
[[nodiscard]] const SeenVerdict* in_twin(const SeenFault& seen, const std::string& name);

/// Whether the requirement, if it names the twin as what it fails with, does not hold there.
[[nodiscard]] bool fails_where_it_must(const SeenVerdict& with_fault, const SeenVerdict* in_twin);

/// One sentence for each requirement that did not come out as the file claims.
[[nodiscard]] std::vector<std::string> complaints_of(const SeenFault& seen);

}  // namespace noonbench::harness
