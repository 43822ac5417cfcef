// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/priority.hpp"
#include "firmware-model/pump.hpp"

#include <boost/test/unit_test.hpp>

#include <vector>

BOOST_AUTO_TEST_SUITE(pump)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

/// A situation in which every single claim but the sensors' can be raised at will.
struct Arbitration {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    GuardsState guards{};
    PumpState pump{};

    Arbitration() {
        settings[Setting::start_difference] = 800;
        settings[Setting::stop_difference] = 400;
        settings[Setting::least_run_time] = 60;
        settings[Setting::least_rest_time] = 60;
        settings[Setting::exercise_after] = 1;
        settings[Setting::sampling_every] = 30;
        pump = pump_since(situation, PumpReason::waiting_for_sun, false, 1000);
    }
    PumpReason decide() {
        decide_pump(settings, situation, guards, pump);
        return pump.reason;
    }
    void raise(PumpClaim claim) {
        switch (claim) {
            case PumpClaim::store_ceiling:
                guards.at_ceiling = 1;
                break;
            case PumpClaim::store_sensor:
                situation.store = Trust::lost;
                break;
            case PumpClaim::hand_on:
                pump.hand = HandRequest::on;
                break;
            case PumpClaim::hand_off:
                pump.hand = HandRequest::off;
                break;
            case PumpClaim::collector_sensor:
                situation.collector = Trust::lost;
                break;
            case PumpClaim::collector_cut_out:
                guards.cut_out = 1;
                break;
            case PumpClaim::frost_guard:
                guards.frost = 1;
                break;
            case PumpClaim::day_shedding:
                guards.shedding_by_day = 1;
                break;
            case PumpClaim::night_shedding:
                guards.shedding_by_night = 1;
                break;
            case PumpClaim::store_limit:
                guards.at_limit = 1;
                break;
            case PumpClaim::difference:
                set_difference(situation, 800);
                break;
            default:
                break;
        }
    }
};

}  // namespace

BOOST_AUTO_TEST_CASE(the_table_has_the_written_order_and_its_exceptions) {
    // Written down a second time on purpose: to change the order, change it here as well.
    const std::vector<PumpReason> order = {
        PumpReason::ceiling_reached, PumpReason::sensor_lost,     PumpReason::hand_on,
        PumpReason::hand_off,        PumpReason::sensor_lost,     PumpReason::collector_cut_out,
        PumpReason::guarding_frost,  PumpReason::shedding_by_day, PumpReason::shedding_by_night,
        PumpReason::store_full,      PumpReason::collecting,      PumpReason::sampling,
        PumpReason::exercising,      PumpReason::waiting_for_sun};
    BOOST_TEST_REQUIRE(order.size() == pump_priority.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const PumpRow& row = pump_priority[i];
        BOOST_TEST_CONTEXT("rank " << i) {
            BOOST_TEST(row.reason == order[i]);
            // Least rest: frost guard and hand mode only. Least run: all that stop but the sun.
            BOOST_TEST((row.least_rest == LeastRest::broken) ==
                       (row.who == PumpClaim::frost_guard || row.who == PumpClaim::hand_on));
            BOOST_TEST((row.least_run == LeastRun::broken) ==
                       (row.forces == Forces::off && row.who != PumpClaim::nobody));
        }
    }
}

BOOST_AUTO_TEST_CASE(of_any_two_claims_the_higher_rank_wins) {
    // Exercise and sampling need a standstill of their own and are paired below.
    for (std::size_t high = 0; high + 3 < pump_claim_count; ++high) {
        for (std::size_t low = high + 1; low + 3 < pump_claim_count; ++low) {
            Arbitration a;
            a.raise(pump_priority[low].who);
            a.raise(pump_priority[high].who);
            if (pump_priority[high].who == PumpClaim::hand_on) {
                a.pump.hand = HandRequest::on;  // one switch cannot stand at on and off
            }
            BOOST_TEST_CONTEXT("rank " << high << " against " << low) {
                BOOST_TEST(a.decide() == pump_priority[high].reason);
                BOOST_TEST(a.pump.relay_on == (pump_priority[high].forces == Forces::on));
            }
        }
    }
}

BOOST_FIXTURE_TEST_CASE(timed_runs_come_last, Arbitration) {
    pump.changed_at.count = situation.now.count - 86400;
    BOOST_TEST(decide() == PumpReason::exercising);
    settings[Setting::sampling] = 1;
    pump = pump_since(situation, PumpReason::waiting_for_sun, false, 86400);
    BOOST_TEST(decide() == PumpReason::sampling);
    set_difference(situation, 800);
    BOOST_TEST(decide() == PumpReason::collecting);
}

BOOST_FIXTURE_TEST_CASE(hand_on_passes_the_cut_out_and_a_broken_collector_sensor, Arbitration) {
    pump.hand = HandRequest::on;
    guards.cut_out = 1;
    situation.collector = Trust::lost;
    BOOST_TEST(decide() == PumpReason::hand_on);
    guards.at_ceiling = 1;
    BOOST_TEST(decide() == PumpReason::ceiling_reached);
    guards.at_ceiling = 0;
    situation.store = Trust::lost;
    BOOST_TEST(decide() == PumpReason::sensor_lost);
    BOOST_TEST(pump.relay_on == 0);
}

BOOST_FIXTURE_TEST_CASE(a_sensor_that_settles_after_power_came_is_not_lost, Arbitration) {
    for (Trust* trust : {&situation.store, &situation.collector}) {
        pump.reason = PumpReason::waiting_for_sun;
        *trust = Trust::settling;
        BOOST_TEST(decide() == PumpReason::waiting_for_sun);
        *trust = Trust::lost;
        BOOST_TEST(decide() == PumpReason::sensor_lost);
        *trust = Trust::settling;
        BOOST_TEST(decide() == PumpReason::sensor_lost);
        *trust = Trust::good;
        BOOST_TEST(decide() == PumpReason::waiting_for_sun);
    }
}

BOOST_FIXTURE_TEST_CASE(a_settling_sensor_stops_even_a_hand, Arbitration) {
    pump.hand = HandRequest::on;
    decide();
    situation.store = Trust::settling;
    BOOST_TEST(decide() == PumpReason::sensor_lost);
    BOOST_TEST(pump.relay_on == 0);
}

BOOST_FIXTURE_TEST_CASE(the_least_rest_holds_back_all_but_frost_and_hand, Arbitration) {
    for (const PumpClaim claim :
         {PumpClaim::day_shedding, PumpClaim::night_shedding, PumpClaim::difference}) {
        Arbitration a;
        a.raise(claim);
        a.pump = pump_since(a.situation, PumpReason::waiting_for_sun, false, 59);
        BOOST_TEST(a.decide() == PumpReason::resting);
        BOOST_TEST(a.pump.relay_on == 0);
        ++a.situation.now.count;
        BOOST_TEST(a.decide() == pump_priority[static_cast<std::size_t>(claim)].reason);
        BOOST_TEST(a.pump.relay_on == 1);
        BOOST_TEST(a.pump.changed_at.count == a.situation.now.count);
    }
    for (const PumpClaim claim : {PumpClaim::frost_guard, PumpClaim::hand_on}) {
        Arbitration a;
        a.pump = pump_since(a.situation, PumpReason::waiting_for_sun, false, 0);
        a.raise(claim);
        BOOST_TEST(a.decide() == pump_priority[static_cast<std::size_t>(claim)].reason);
    }
}

BOOST_FIXTURE_TEST_CASE(the_least_run_is_kept_when_the_difference_goes, Arbitration) {
    set_difference(situation, 800);
    BOOST_TEST(decide() == PumpReason::collecting);
    situation.now.count += 59;
    set_difference(situation, 400);
    BOOST_TEST(decide() == PumpReason::least_run);
    BOOST_TEST(pump.relay_on == 1);
    ++situation.now.count;
    BOOST_TEST(decide() == PumpReason::waiting_for_sun);
    BOOST_TEST(pump.relay_on == 0);
}

BOOST_AUTO_TEST_CASE(the_least_run_is_broken_by_each_protection) {
    for (const PumpRow& row : pump_priority) {
        if (row.least_run == LeastRun::kept) {
            continue;
        }
        Arbitration a;
        set_difference(a.situation, 800);
        a.decide();
        a.raise(row.who);
        BOOST_TEST(a.decide() == row.reason);
        BOOST_TEST(a.pump.relay_on == 0);
    }
}

BOOST_FIXTURE_TEST_CASE(a_full_store_waits_as_full_and_not_as_resting, Arbitration) {
    guards.at_limit = 1;
    set_difference(situation, 2000);
    pump = pump_since(situation, PumpReason::collecting, true, 5);
    BOOST_TEST(decide() == PumpReason::store_full);
    ++situation.now.count;
    BOOST_TEST(decide() == PumpReason::store_full);
}

BOOST_FIXTURE_TEST_CASE(both_differences_are_stored_when_the_reason_changes, Arbitration) {
    set_difference(situation, 850);
    decide();
    BOOST_TEST(pump.difference.centikelvin == 850);
    BOOST_TEST(pump.threshold.centikelvin == 800);
    set_difference(situation, 1200);
    decide();
    BOOST_TEST(pump.difference.centikelvin == 850);  // same reason, same figures
    set_difference(situation, 390);
    decide();
    BOOST_TEST(pump.reason == PumpReason::least_run);
    BOOST_TEST(pump.difference.centikelvin == 390);
    BOOST_TEST(pump.threshold.centikelvin == 400);
    situation.now.count += 60;
    set_difference(situation, 380);
    decide();
    BOOST_TEST(pump.reason == PumpReason::waiting_for_sun);
    BOOST_TEST(pump.difference.centikelvin == 380);
    BOOST_TEST(pump.threshold.centikelvin == 400);
}

BOOST_FIXTURE_TEST_CASE(each_reason_shows_what_it_is_decided_by, Arbitration) {
    read(situation, {10600}, {7600}, {8000});
    situation.coldest_collector = {300};
    settings[Setting::store_ceiling] = 9000;
    settings[Setting::store_limit] = 7500;
    settings[Setting::collector_cut_out] = 12000;
    settings[Setting::day_shedding_start] = 10500;
    settings[Setting::frost_start] = 400;
    struct Shown {
        PumpReason reason;
        PumpReason before;
        int difference;
        int threshold;
    };
    using P = PumpReason;
    for (const Shown& s : {Shown{P::ceiling_reached, P::collecting, 8000, 9000},
                           Shown{P::store_full, P::collecting, 7600, 7500},
                           Shown{P::collector_cut_out, P::collecting, 10600, 12000},
                           Shown{P::shedding_by_day, P::collecting, 10600, 10500},
                           Shown{P::guarding_frost, P::collecting, 300, 400},
                           Shown{P::shedding_by_night, P::collecting, -3000, 800},
                           Shown{P::collecting, P::waiting_for_sun, 3000, 800},
                           Shown{P::resting, P::waiting_for_sun, 3000, 800},
                           Shown{P::least_run, P::collecting, 3000, 400},
                           Shown{P::waiting_for_sun, P::collecting, 3000, 400},
                           Shown{P::waiting_for_sun, P::least_run, 3000, 400},
                           Shown{P::waiting_for_sun, P::sampling, 3000, 800},
                           Shown{P::hand_on, P::collecting, 3000, 800}}) {
        BOOST_TEST_CONTEXT(s.reason << " after " << s.before) {
            const Decisive why = decisive(settings, situation, s.reason, s.before);
            BOOST_TEST(why.difference.centikelvin == s.difference);
            BOOST_TEST(why.threshold.centikelvin == s.threshold);
        }
    }
    situation.collector = Trust::lost;
    const Decisive why = decisive(settings, situation, P::sensor_lost, P::collecting);
    BOOST_TEST(why.difference.centikelvin == 0);
    BOOST_TEST(why.threshold.centikelvin == 0);
}

BOOST_AUTO_TEST_SUITE_END()
