// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/runs.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(runs)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

struct Runs {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();

    Runs() {
        settings[Setting::sampling] = 1;
        settings[Setting::sampling_every] = 30;
        settings[Setting::sampling_for] = 20;
        settings[Setting::sampling_from] = 9 * 60;
        settings[Setting::sampling_until] = 16 * 60;
        settings[Setting::exercise_after] = 7;
        settings[Setting::exercise_for] = 10;
        situation.now = {10'000'000};
    }
    [[nodiscard]] bool samples(const PumpState& pump) const {
        return sampling_asks(settings, situation, pump);
    }
    [[nodiscard]] bool exercises(const PumpState& pump) const {
        return exercise_asks(settings, situation, pump);
    }
    [[nodiscard]] PumpState still_for(std::uint32_t seconds) const {
        return pump_since(situation, PumpReason::waiting_for_sun, false, seconds);
    }
    [[nodiscard]] PumpState runs_for(PumpReason reason, std::uint32_t seconds) const {
        return pump_since(situation, reason, true, seconds);
    }
};

constexpr std::uint32_t week_s = 7 * 86400;

}  // namespace

BOOST_FIXTURE_TEST_CASE(a_sampling_run_is_due_after_standing_still_so_long, Runs) {
    BOOST_TEST(!samples(still_for(1799)));
    BOOST_TEST(samples(still_for(1800)));
    settings[Setting::sampling] = 0;
    BOOST_TEST(!samples(still_for(1800)));
}

BOOST_FIXTURE_TEST_CASE(a_sampling_run_lasts_its_time, Runs) {
    BOOST_TEST(samples(runs_for(PumpReason::sampling, 19)));
    BOOST_TEST(!samples(runs_for(PumpReason::sampling, 20)));
    BOOST_TEST(!samples(runs_for(PumpReason::collecting, 5)));
}

BOOST_FIXTURE_TEST_CASE(sampling_keeps_to_daylight_by_the_clock, Runs) {
    for (const auto& [minute, expected] :
         {std::pair{9 * 60 - 1, false}, {9 * 60, true}, {16 * 60 - 1, true}, {16 * 60, false}}) {
        BOOST_TEST_CONTEXT("minute " << minute) {
            situation.time.minute_of_day = static_cast<std::int16_t>(minute);
            BOOST_TEST(samples(still_for(1800)) == expected);
            BOOST_TEST(by_day(settings, situation) == expected);
            BOOST_TEST(by_night(settings, situation) == !expected);
        }
    }
    situation.time.minute_of_day = 12 * 60;
    situation.clock_is_set = false;
    BOOST_TEST(!samples(still_for(1800)));
    BOOST_TEST(!by_day(settings, situation));
    BOOST_TEST(!by_night(settings, situation));
}

BOOST_FIXTURE_TEST_CASE(an_exercise_run_is_due_after_days_of_standstill, Runs) {
    BOOST_TEST(!exercises(still_for(week_s - 1)));
    BOOST_TEST(exercises(still_for(week_s)));
    BOOST_TEST(exercises(runs_for(PumpReason::exercising, 9)));
    BOOST_TEST(!exercises(runs_for(PumpReason::exercising, 10)));
    BOOST_TEST(!exercises(runs_for(PumpReason::hand_on, 5)));
    settings[Setting::exercise_after] = 0;
    BOOST_TEST(!exercises(still_for(week_s)));
}

BOOST_FIXTURE_TEST_CASE(there_is_no_exercise_in_frost, Runs) {
    situation.coldest_collector = {499};
    BOOST_TEST(!exercises(still_for(week_s)));
    BOOST_TEST(!exercises(runs_for(PumpReason::exercising, 3)));
    situation.coldest_collector = {500};
    BOOST_TEST(exercises(still_for(week_s)));
    situation.collector = Trust::lost;
    BOOST_TEST(!exercises(still_for(week_s)));
}

BOOST_AUTO_TEST_SUITE_END()
