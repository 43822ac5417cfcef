// SPDX-License-Identifier: MIT
#include "phrases.hpp"

#include <fmt/format.h>

#include <array>

namespace noonbench::harness {
namespace {

constexpr auto phrases = std::to_array<Phrase>({
    {"Relays and reasons", "S is WORD", "the relay stands so, the reason is this one",
     "pump_relay is off", "pump_relay = off"},
    {"", "S is not WORD", "anything but that", "pump_reason is not sensor_lost",
     "!(pump_reason = sensor_lost)"},
    {"", "S goes WORD", "it is so in this second and was not in the one before",
     "pump_relay goes on", "rise(pump_relay = on)"},
    {"", "S goes off", "a relay that was on ceases to be", "pump_relay goes off",
     "fall(pump_relay = on)"},
    {"", "X has a value", "there is a reading", "collector_reading_c has a value",
     "known(collector_reading_c)"},
    {"", "X has no value", "a lost sensor, a closed tap, a dark display", "tap_c has no value",
     "!(known(tap_c))"},

    {"Numbers", "X is above Y", "more than; or >", "difference_k is above 8 K", "difference_k > 8"},
    {"", "X is below Y", "less than; or <", "flow_lpm is below 150 l/h", "flow_lpm < 2.5"},
    {"", "X is at least Y", "as much or more; or >=", "tap_c is at least 45 degC", "tap_c >= 45"},
    {"", "X is at most Y", "as much or less; or <=", "store_top_reading_c is at most 65 degC",
     "store_top_reading_c <= 65"},
    {"", "X is between Y and Z", "at least Y and at most Z",
     "pump_speed_pct is between 30 % and 100 %",
     "(pump_speed_pct >= 30) & (pump_speed_pct <= 100)"},
    {"", "X = Y, X != Y", "exactly as much, or anything else", "pump_speed_pct = 100 %",
     "pump_speed_pct = 100"},
    {"", "X + Y, X - Y", "of one measure; a temperature and a difference too",
     "collector_reading_c - store_bottom_reading_c > 5 K",
     "collector_reading_c - store_bottom_reading_c > 5"},
    {"", "X * Y, X / Y", "by a plain number; or a ratio of two of one measure, plain or in %",
     "to_store_w / absorbed_w >= 30 %", "to_store_w / absorbed_w * 100 >= 30"},
    {"", "abs(X)", "without its sign", "abs(station_hot_c - station_cold_c) < 20 K",
     "abs(station_hot_c - station_cold_c) < 20"},
    {"", "lesser(X, Y), greater(X, Y)", "the one or the other of two",
     "greater(store_top_reading_c, store_bottom_reading_c) <= 90 degC",
     "max(store_top_reading_c, store_bottom_reading_c) <= 90"},
    {"", "time since (F)",
     "since the last second in which it held, this one included; no value before the first",
     "never pump_relay goes on and time since (pump_relay goes off) < 60 s",
     "G(!(rise(pump_relay = on) & (time_since(fall(pump_relay = on)) < 60)))"},

    {"Joining", "A and B", "both hold", "pump_relay is on and flow_lpm > 1 l/min",
     "(pump_relay = on) & (flow_lpm > 1)"},
    {"", "A or B", "at least one holds", "pump_relay is off or pump_turning is on",
     "(pump_relay = off) | (pump_turning = on)"},
    {"", "not A", "A does not hold", "not pump_relay is on", "!(pump_relay = on)"},
    {"", "if A then B", "where A holds, B holds too",
     "if pump_reason is resting then pump_relay is off",
     "(pump_reason = resting) -> (pump_relay = off)"},

    {"Through the whole run (outermost only)", "always F", "in every second",
     "always air_c < 40 degC", "G(air_c < 40)"},
    {"", "never F", "in no second", "never backup_relay is on", "G(!(backup_relay = on))"},
    {"", "sometime F", "in one second at least", "sometime pump_reason is collecting",
     "F(pump_reason = collecting)"},
    {"", "A until B", "B comes, and A holds in every second before",
     "pump_relay is off until collector_reading_c > 30 degC",
     "(pump_relay = off) U (collector_reading_c > 30)"},

    {"Within a window, counted from each second", "always within T F", "now and throughout T",
     "always if pump_relay goes on then always within 3 min pump_relay is on",
     "G(rise(pump_relay = on) -> G[0,180](pump_relay = on))"},
    {"", "never within T F", "neither now nor throughout T",
     "always if pump_relay goes off then never within 60 s pump_relay goes on",
     "G(fall(pump_relay = on) -> G[0,60](!(rise(pump_relay = on))))"},
    {"", "sometime within T F", "now or at the latest after T",
     "always sometime within 2 h flow_lpm < 0.1 l/min", "G(F[0,7200](flow_lpm < 0.1))"},
    {"", "always from T to T F", "the same of a window that begins later; never, sometime likewise",
     "always if pump_relay goes on then sometime from 30 s to 5 min flow_lpm > 1 l/min",
     "G(rise(pump_relay = on) -> F[30,300](flow_lpm > 1))"},
    {"", "A until B within T", "B comes within T, and A holds in every second before",
     "always if pump_relay goes on then pump_relay is on until flow_lpm > 1 l/min within 5 min",
     "G(rise(pump_relay = on) -> ((pump_relay = on) U[0,300] (flow_lpm > 1)))"},

    {"By the clock (outermost only)", "always between HH:MM and HH:MM F",
     "each day from the one time up to the other, through midnight too; never likewise",
     "never between 22:00 and 05:00 pump_relay is on",
     "G((clock in [22:00,05:00)) -> !(pump_relay = on))"},
    {"", "sometime between HH:MM and HH:MM F", "each day, in one second of that window at least",
     "sometime between 10:00 and 14:00 pump_relay is on",
     "G((clock = 10:00) -> F[0,14399](pump_relay = on))"},
    {"", "at HH:MM, F", "each day at that second", "at 18:00, store_top_reading_c >= 45 degC",
     "G((clock = 18:00) -> (store_top_reading_c >= 45))"},

    {"One thing after another (outermost only)", "each time A, B follows within T",
     "after every second with A, B comes at the latest after T",
     "each time pump_relay goes on, flow_lpm > 1 l/min follows within 1 min",
     "G(rise(pump_relay = on) -> F[0,60](flow_lpm > 1))"},
    {"", "each time A has lasted T, B follows within T", "after every stretch of A that is so long",
     "each time difference_k > 10 K has lasted 5 min, pump_relay is on follows within 30 s",
     "G(G[0,300](difference_k > 10) -> F[300,330](pump_relay = on))"},

    {"Over a period (outermost only)", "each day, F",
     "judged in the last second of each day; so each month, each year",
     "each day, highest of store_top_reading_c is at least 45 degC",
     "G(day_ends -> (highest_day(store_top_reading_c) >= 45))"},
    {"", "over the run, F", "judged in the last second of all",
     "over the run, total of backup_w is below 5 kWh", "G(run_ends -> (total_run(backup_w) < 5))"},
    {"", "in any T, F", "in every stretch of that length",
     "in any 1 h, starts of pump_relay is at most 6",
     "G(lasted_3600 -> (starts_last_3600(pump_relay = on) <= 6))"},

    {"Counts and totals within such a period", "starts of S, starts of (F)",
     "how often it begins: a relay that goes on, a condition",
     "each day, starts of (pump_reason is sampling) is at most 20",
     "G(day_ends -> (starts_day(pump_reason = sampling) <= 20))"},
    {"", "time with (F)", "how long it held in all",
     "each month, time with (pump_relay is on) is at least 40 h",
     "G(month_ends -> (time_with_month(pump_relay = on) >= 144000))"},
    {"", "first time with (F), last time with (F)", "the time of day at which it held",
     "each day, first time with (pump_relay is on) is above 05:30",
     "G(day_ends -> (first_time_day(pump_relay = on) > 05:30))"},
    {"", "total of X", "power makes energy, flow volume, irradiance irradiation",
     "each year, total of to_store_w > 1.5 * total of backup_w",
     "G(year_ends -> (total_year(to_store_w) > 1.5 * total_year(backup_w)))"},
    {"", "mean of X, highest of X, lowest of X", "over the seconds that have a value",
     "each day, highest of air_c - lowest of air_c < 25 K",
     "G(day_ends -> (highest_day(air_c) - lowest_day(air_c) < 25))"},
    {"", "change of X", "now less what it was when the period began",
     "each day, change of heat_counter_kwh is above 2 kWh",
     "G(day_ends -> (change_day(heat_counter_kwh) > 2))"},
});

/// Breaks a line at blanks so that it stays within the width.
std::string folded(std::string_view text, std::size_t indent) {
    constexpr std::size_t width = 100;
    std::string out;
    while (!text.empty()) {
        std::size_t length = text.size();
        if (indent + length > width) {
            const std::size_t blank = text.rfind(' ', width - indent);
            length = blank == std::string_view::npos || blank == 0 ? width - indent : blank;
        }
        out += std::string(indent, ' ') + std::string(text.substr(0, length)) + '\n';
        text.remove_prefix(length);
        if (text.starts_with(' ')) text.remove_prefix(1);
    }
    return out;
}

}  // namespace

std::span<const Phrase> phrase_table() {
    return phrases;
}

std::string phrases_text() {
    std::string out =
        "A requirement is made of phrases; each takes as much to its right as it can, parentheses "
        "end "
        "it.\n`not` binds closest, then `and`, `or`, `until`. A, B, F are conditions; X, Y "
        "numbers, "
        "always with\ntheir unit; S a relay or a reason; T a length of time. Below each phrase "
        "stands "
        "an example, and\nwhat it means in Signal Temporal Logic (seconds; G always, F sometime, U "
        "until).\n";
    for (const Phrase& each : phrases) {
        if (!each.heading.empty()) out += fmt::format("\n{}\n", each.heading);
        out += fmt::format("  {}\n", each.phrase);
        out += folded(each.meaning, 6) + folded(each.example, 10) + folded(each.stl, 10);
    }
    return out;
}

}  // namespace noonbench::harness
