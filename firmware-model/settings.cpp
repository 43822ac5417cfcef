// SPDX-License-Identifier: MIT
// The rows stand once, in setting_rows.inc, and are read three times: for the texts, which get a
// section of their own (they are for people and may stay off the board), for the table, and for a
// check of the order.
#include "settings.hpp"

namespace noonbench::firmware {
namespace {

#define NOONBENCH_TEXT __attribute__((section(".rodata.texts"))) constexpr char
NOONBENCH_TEXT word_off[] = "off";
NOONBENCH_TEXT word_on[] = "on";
NOONBENCH_TEXT word_no[] = "no";
NOONBENCH_TEXT word_yes[] = "yes";
NOONBENCH_TEXT word_on_off[] = "on_off";
NOONBENCH_TEXT word_target_difference[] = "target_difference";
NOONBENCH_TEXT word_target_collector[] = "target_collector";
NOONBENCH_TEXT word_more_is_faster[] = "more_is_faster";
NOONBENCH_TEXT word_more_is_slower[] = "more_is_slower";
NOONBENCH_TEXT word_none[] = "none";
NOONBENCH_TEXT word_european[] = "european";
NOONBENCH_TEXT word_store_top[] = "store_top";
NOONBENCH_TEXT word_store_bottom[] = "store_bottom";
NOONBENCH_TEXT word_typed_in_flow[] = "typed_in_flow";
NOONBENCH_TEXT word_pulse_meter[] = "pulse_meter";

constexpr const char* off_on_words[] = {word_off, word_on};
constexpr const char* no_yes_words[] = {word_no, word_yes};
constexpr const char* drive_words[] = {word_on_off, word_target_difference, word_target_collector};
constexpr const char* signal_words[] = {word_more_is_faster, word_more_is_slower};
constexpr const char* summer_words[] = {word_none, word_european};
constexpr const char* sanitise_words[] = {word_store_top, word_store_bottom};
constexpr const char* tally_words[] = {word_typed_in_flow, word_pulse_meter};

#define ROW(name, unit, least, most, initial, step, choices, meaning, ground) \
    NOONBENCH_TEXT name_##name[] = #name;                                     \
    NOONBENCH_TEXT meaning_##name[] = meaning;                                \
    NOONBENCH_TEXT ground_##name[] = ground;
#include "setting_rows.inc"
#undef ROW
#undef NOONBENCH_TEXT

#define ROW(name, unit, least, most, initial, step, choices, meaning, ground)          \
    SettingInfo{name_##name, SettingUnit::unit, least,          most,         initial, \
                step,        choices,           meaning_##name, ground_##name},
constexpr std::array<SettingInfo, setting_count> table = {{
#include "setting_rows.inc"
}};
#undef ROW

// A row in another place than its enumerator does not compile.
enum class RowOrder : std::uint8_t {
#define ROW(name, ...) name,
#include "setting_rows.inc"
#undef ROW
    row_count
};
static_assert(static_cast<std::size_t>(RowOrder::row_count) == setting_count);
#define ROW(name, ...)                                       \
    static_assert(static_cast<std::size_t>(Setting::name) == \
                  static_cast<std::size_t>(RowOrder::name));
#include "setting_rows.inc"
#undef ROW

}  // namespace

const std::array<SettingInfo, setting_count>& setting_table() noexcept {
    return table;
}

Settings default_settings() noexcept {
    Settings settings;
    for (std::size_t i = 0; i < setting_count; ++i) settings.value[i] = table[i].initial;
    return settings;
}

Settings within_limits(const Settings& settings) noexcept {
    Settings result = settings;
    for (std::size_t i = 0; i < setting_count; ++i) {
        std::int16_t& value = result.value[i];
        if (value < table[i].least || value > table[i].most) value = table[i].initial;
    }
    return result;
}

}  // namespace noonbench::firmware
