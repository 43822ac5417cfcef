// SPDX-License-Identifier: MIT
#include "reason.hpp"

#include <array>

namespace noonbench::firmware {
namespace {

// Each table stands in the order of its enum.
constexpr std::array<const char*, pump_reason_count> pump_names = {
    "waiting_for_sun",   "collecting",      "resting",           "least_run",
    "store_full",        "ceiling_reached", "collector_cut_out", "shedding_by_day",
    "shedding_by_night", "guarding_frost",  "sampling",          "exercising",
    "hand_on",           "hand_off",        "sensor_lost",
};
static_assert(static_cast<std::size_t>(PumpReason::sensor_lost) + 1 == pump_reason_count);

constexpr std::array<const char*, backup_reason_count> backup_names = {
    "in_window",  "out_of_window", "warm_enough",     "leaving_it_to_the_sun",
    "sanitising", "clock_unset",   "ceiling_reached", "hand_on",
    "hand_off",   "sensor_lost",
};
static_assert(static_cast<std::size_t>(BackupReason::sensor_lost) + 1 == backup_reason_count);

struct AdviceWords {
    const char* name;
    const char* text;
};
// First words: what to do. Nothing here sends anybody onto a roof or opens a hot loop.
constexpr std::array<AdviceWords, advice_count> advice_words = {{
    {"no_flow_although_running",
     "Check the pressure gauge and whether the pump turns: it is switched on, but no heat comes "
     "down."},
    {"warm_collector_at_night",
     "Check the non-return valve and its lever: the collector is warmer than the night allows."},
    {"sensors_swapped",
     "Compare the sensor plugs with their labels: two readings behave like each other's."},
    {"sensor_implausible",
     "Measure the sensor's resistance at its plug: the reading is not one its place can have."},
    {"sensor_broken",
     "Measure the sensor's resistance at its plug: the wire is open or shorted, or the type "
     "wrong."},
    {"sanitise_missed",
     "Check the backup heat and its window: the temperature against legionella was not held in "
     "time."},
    {"contradicting_settings",
     "Compare the pairs of settings: two of them contradict, and the safer reading is in force."},
    {"cut_out_above_boiling_point",
     "Lower the collector cut-out or raise the cold pressure: the fluid boils before the cut-out."},
    {"clock_unset",
     "Set the clock: until then windows count as closed and only a minimum is kept warm."},
}};
static_assert(static_cast<std::size_t>(AdviceKind::clock_unset) + 1 == advice_count);

// A value outside the enum has no name, but never a null one.
template <typename Table, typename Kind>
std::size_t place(const Table& table, Kind kind) {
    const auto index = static_cast<std::size_t>(kind);
    return index < table.size() ? index : table.size() - 1;
}

}  // namespace

const char* name_of(PumpReason reason) noexcept {
    return pump_names[place(pump_names, reason)];
}

const char* name_of(BackupReason reason) noexcept {
    return backup_names[place(backup_names, reason)];
}

const char* name_of(AdviceKind kind) noexcept {
    return advice_words[place(advice_words, kind)].name;
}

const char* text_of(AdviceKind kind) noexcept {
    return advice_words[place(advice_words, kind)].text;
}

}  // namespace noonbench::firmware
