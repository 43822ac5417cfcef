// SPDX-License-Identifier: MIT
#include "why.hpp"

#include "clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace noonbench::harness {
namespace {

/// A relay as it stands after all that happened at the event's second.
std::string relay_word(const std::vector<traces::Event>& events, std::size_t index,
                       std::string_view relay) {
    std::string word = "off";
    for (std::size_t i = 0; i < events.size() && events[i].at_s <= events[index].at_s; ++i) {
        if (events[i].what == "relay" && events[i].name == relay) word = events[i].to;
    }
    return word;
}

std::string line_of(const std::vector<traces::Event>& events, std::size_t index,
                    std::int64_t day_of_question) {
    const traces::Event& e = events[index];
    const std::string when =
        day_start(e.at_s) == day_of_question ? clock_text(e.at_s) : date_time_text(e.at_s);
    if (e.name == "pump_reason") {
        return fmt::format("{}  pump {}: {}", when, relay_word(events, index, "pump_relay"),
                           e.because);
    }
    if (e.name == "backup_reason") {
        return fmt::format("{}  {}", when, e.because);  // the sentence names the backup itself
    }
    if (e.what == "advice") {
        return fmt::format("{}  advice {}: {}", when, e.to == "on" ? "comes" : "goes", e.because);
    }
    return fmt::format("{}  {} {} -> {}{}", when, e.what, e.name, e.to,
                       e.because.empty() ? "" : " (" + e.because + ")");
}

}  // namespace

std::vector<std::string> chain_of_reasons(const std::vector<traces::Event>& events,
                                          std::int64_t at_s, std::size_t links) {
    std::vector<std::size_t> chain;
    bool pump_is_told = false;  // however much the backup has clicked since
    for (std::size_t i = events.size(); i-- > 0 && (chain.size() < links || !pump_is_told);) {
        if (events[i].at_s > at_s || events[i].what == "relay") continue;
        const bool of_pump = events[i].name == "pump_reason";
        if (chain.size() >= links && !of_pump) continue;
        chain.push_back(i);
        pump_is_told = pump_is_told || of_pump;
    }
    std::reverse(chain.begin(), chain.end());
    std::vector<std::string> lines;
    lines.reserve(chain.size());
    for (const std::size_t i : chain) lines.push_back(line_of(events, i, day_start(at_s)));
    return lines;
}

}  // namespace noonbench::harness
