// SPDX-License-Identifier: MIT
#include "fault_section.hpp"

#include "text.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>

namespace noonbench::harness {
namespace {

constexpr std::array<std::string_view, 5> onset_words = {
    "all at once", "little by little", "after somebody worked on the plant", "with the weather",
    "from the first day on"};

/// "collector_sensor_open, air_in_the_loop" as words.
std::string names_in_words(const std::vector<std::string>& names) {
    std::string out;
    for (const std::string& name : names) out += (out.empty() ? "" : ", ") + name;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

}  // namespace

std::string trimmed(std::string_view text) {
    while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.remove_suffix(1);
    return std::string(text);
}

std::vector<FaultLine> fault_lines(const FaultText& fault) {
    std::vector<FaultLine> lines;
    const auto add = [&](Told told, const char* heading, std::string_view text) {
        if (std::string kept = trimmed(text); !kept.empty())
            lines.push_back({told, heading, std::move(kept)});
    };
    add(Told::customer_says, "The customer says", fault.customer_says);
    add(Told::log_shows, "The log shows", fault.log_shows);
    add(Told::on_site, "On site", fault.on_site);
    add(Told::measure_first, "Measure first", fault.measure_first);
    add(Told::remedy, "Remedy", fault.remedy);
    add(Told::caution, "Caution", fault.caution);
    add(Told::onset, "It comes", onset_words[static_cast<std::size_t>(fault.onset)]);
    if (fault.nothing_wrong)
        add(Told::nothing_wrong, "Nothing is broken", "the picture alarms, the plant is sound");
    add(Told::looks_like, "A log alone cannot tell it from", names_in_words(fault.looks_like));
    add(Told::bench_differs, "The bench differs", fault.bench_differs);
    return lines;
}

std::string fault_line_html(const FaultLine& line) {
    return joined({line.told == Told::caution ? "<div class=\"check-this\">" : "<div>", "<dt>",
                   escaped(line.heading), "</dt><dd>", escaped(line.text), "</dd></div>"});
}

std::string fault_section(const std::optional<FaultText>& fault) {
    if (!fault) return {};
    std::string out = "<dl class=\"fault verbatim\">";
    for (const FaultLine& line : fault_lines(*fault)) out += fault_line_html(line);
    return out + "</dl>";
}

}  // namespace noonbench::harness
