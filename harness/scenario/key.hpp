// SPDX-License-Identifier: MIT
// One row of the table of keys. Reading, JSON Schema, the starter file and the lists are all made
// from these rows; there is no other place where a key is known.
#pragma once
#include "draft.hpp"

#include "firmware-model/settings.hpp"

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace noonbench::harness {

/// How the value of a key is written.
enum class Form : std::uint8_t {
    number,       // with its unit, or plain when the unit is ""
    flag,         // yes or no
    word,         // one of the words
    line,         // free text
    raw,          // free text that is understood later
    time_of_day,  // 06:30
    date_time,    // 2026-04-15 06:30
    moment,       // either, or `start`; seen from the scenario's start
    numbers,      // a list of ten plain numbers
    words,        // a list of words
    lines,        // a list of free texts
    setting,      // as the setting table says
    list,         // `least` to `most` maps, or one map alone; each has the keys `items`
};

/// Where the value goes. Bytes are enums of uint8_t; integers must be whole in SI.
using Slot = std::variant<std::monostate, double*, std::optional<double>*, std::int32_t*,
                          std::int64_t*, std::uint64_t*, std::uint8_t*, bool*, std::string*, Raw*,
                          std::array<double, 10>*, std::vector<std::uint8_t>*, std::vector<Raw>*>;

/// Why a list item cannot stand as it is; empty `what` = it can.
struct Objection {
    std::string what;
    std::string allowed;
    Place place;  // line 0 and no file: the item itself
};

struct Key {
    std::string path;  // "store.solar_coil.from_height"; inside a list: from the item
    Form form = Form::number;
    std::string_view unit;
    double least = 0.0;
    double most = 0.0;
    std::string meaning;
    std::function<Slot(Draft&)> slot;
    std::vector<std::string_view> words;
    const firmware::SettingInfo* setting = nullptr;
    bool required = false;  // in items of lists, and in sections that are there
    std::vector<Key> items;
    std::function<void(Draft&)> open;                    // before a list is read
    std::function<void(Draft&)> begin;                   // before each item of it
    std::function<std::vector<Objection>(Draft&)> take;  // after the value or item is read
};

/// Rows are applied in this order, whatever the order in the file: `start` comes before the
/// moments that depend on it, a collector's kind before its single figures.
[[nodiscard]] const std::vector<Key>& all_keys();

/// Keys of which only one may be given: {"sky", {"clear_day", ...}}.
struct Rivals {
    std::string_view path;
    std::vector<std::string_view> keys;
    void (*choose)(Draft&, std::size_t index);  // the one that is given
};
[[nodiscard]] const std::vector<Rivals>& all_rivals();

/// The next words that may follow a path ("" = the top), in table order.
[[nodiscard]] std::vector<std::string_view> words_below(const std::vector<Key>& keys,
                                                        std::string_view path);

}  // namespace noonbench::harness
