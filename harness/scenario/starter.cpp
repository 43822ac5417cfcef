// SPDX-License-Identifier: MIT
// The starter scenario: the keys that one changes first, each with its default and its meaning
// from the table. Values stand in force, so that the file is the default scenario, said aloud.
#include "describe.hpp"
#include "key.hpp"
#include "value.hpp"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

namespace noonbench::harness {

namespace {

constexpr std::string_view opening =
    R"(# A scenario for noonbench. Every key may be left out; then its default holds, and the values
# below are just those. Quantities carry their unit: 7 K, 2.6 l/min, 40 deg. Times are local
# standard time, never summer time. Two commands say more:
#   noonbench schema   every key, for your editor
#   noonbench list     settings, levers and scenarios
# A file may build on another one:  based_on: my_house.yaml
title: My first scenario
about: What should one look at, and why?
)";

constexpr std::string_view closing = R"(
# What may happen, when (take away the # to try):
# faults:
#   - name: scale in the solar coil
#     moves:
#       - {lever: coil_fouling, to: 30 %, at: "12:00", over: 60 min}
# moves:
#   - {setting: start_difference, to: 10 K, at: "13:00"}
#   - {hand: pump, to: off, at: "14:00"}
#   - {wire: collector.state, to: open, at: "15:00"}
# require:  # what must hold; `noonbench list phrases` has the words
#   - name: the pump rests at night
#     that: never between 22:00 and 05:00, pump_relay is on
# uncertain:  # what nobody knows exactly on site
#   - {key: loop.pump.full_flow, least: 2.2 l/min, most: 3 l/min}
)";

constexpr std::array<std::string_view, 36> paths = {
    "start",
    "length",
    "seed",
    "site.latitude",
    "site.longitude",
    "site.elevation",
    "site.utc_offset",
    "roof.slope",
    "roof.azimuth",
    "collectors.kind",
    "collectors.number",
    "collectors.area",
    "loop.glycol_share",
    "loop.pressure",
    "loop.height",
    "loop.pipes.length",
    "loop.pipes.outer_diameter",
    "loop.pipes.insulation",
    "loop.pump.full_flow",
    "loop.pump.takes_speed_signal",
    "store.volume",
    "store.start_top",
    "store.start_bottom",
    "backup.kind",
    "backup.power",
    "household.people",
    "tap.mixer_set",
    "sky.clear_day.air_least",
    "sky.clear_day.air_most",
    "sky.clear_day.turbidity",
    "controller.start_difference",
    "controller.stop_difference",
    "controller.store_limit",
    "controller.collector_cut_out",
    "controller.backup_temperature",
    "controller.window_1_from",
};

/// The row of a path, also through a list of maps; a list is begun so that its defaults stand.
const Key& key_of_path(std::string_view path, Draft& draft) {
    for (const Key& key : all_keys()) {
        if (key.path == path) return key;
        if (key.form != Form::list || !path.starts_with(key.path + ".")) continue;
        key.begin(draft);
        for (const Key& item : key.items)
            if (item.path == path.substr(key.path.size() + 1)) return item;
    }
    throw std::logic_error("starter: no key " + std::string(path));
}

std::string yaml_value(const Key& key, Draft& draft) {
    const std::string value = written_value(key, draft);
    const bool is_time = value.size() >= 5 && value[2] == ':';
    return is_time ? fmt::format("\"{}\"", value) : value;  // 06:30 is a number to old readers
}

/// Writes the words of the path that differ from the one before as openings of sections.
void add_line(std::string& out, std::string_view before, std::string_view path) {
    std::string indent;
    bool is_same = true;
    while (true) {
        const std::size_t dot = path.find('.');
        const std::string_view word = path.substr(0, dot);
        const std::size_t other_dot = before.find('.');
        is_same = is_same && before.substr(0, other_dot) == word;
        if (dot == std::string_view::npos) break;
        if (!is_same) out += fmt::format("{}{}{}:\n", indent.empty() ? "\n" : "", indent, word);
        indent += "  ";
        path.remove_prefix(dot + 1);
        before.remove_prefix(other_dot == std::string_view::npos ? before.size() : other_dot + 1);
    }
    out += indent + std::string(path);
}

}  // namespace

std::string starter_text() {
    Draft draft;
    std::string out(opening);
    std::string_view before;
    for (const std::string_view path : paths) {
        add_line(out, before, path);
        const Key& key = key_of_path(path, draft);
        const std::size_t line_begin = out.rfind('\n') + 1;
        out += ": " + yaml_value(key, draft);
        const std::size_t width = out.size() - line_begin;
        constexpr std::size_t column = 38;
        out.append(width < column ? column - width : 1, ' ');
        out += fmt::format("# {}\n", key.meaning);
        before = path;
    }
    return out.append(closing);
}

}  // namespace noonbench::harness
