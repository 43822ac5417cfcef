// SPDX-License-Identifier: MIT
#include "firmware-model/settings.hpp"

#include <boost/test/unit_test.hpp>

#include <cctype>
#include <set>
#include <string>
#include <string_view>

BOOST_AUTO_TEST_SUITE(settings)

using namespace noonbench::firmware;

namespace {

const SettingInfo& row(Setting setting) {
    return setting_table()[static_cast<std::size_t>(setting)];
}

bool is_snake_case(std::string_view name) {
    if (name.empty() || std::islower(static_cast<unsigned char>(name.front())) == 0) return false;
    return name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == name.npos;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_row_is_complete) {
    std::set<std::string> names;
    for (const SettingInfo& info : setting_table()) {
        BOOST_TEST_CONTEXT(info.name) {
            BOOST_TEST(is_snake_case(info.name));
            BOOST_TEST(names.insert(info.name).second);
            BOOST_TEST(info.least < info.most);
            BOOST_TEST(info.least <= info.initial);
            BOOST_TEST(info.initial <= info.most);
            BOOST_TEST(info.step > 0);
            BOOST_TEST((info.most - info.least) % info.step == 0);
            BOOST_TEST((info.initial - info.least) % info.step == 0);
            BOOST_TEST(std::string_view(info.meaning).size() > 10u);
            BOOST_TEST(std::string_view(info.meaning).size() <= 100u);
            BOOST_TEST(std::string_view(info.ground).size() > 10u);
            BOOST_TEST(std::string_view(info.ground).ends_with('.'));
        }
    }
    BOOST_TEST(names.size() == setting_count);
}

BOOST_AUTO_TEST_CASE(choices_have_a_word_for_each_value_and_others_have_none) {
    for (const SettingInfo& info : setting_table()) {
        BOOST_TEST_CONTEXT(info.name) {
            BOOST_TEST((info.choices != nullptr) == (info.unit == SettingUnit::choice));
            if (info.choices == nullptr) continue;
            BOOST_TEST(info.least == 0);
            std::set<std::string> words;
            for (int i = 0; i <= info.most; ++i) {
                BOOST_TEST(is_snake_case(info.choices[i]));
                words.insert(info.choices[i]);
            }
            BOOST_TEST(words.size() == static_cast<std::size_t>(info.most) + 1);
        }
    }
}

BOOST_AUTO_TEST_CASE(names_stand_in_the_order_of_the_enum) {
    BOOST_TEST(row(Setting::start_difference).name == std::string_view("start_difference"));
    BOOST_TEST(row(Setting::store_ceiling).name == std::string_view("store_ceiling"));
    BOOST_TEST(row(Setting::window_2_from).name == std::string_view("window_2_from"));
    BOOST_TEST(row(Setting::collector_height).name == std::string_view("collector_height"));
    BOOST_TEST(row(Setting::pump_drive).choices[1] == std::string_view("target_difference"));
    BOOST_TEST(row(Setting::sanitise_sensor).choices[0] == std::string_view("store_top"));
}

BOOST_AUTO_TEST_CASE(delivered_settings_do_not_contradict_each_other) {
    const Settings s = default_settings();
    BOOST_TEST(s[Setting::stop_difference] + 100 <= s[Setting::start_difference]);
    BOOST_TEST(s[Setting::collector_release] < s[Setting::collector_cut_out]);
    BOOST_TEST(s[Setting::day_shedding_start] < s[Setting::collector_cut_out]);
    BOOST_TEST(s[Setting::store_limit] < s[Setting::store_ceiling]);
    BOOST_TEST(s[Setting::sanitise_temperature] < s[Setting::store_limit]);
    BOOST_TEST(s[Setting::backup_temperature] < s[Setting::store_limit]);
    BOOST_TEST(s[Setting::frost_start] < s[Setting::frost_stop]);
    BOOST_TEST(s[Setting::sampling_from] < s[Setting::sampling_until]);
    BOOST_TEST(s[Setting::night_shedding_target] < s[Setting::store_limit]);
}

BOOST_AUTO_TEST_CASE(defaults_come_from_the_table) {
    Settings s = default_settings();
    BOOST_TEST(s[Setting::start_difference] == 800);
    BOOST_TEST(s[Setting::collector_cut_out] == 12000);
    BOOST_TEST(s[Setting::window_1_from] == 5 * 60 + 30);
    for (std::size_t i = 0; i < setting_count; ++i) {
        BOOST_TEST(s.value[i] == setting_table()[i].initial);
    }
    BOOST_TEST((s == default_settings()));
    s[Setting::start_difference] = 700;
    BOOST_TEST(!(s == default_settings()));
}

BOOST_AUTO_TEST_CASE(a_value_outside_its_limits_becomes_the_default_and_one_inside_stays) {
    for (std::size_t i = 0; i < setting_count; ++i) {
        const SettingInfo& info = setting_table()[i];
        BOOST_TEST_CONTEXT(info.name) {
            const auto after = [&](int value) {
                Settings s = default_settings();
                s.value[i] = static_cast<std::int16_t>(value);
                return within_limits(s).value[i];
            };
            BOOST_TEST(after(info.least) == info.least);
            BOOST_TEST(after(info.most) == info.most);
            BOOST_TEST(after(info.least - 1) == info.initial);
            if (info.most < 32767) BOOST_TEST(after(info.most + 1) == info.initial);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
