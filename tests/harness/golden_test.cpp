// SPDX-License-Identifier: MIT
// Eight runs against what they left when their goldens were last renewed: events, columns every
// five minutes and sums of each day, with the tolerances that stand beside them. Every change of
// physics renews them (target renew_goldens), so they guard against accidents only; the checks
// against published values guard the truth.
#include "bench_days.hpp"

#include "traces/compare.hpp"
#include "traces/file.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <limits>
#include <set>
#include <sstream>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(golden)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
namespace traces = noonbench::traces;

struct Golden {
    const char* name;
    const char* length;
};
constexpr std::array goldens{
    Golden{"clear_spring_day", "1 day"},         Golden{"passing_clouds", "1 day"},
    Golden{"boiler_before_the_sun", "1 day"},    Golden{"east_west_roof", "1 day"},
    Golden{"frosty_night_water", "1 day"},       Golden{"hot_idle_august_week", "2 day"},
    Golden{"short_cycling_difference", "1 day"}, Golden{"sensor_out_of_its_pocket", "1 day"},
};

constexpr std::uintmax_t most_bytes_each = 200'000;
constexpr std::uintmax_t most_bytes_in_all = 5'000'000;

std::filesystem::path folder_of(const std::string& name) {
    return std::filesystem::path(NOONBENCH_SOURCE_DIR) / "traces" / "golden" / name;
}

/// Names kept of the trace; the rest follows from them.
bool is_kept(const std::string& name) {
    static const std::set<std::string> kept{"collector_reading_c",
                                            "store_bottom_reading_c",
                                            "store_top_reading_c",
                                            "pump_reason",
                                            "pump_relay",
                                            "pump_speed_pct",
                                            "backup_reason",
                                            "backup_relay",
                                            "heat_counter_kwh",
                                            "station_hot_c",
                                            "station_cold_c",
                                            "flow_lpm",
                                            "air_c",
                                            "sun_row_1_w_m2",
                                            "row_1_hottest_c",
                                            "store_layer_01_c",
                                            "store_layer_06_c",
                                            "store_layer_12_c",
                                            "to_store_w",
                                            "store_loss_w"};
    return kept.contains(name);
}

traces::Table kept_columns(const traces::Table& trace) {
    std::vector<traces::Signal> signals;
    std::vector<std::size_t> columns;
    for (std::size_t c = 0; c < trace.column_count(); ++c) {
        if (!is_kept(trace.signals()[c].name)) continue;
        signals.push_back(trace.signals()[c]);
        columns.push_back(c);
    }
    traces::Table kept(signals, trace.start_s());
    std::vector<double> row(columns.size());
    for (std::size_t r = 0; r < trace.row_count(); ++r) {
        for (std::size_t i = 0; i < columns.size(); ++i) row[i] = trace.value(r, columns[i]);
        kept.append(trace.times_s()[r], row);
    }
    return kept;
}

struct DaySum {
    const char* name;
    const char* unit;
    double Sums::*value;
};
constexpr std::array day_sums{
    DaySum{"sun_kwh_m2", "kWh/m2", &Sums::sun_kwh_m2},
    DaySum{"absorbed_kwh", "kWh", &Sums::absorbed_kwh},
    DaySum{"collector_loss_kwh", "kWh", &Sums::collector_loss_kwh},
    DaySum{"pipe_loss_kwh", "kWh", &Sums::pipe_loss_kwh},
    DaySum{"to_store_kwh", "kWh", &Sums::to_store_kwh},
    DaySum{"store_loss_kwh", "kWh", &Sums::store_loss_kwh},
    DaySum{"backup_kwh", "kWh", &Sums::backup_kwh},
    DaySum{"tapped_kwh", "kWh", &Sums::tapped_kwh},
    DaySum{"missing_kwh", "kWh", &Sums::missing_kwh},
    DaySum{"pump_run_h", "h", &Sums::pump_run_h},
    DaySum{"collector_highest_c", "degC", &Sums::collector_highest_c},
};

traces::Table table_of_days(const RunResult& result) {
    std::vector<traces::Signal> signals;
    for (const DaySum& sum : day_sums) {
        signals.push_back(
            {.name = sum.name, .unit = sum.unit, .decimals = 3, .meaning = "of a day"});
    }
    traces::Table table(signals, result.scenario.start_s);
    for (const Sums& day : result.days) {
        std::vector<double> row;
        for (const DaySum& sum : day_sums) row.push_back(day.*sum.value);
        table.append(day.from_s, row);
    }
    return table;
}

struct Files {
    traces::Table columns;
    traces::Table days;
    std::vector<traces::Event> events;
};

Files made_now(const Golden& golden) {
    RunResult result =
        run(day(golden.name, {"record.every=300 s", std::string("length=") + golden.length}));
    return {kept_columns(result.trace), table_of_days(result), std::move(result.events)};
}

/// Signals come from the run: a golden with other columns is refused by the reader.
Files read_back(const std::string& name, const Files& now) {
    std::ifstream columns(folder_of(name) / "columns.csv", std::ios::binary);
    std::ifstream days(folder_of(name) / "days.csv", std::ios::binary);
    std::ifstream events(folder_of(name) / "events.csv", std::ios::binary);
    return {traces::read_csv(columns, now.columns.signals()),
            traces::read_csv(days, now.days.signals()), traces::read_events_csv(events)};
}

std::vector<traces::Difference> differences(const Files& golden, const Files& now,
                                            const traces::Tolerances& tolerances) {
    auto found = traces::find_differences(golden.columns, now.columns, tolerances);
    for (const auto& more : {traces::find_differences(golden.days, now.days, tolerances),
                             traces::find_differences(golden.events, now.events, tolerances)}) {
        found.insert(found.end(), more.begin(), more.end());
    }
    return found;
}

// ------------------------------------------------------------------ renewing

/// What stands in a new tolerances.txt. Times: another libm may turn a decision at a threshold by a
/// tick or two. Values: what the fastest column of its unit moves in such a tick.
constexpr const char* first_tolerances =
    "# name value seconds\n"
    "events 0 5\n"
    "collector_reading_c 0.1 5\nstore_bottom_reading_c 0.1 5\nstore_top_reading_c 0.1 5\n"
    "pump_reason 0 5\npump_relay 0 5\npump_speed_pct 2 5\nbackup_reason 0 5\nbackup_relay 0 5\n"
    "heat_counter_kwh 0.02 5\nstation_hot_c 0.2 5\nstation_cold_c 0.2 5\nflow_lpm 0.05 5\n"
    "air_c 0.01 0\nsun_row_1_w_m2 0.1 0\nrow_1_hottest_c 0.2 5\nstore_layer_01_c 0.05 5\n"
    "store_layer_06_c 0.05 5\nstore_layer_12_c 0.05 5\nto_store_w 20 5\nstore_loss_w 0.2 5\n"
    "sun_kwh_m2 0.001 0\nabsorbed_kwh 0.001 0\ncollector_loss_kwh 0.01 0\npipe_loss_kwh 0.005 0\n"
    "to_store_kwh 0.01 0\nstore_loss_kwh 0.005 0\nbackup_kwh 0.01 0\ntapped_kwh 0.005 0\n"
    "missing_kwh 0.005 0\npump_run_h 0.01 0\ncollector_highest_c 0.2 0\n";

template <typename Write>
void write_file(const std::filesystem::path& path, Write write) {
    traces::WholeFile file(path);
    write(file.stream());
    file.commit();
}

void tell_differences(const std::string& name, const Files& now) {
    std::cout << name << '\n';
    if (!std::filesystem::exists(folder_of(name) / "columns.csv")) {
        std::cout << "  new\n";
        return;
    }
    try {
        auto found = differences(read_back(name, now), now, {});
        std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
            return a.deviation - a.allowed > b.deviation - b.allowed;
        });
        if (found.empty()) std::cout << "  as it was\n";
        for (std::size_t i = 0; i < std::min<std::size_t>(found.size(), 12); ++i) {
            std::cout << "  " << traces::in_words(found[i]) << '\n';
        }
    } catch (const traces::ReadError& error) {
        std::cout << "  the old one has other columns: " << error.what() << '\n';
    }
}

void renew(const Golden& golden) {
    const Files now = made_now(golden);
    const std::filesystem::path folder = folder_of(golden.name);
    tell_differences(golden.name, now);
    std::filesystem::create_directories(folder);
    write_file(folder / "columns.csv", [&](std::ostream& o) { write_csv(o, now.columns); });
    write_file(folder / "days.csv", [&](std::ostream& o) { write_csv(o, now.days); });
    write_file(folder / "events.csv", [&](std::ostream& o) { write_events_csv(o, now.events); });
    if (!std::filesystem::exists(folder / "tolerances.txt")) {
        traces::write_whole(folder / "tolerances.txt", first_tolerances);
    }
}

/// harness_tests --run_test=golden -- renew
bool renewing() {
    const auto& suite = boost::unit_test::framework::master_test_suite();
    return suite.argc == 2 && std::string(suite.argv[1]) == "renew";
}

std::uintmax_t bytes_in(const std::filesystem::path& folder) {
    std::uintmax_t sum = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) sum += entry.file_size();
    return sum;
}

}  // namespace

BOOST_AUTO_TEST_CASE(runs_leave_what_their_goldens_say) {
    for (const Golden& golden : goldens) {
        BOOST_TEST_CONTEXT(golden.name) {
            if (renewing()) {
                renew(golden);
                continue;
            }
            std::ifstream in(folder_of(golden.name) / "tolerances.txt");
            BOOST_TEST_REQUIRE(in.good(), "no golden; make it with the target renew_goldens");
            const traces::Tolerances tolerances = traces::read_tolerances(in);
            const Files now = made_now(golden);
            const auto found = differences(read_back(golden.name, now), now, tolerances);
            std::string words;
            for (const auto& d : found) words += "\n  " + traces::in_words(d);
            BOOST_TEST(found.empty(), found.size() << " columns differ:" << words);
        }
    }
}

BOOST_AUTO_TEST_CASE(goldens_stay_small_and_complete) {
    const std::filesystem::path shelf = folder_of("");
    std::set<std::string> there;
    std::uintmax_t in_all = 0;
    for (const auto& entry : std::filesystem::directory_iterator(shelf)) {
        there.insert(entry.path().filename().string());
        const std::uintmax_t bytes = bytes_in(entry.path());
        BOOST_TEST(bytes < most_bytes_each, entry.path() << " has " << bytes);
        in_all += bytes;
    }
    std::set<std::string> wanted;
    for (const Golden& golden : goldens) wanted.insert(golden.name);
    BOOST_TEST(there == wanted, boost::test_tools::per_element());
    BOOST_TEST(in_all < most_bytes_in_all);
}

// A comparison that finds nothing must be able to find something.
BOOST_AUTO_TEST_CASE(a_run_with_a_slightly_better_collector_is_told_from_its_golden) {
    if (renewing()) return;
    const Golden& golden = goldens[0];
    std::ifstream in(folder_of(golden.name) / "tolerances.txt");
    BOOST_TEST_REQUIRE(in.good());
    const traces::Tolerances tolerances = traces::read_tolerances(in);
    Scenario scenario = day(golden.name, {"record.every=300 s"});
    scenario.plant.rows[0].collector.eta0 *= 1.01;
    const RunResult result = run(scenario);
    const Files now{kept_columns(result.trace), table_of_days(result), result.events};
    BOOST_TEST(!differences(read_back(golden.name, now), now, tolerances).empty());
}

BOOST_AUTO_TEST_SUITE_END()
