// SPDX-License-Identifier: MIT
#include "bench_days.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/record.hpp"
#include "harness/bench/signals.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(record)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using noonbench::traces::Event;

/// Two days and a half from an afternoon on, with a backup, a cut and a fault.
const RunResult& long_weekend() {
    static const RunResult result =
        run(april("record: {every: 60 s}\nwiring:\n  collector: {noise: 0.03 K}\nmoves:\n"
                  "  - {at: 2026-04-16 12:00, wire: mains_power, to: no}\n"
                  "  - {at: 2026-04-16 12:30, wire: mains_power, to: yes}\n"
                  "  - {at: 2026-04-17 06:00, hand: pump, to: on}\n"
                  "  - {at: 2026-04-17 06:10, hand: pump, to: automatic}\n"
                  "  - {at: 2026-04-17 10:00, setting: start_difference, to: 12 K}\n",
                  "2026-04-15 15:00", 60));
    return result;
}

double hours_by_reason(const Sums& sums) {
    return std::accumulate(sums.reason_h.begin(), sums.reason_h.end(), 0.0);
}

std::vector<Event> of(const std::vector<Event>& events, const std::string& name) {
    std::vector<Event> found;
    std::copy_if(events.begin(), events.end(), std::back_inserter(found),
                 [&](const Event& e) { return e.name == name; });
    return found;
}

}  // namespace

// ------------------------------------------------------------------ days

BOOST_AUTO_TEST_CASE(days_are_cut_at_midnight_of_standard_time) {
    const RunResult& r = long_weekend();
    BOOST_TEST_REQUIRE(r.days.size() == 4U);
    BOOST_TEST(date_time_text(r.days[0].from_s) == "2026-04-15 15:00:00");
    BOOST_TEST(date_time_text(r.days[1].from_s) == "2026-04-16 00:00:00");
    BOOST_TEST(date_time_text(r.days[3].until_s) == "2026-04-18 03:00:00");
    for (std::size_t i = 1; i < r.days.size(); ++i) {
        BOOST_TEST(r.days[i].from_s == r.days[i - 1].until_s);
    }
}

BOOST_AUTO_TEST_CASE(a_run_that_ends_at_midnight_has_no_empty_day) {
    const RunResult r = run(april("", "2026-04-15 22:00", 2));
    BOOST_TEST(r.days.size() == 1U);
    BOOST_TEST(r.total.until_s == r.days[0].until_s);
}

BOOST_AUTO_TEST_CASE(sums_over_days_add_up_to_the_run) {
    const RunResult& r = long_weekend();
    for (const auto member :
         {&Sums::sun_kwh_m2, &Sums::sun_kwh, &Sums::absorbed_kwh, &Sums::collector_loss_kwh,
          &Sums::pipe_loss_kwh, &Sums::to_store_kwh, &Sums::store_loss_kwh, &Sums::backup_kwh,
          &Sums::tapped_kwh, &Sums::missing_kwh, &Sums::pump_electricity_kwh, &Sums::tapped_l,
          &Sums::cool_l, &Sums::pump_run_h, &Sums::backup_run_h, &Sums::stagnation_h}) {
        double sum = 0.0;
        for (const Sums& day : r.days) sum += day.*member;
        BOOST_CHECK_SMALL(sum - r.total.*member, 1e-9);
    }
    std::int64_t starts = 0;
    for (const Sums& day : r.days) starts += day.pump_starts;
    BOOST_TEST(starts == r.total.pump_starts);
}

/// Hours of a day without mains, from the cuts in the events.
double dark_h(const RunResult& r, const Sums& day) {
    std::int64_t dark_s = 0;
    std::int64_t cut_s = -1;
    for (const auto& e : r.events) {
        if (e.name != "mains_power" || e.at_s < day.from_s || e.at_s >= day.until_s) continue;
        if (e.to == "cut") cut_s = e.at_s;
        if (e.to == "connected" && cut_s >= 0) dark_s += e.at_s - cut_s;
    }
    return static_cast<double>(dark_s) / 3600.0;
}

BOOST_AUTO_TEST_CASE(every_hour_with_mains_has_exactly_one_reason) {
    const RunResult& r = long_weekend();
    double all_dark_h = 0.0;
    for (const Sums& day : r.days) {
        const double hours = static_cast<double>(day.until_s - day.from_s) / 3600.0;
        const double dark = dark_h(r, day);
        all_dark_h += dark;
        BOOST_CHECK_SMALL(hours_by_reason(day) + dark - hours, 1e-6);  // 86400 sums of 1/3600
    }
    BOOST_TEST(all_dark_h > 0.0);
}

BOOST_AUTO_TEST_CASE(a_dark_controller_leaves_a_gap_in_its_columns) {
    const RunResult& r = long_weekend();
    std::size_t gaps = 0;
    for (std::size_t row = 0; row < r.trace.row_count(); ++row) {
        const bool no_reason = std::isnan(r.trace.value(row, r.trace.column("pump_reason")));
        const bool no_counter = std::isnan(r.trace.value(row, r.trace.column("heat_counter_kwh")));
        BOOST_TEST_REQUIRE(no_reason == no_counter);
        gaps += no_reason ? 1 : 0;
    }
    BOOST_TEST(gaps > 0U);
    BOOST_TEST(gaps < r.trace.row_count() / 2);
}

BOOST_AUTO_TEST_CASE(the_day_sums_close_the_stores_balance) {
    const RunResult& r = long_weekend();
    // gained = coil + backup - tapped at the store - losses; the tap's heat leaves the store whole,
    // since the mixing valve only adds cold water at the same zero.
    const Sums& t = r.total;
    const double store_side = t.absorbed_kwh - t.collector_loss_kwh - t.pipe_loss_kwh +
                              t.backup_kwh - t.tapped_kwh - t.store_loss_kwh -
                              t.circulation_loss_kwh;
    // What remains is the pump's heat in the fluid, at most its electricity.
    const double rest = r.store_change_kwh - store_side;
    BOOST_TEST(rest >= -0.01);
    BOOST_TEST(rest <= t.pump_electricity_kwh + 0.01);
}

BOOST_AUTO_TEST_CASE(a_day_without_draws_or_sun_is_all_noughts_and_no_nonsense) {
    const RunResult r =
        run(april("household:\n  profile: none\ncontroller:\n  backup_control: "
                  "off\n  sanitise: off\n",
                  "2026-04-15 00:00", 3));
    BOOST_TEST(r.total.tapped_kwh == 0.0);
    BOOST_TEST(r.total.tapped_l == 0.0);
    BOOST_TEST(r.total.missing_kwh == 0.0);
    BOOST_TEST(r.total.sun_kwh == 0.0);
    BOOST_TEST(r.total.backup_kwh == 0.0);
    BOOST_TEST(r.total.pump_starts == 0);
    BOOST_TEST(r.days[0].first_start_s == -1);
    BOOST_TEST(r.days[0].last_stop_s == -1);
    BOOST_TEST(r.total.store_loss_kwh > 0.0);
    BOOST_TEST(r.store_change_kwh < 0.0);
}

BOOST_AUTO_TEST_CASE(adding_stretches_keeps_extremes_and_the_first_beginning) {
    Sums a = sums_from(0);
    a.collector_highest_c = 80.0;
    a.store_top_lowest_c = 40.0;
    a.pump_starts = 2;
    Sums b = sums_from(100);
    b.until_s = 200;
    b.collector_highest_c = 60.0;
    b.store_top_lowest_c = 35.0;
    b.pump_starts = 3;
    b.reason_h[1] = 2.0;
    add(a, b);
    BOOST_TEST(a.from_s == 0);
    BOOST_TEST(a.until_s == 200);
    BOOST_TEST(a.collector_highest_c == 80.0);
    BOOST_TEST(a.store_top_lowest_c == 35.0);
    BOOST_TEST(a.pump_starts == 5);
    BOOST_TEST(a.reason_h[1] == 2.0);
}

// ------------------------------------------------------------------ events

BOOST_AUTO_TEST_CASE(events_stand_in_order_and_chain_from_one_to_the_next) {
    const auto& events = long_weekend().events;
    BOOST_TEST(std::is_sorted(events.begin(), events.end(),
                              [](const Event& a, const Event& b) { return a.at_s < b.at_s; }));
    for (const char* name : {"pump_reason", "pump_relay", "backup_reason", "backup_relay"}) {
        const auto chain = of(events, name);
        BOOST_TEST_REQUIRE(!chain.empty(), name);
        BOOST_TEST(chain.front().from == "");
        for (std::size_t i = 1; i < chain.size(); ++i) {
            BOOST_TEST(chain[i].from == chain[i - 1].to);
            BOOST_TEST(chain[i].from != chain[i].to);
        }
    }
}

BOOST_AUTO_TEST_CASE(relay_events_count_the_starts_and_measure_the_run) {
    const RunResult& r = long_weekend();
    std::int64_t starts = 0;
    double run_h = 0.0;
    std::int64_t on_at = -1;
    for (const Event& e : of(r.events, "pump_relay")) {
        if (e.to == "on") {
            ++starts;
            on_at = e.at_s;
        } else if (on_at >= 0) {
            run_h += static_cast<double>(e.at_s - on_at) / 3600.0;
            on_at = -1;
        }
    }
    BOOST_TEST(starts == r.total.pump_starts);
    BOOST_CHECK_SMALL(run_h - r.total.pump_run_h, 1e-6);
    BOOST_TEST(starts >= 4);
}

BOOST_AUTO_TEST_CASE(a_move_stands_in_the_events_before_what_it_causes) {
    const auto& events = long_weekend().events;
    const std::int64_t at = midnight_of({2026, 4, 17}) + 6 * 3600;
    const auto hand = std::find_if(events.begin(), events.end(), [&](const Event& e) {
        return e.what == "hand" && e.at_s == at;
    });
    BOOST_TEST_REQUIRE((hand != events.end()));
    BOOST_TEST(hand->name == "pump");
    BOOST_TEST(hand->to == "on");
    BOOST_TEST((hand + 1)->name == "pump_reason");
    BOOST_TEST((hand + 1)->to == "hand_on");
    BOOST_TEST((hand + 1)->at_s == at);
    BOOST_TEST((hand + 2)->name == "pump_relay");
}

BOOST_AUTO_TEST_CASE(settings_stand_in_the_events_as_a_person_reads_them) {
    const auto moves = of(long_weekend().events, "start_difference");
    BOOST_TEST_REQUIRE(moves.size() == 1U);
    BOOST_TEST(moves[0].what == "setting");
    BOOST_TEST(moves[0].to == "12 K");
}

BOOST_AUTO_TEST_CASE(a_wire_stands_in_the_events_with_words_not_numbers) {
    const RunResult r =
        run(april("moves:\n"
                  "  - {at: \"00:10:00\", wire: collector.state, to: open}\n"
                  "  - {at: \"00:20:00\", wire: collector.type, to: ntc_10k}\n",
                  "2026-04-15 00:00", 1));
    BOOST_TEST(of(r.events, "collector.state").at(0).to == "open");
    BOOST_TEST(of(r.events, "collector.type").at(0).to == "ntc_10k");
}

BOOST_AUTO_TEST_CASE(every_sentence_in_the_events_is_filled) {
    for (const Event& e : long_weekend().events) {
        BOOST_TEST(e.because.find('{') == std::string::npos, e.because);
    }
}

// The stat opens between two full minutes; the event must name the second, since it explains why
// the pump stands still although the relay is on.
BOOST_AUTO_TEST_CASE(the_high_limit_stat_is_noted_to_the_tick) {
    const Scenario hot = april(
        "store: {start_top: 84 degC, start_bottom: 80 degC}\n"
        "household:\n  profile: none\nmoves:\n"
        "  - {at: \"00:00:10\", lever: backup_forced, to: 1}\n",
        "2026-04-15 00:00", 1);
    Scenario hotter = hot;
    hotter.plant.backup.flow_temperature_c = 95.0;
    Bench bench(hotter);
    const CivilSeconds end = hotter.start_s + 3600;
    while (!bench.plant().modes.high_limit_tripped && bench.now() < end) {
        bench.decide();
        bench.stride(end);
    }
    BOOST_TEST_REQUIRE(bench.plant().modes.high_limit_tripped);
    BOOST_TEST_REQUIRE(bench.now() % 60 != 0);  // else this test shows nothing
    const auto noted = of(run(hotter).events, "high_limit_stat");
    BOOST_TEST_REQUIRE(noted.size() == 1U);
    BOOST_TEST(noted[0].at_s == bench.now());
    BOOST_TEST(noted[0].to == "open");
}

// ------------------------------------------------------------------ trace

BOOST_AUTO_TEST_CASE(rows_come_at_the_asked_pace_from_the_first_second) {
    const RunResult& r = long_weekend();
    BOOST_TEST(r.trace.row_count() == 60U * 60U);
    BOOST_TEST(r.trace.times_s().front() == r.scenario.start_s);
    BOOST_TEST(r.trace.times_s()[1] - r.trace.times_s()[0] == 60);
}

BOOST_AUTO_TEST_CASE(the_trace_and_the_events_tell_the_same_relay) {
    const RunResult r = run(april("", "2026-04-15 07:00", 2));
    const std::size_t relay = r.trace.column("pump_relay");
    const std::size_t reason = r.trace.column("pump_reason");
    for (const Event& e : r.events) {
        const auto row = static_cast<std::size_t>(e.at_s - r.scenario.start_s);
        if (e.name == "pump_relay") {
            BOOST_TEST(r.trace.value(row, relay) == (e.to == "on" ? 1.0 : 0.0));
        }
        if (e.name == "pump_reason") BOOST_TEST(r.trace.word(row, reason) == e.to);
    }
}

BOOST_AUTO_TEST_CASE(columns_are_named_after_their_unit_and_explained) {
    for (const char* name : {"clear_spring_day", "east_west_roof"}) {
        for (const auto& signal : signals_of(columns_of(day(name)))) {
            BOOST_TEST_CONTEXT(signal.name) {
                BOOST_TEST(!signal.meaning.empty());
                const std::map<std::string, std::string> ends{
                    {"degC", "_c"},  {"K", "_k"},       {"W", "_w"},       {"%", "_pct"},
                    {"kWh", "_kwh"}, {"l/min", "_lpm"}, {"W/m2", "_w_m2"}, {"bar", "_bar"},
                    {"l", "_l"},     {"1", "_share"}};
                if (!signal.unit.empty()) {
                    BOOST_TEST_REQUIRE(ends.contains(signal.unit), signal.unit);
                    BOOST_TEST(signal.name.ends_with(ends.at(signal.unit)));
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(a_second_roof_plane_shows_its_sensor_in_the_trace) {
    const auto signals = signals_of(columns_of(day("east_west_roof")));
    BOOST_TEST(std::any_of(signals.begin(), signals.end(),
                           [](const auto& s) { return s.name == "second_collector_reading_c"; }));
}

BOOST_AUTO_TEST_CASE(extremes_of_the_day_are_those_of_the_trace) {
    const RunResult r = run(april("", "2026-04-15 08:00", 4));
    const auto all = [](std::size_t) { return true; };
    // sampled each minute: what the collector moves in 30 s of strong sun without flow, 2 K
    BOOST_CHECK_SMALL(r.total.collector_highest_c - highest(r.trace, "row_1_hottest_c", all), 2.0);
    BOOST_CHECK_SMALL(r.total.store_top_highest_c - highest(r.trace, "store_layer_12_c", all), 0.1);
}

BOOST_AUTO_TEST_SUITE_END()
