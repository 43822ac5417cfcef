// SPDX-License-Identifier: MIT
// noonbench why TRACE --at TIME
#include "command.hpp"
#include "read_files.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/seal.hpp"
#include "harness/bench/why.hpp"
#include "harness/scenario/problem.hpp"

#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::cli {
namespace {

struct WhyOptions {
    std::string trace;
    std::string at;
    std::size_t links = 6;
    bool reveal = false;
};

int explain(const WhyOptions& options) {
    std::vector<traces::Event> events = read_events(options.trace);
    if (!options.reveal) events = harness::without_telling(std::move(events));
    const std::int64_t first_day = harness::day_start(events.front().at_s);
    const std::int64_t at_s = instant(options.at, first_day);
    const auto lines = harness::chain_of_reasons(events, at_s, options.links);
    if (lines.empty()) {
        throw harness::InputRefused(
            {{options.trace, 0, 0, "nothing has happened yet at " + options.at,
              "a time from " + harness::date_time_text(events.front().at_s)}});
    }
    for (const std::string& line : lines) std::cout << line << '\n';
    return exit_done;
}

}  // namespace

void add_why(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<WhyOptions>();
    CLI::App* why =
        app.add_subcommand("why", "The chain of reasons that led to an instant, in words");
    why->add_option("TRACE", options->trace, "folder of a run, or a file in it")->required();
    why->add_option("--at", options->at, "13:42:07 (of the first day) or '2026-04-15 13:42'")
        ->required();
    why->add_option("--links", options->links, "how many changes to go back")
        ->check(CLI::Range(1, 1000))
        ->capture_default_str();
    why->add_flag("--reveal", options->reveal,
                  "also name the levers and the moves of faults: what is wrong, not only what is "
                  "seen");
    why->footer("Example:  noonbench why out/clear_spring_day --at 13:42");
    why->callback([options, &exit_code] { exit_code = explain(*options); });
}

}  // namespace noonbench::cli
