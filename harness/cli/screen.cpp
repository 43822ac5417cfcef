// SPDX-License-Identifier: MIT
#include "screen.hpp"

#include "harness/bench/clock.hpp"
#include "harness/report/fault_section.hpp"

#include <fmt/format.h>

#include <unistd.h>
#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <iterator>
#include <string_view>
#include <vector>

namespace noonbench::cli {
namespace {

bool bold_wanted() {
    return isatty(STDOUT_FILENO) == 1 && std::getenv("NO_COLOR") == nullptr;
}

std::string bold(const std::string& text) {
    return bold_wanted() ? "\x1b[1m" + text + "\x1b[0m" : text;
}

std::string clock_or_dash(std::int64_t second) {
    return second < 0 ? "none" : harness::clock_text(second).substr(0, 5);
}

constexpr std::size_t text_width = 92;  // with its indent within 100 columns

/// What a fault file tells, each thing on lines of its own.
std::string fault_text(const harness::FaultText& fault) {
    std::string out = "\n";
    for (const harness::FaultLine& told : harness::fault_lines(fault)) {
        out += "  " + bold(told.heading) + "\n";
        for (const std::string& line : wrapped(told.text, text_width))
            out += fmt::format("    {}\n", line);
    }
    return out + "\n";
}

std::ptrdiff_t held_count(const std::vector<harness::Verdict>& verdicts) {
    return std::count_if(verdicts.begin(), verdicts.end(), [](const harness::Verdict& v) {
        return v.outcome.truth == harness::Truth::held;
    });
}

}  // namespace

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    while (!text.empty() && text.back() == '\n') text.remove_suffix(1);
    while (text.size() > width) {
        std::size_t at = text.rfind(' ', width);
        if (at == std::string_view::npos) at = std::min(text.find(' '), text.size());
        lines.emplace_back(text.substr(0, at));
        text.remove_prefix(std::min(at + 1, text.size()));
    }
    if (!text.empty()) lines.emplace_back(text);
    return lines;
}

std::string screen_text(const harness::Judged& judged, const std::filesystem::path& folder) {
    const harness::RunResult& r = judged.result;
    const harness::Sums& t = r.total;
    std::string text = bold(r.scenario.title) + "\n";
    if (r.scenario.fault) text += fault_text(*r.scenario.fault);
    const auto line = [&](std::string_view name, const std::string& value) {
        fmt::format_to(std::back_inserter(text), "  {:<18}{}\n", name, value);
    };
    line("sun on the roof",
         fmt::format("{:.1f} kWh/m2, {:.1f} kWh on all glass", t.sun_kwh_m2, t.sun_kwh));
    line("heat to the store", fmt::format("{:.1f} kWh by the sun, {:.1f} kWh by the backup",
                                          t.to_store_kwh, t.backup_kwh));
    line("hot water",
         fmt::format("{:.0f} l at the tap, {:.1f} kWh; {:.0f} l below {:.0f} degC", t.tapped_l,
                     t.tapped_kwh, t.cool_l, r.scenario.plant.tap.comfort_c));
    line("pump", fmt::format("{} {}, {:.1f} h, {:.2f} kWh of electricity", t.pump_starts,
                             t.pump_starts == 1 ? "start" : "starts", t.pump_run_h,
                             t.pump_electricity_kwh));
    if (r.days.size() == 1) {
        line("first start", clock_or_dash(r.days[0].first_start_s) + ", last stop " +
                                clock_or_dash(r.days[0].last_stop_s));
    }
    line("collector", fmt::format("highest {:.0f} degC, {:.1f} h above 120 degC",
                                  t.collector_highest_c, t.stagnation_h));
    line("store", fmt::format("bottom {:.0f} to {:.0f} degC, top {:.0f} to {:.0f} degC",
                              t.store_bottom_lowest_c, t.store_bottom_highest_c,
                              t.store_top_lowest_c, t.store_top_highest_c));
    line("energy balance", fmt::format("{} (residual {:.2g} J of {:.3g} J)",
                                       r.balance.holds ? "holds" : "DOES NOT HOLD",
                                       r.balance.run_residual_j, r.balance.run_throughput_j));
    for (const std::string& advice : r.advice) line("advice", advice);
    for (const std::string& message : r.messages) line("note", message);
    for (const harness::Verdict& v : judged.verdicts) {
        if (v.outcome.truth == harness::Truth::held) continue;
        line("REQUIREMENT", v.name + ": " + harness::verdict_words(v.outcome));
        line("", "look at: " + v.look_at);
    }
    if (!judged.verdicts.empty()) {
        line("requirements",
             fmt::format("{} of {} held", held_count(judged.verdicts), judged.verdicts.size()));
    }
    line("report", (folder / "report.html").string());
    return text;
}

harness::Progress progress_line() {
    return [](double share) {
        if (share >= 1.0) {
            std::cerr << "\r\x1b[K" << std::flush;
        } else {
            std::cerr << fmt::format("\r{:3.0f} %", 100.0 * share) << std::flush;
        }
    };
}

}  // namespace noonbench::cli
