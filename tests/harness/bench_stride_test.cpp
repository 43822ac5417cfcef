// SPDX-License-Identifier: MIT
// The bench by strides: ticks that are passed in one go leave the bytes of ticks run one by one, on
// the shelf's scenarios; and to be watched or recorded changes nothing. NOONBENCH_WHOLE_SHELF in
// the environment adds the faults to the days.
#include "harness/bench/run.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <vector>

BOOST_AUTO_TEST_SUITE(bench_stride)

namespace {

using namespace noonbench;
using namespace noonbench::harness;

std::vector<std::filesystem::path> shelf() {
    std::vector<std::string> folders{"days"};
    if (std::getenv("NOONBENCH_WHOLE_SHELF") != nullptr) folders.emplace_back("faults");
    std::vector<std::filesystem::path> files;
    for (const std::string& folder : folders) {
        const auto path = std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios" / folder;
        for (const auto& entry : std::filesystem::directory_iterator(path)) {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

Scenario hourly(const std::filesystem::path& file) {
    Scenario scenario = read_scenario(file.string());
    scenario.record.every_s = 3600;
    return scenario;
}

bool same_number(double a, double b) {
    return a == b || (std::isnan(a) && std::isnan(b));
}

/// Rows of `sparse` as they stand in `dense`.
bool same_rows(const traces::Table& sparse, const traces::Table& dense) {
    std::size_t at = 0;
    for (std::size_t row = 0; row < sparse.row_count(); ++row) {
        while (at < dense.row_count() && dense.times_s()[at] < sparse.times_s()[row]) ++at;
        if (at == dense.row_count() || dense.times_s()[at] != sparse.times_s()[row]) return false;
        for (std::size_t c = 0; c < sparse.signals().size(); ++c) {
            if (!same_number(sparse.value(row, c), dense.value(at, c))) return false;
        }
    }
    return true;
}

}  // namespace

BOOST_AUTO_TEST_CASE(skipping_quiet_ticks_leaves_the_bytes_of_every_tick) {
    std::size_t events = 0;
    for (const std::filesystem::path& file : shelf()) {
        const Scenario scenario = hourly(file);
        const RunResult skipped = run(scenario);
        RunWishes wishes;
        wishes.passing = Passing::every_tick;
        const RunResult ticked = run(scenario, wishes);
        events += ticked.events.size();
        BOOST_TEST_CONTEXT(file.filename().string()) {
            BOOST_TEST((skipped.events == ticked.events));
            BOOST_TEST(same_rows(skipped.trace, ticked.trace));
            BOOST_TEST(skipped.tally_kwh == ticked.tally_kwh);
            BOOST_TEST(skipped.total.to_store_kwh == ticked.total.to_store_kwh);
        }
    }
    BOOST_TEST(events > 500U);
}

BOOST_AUTO_TEST_CASE(whoever_watches_or_records_changes_nothing) {
    const Scenario scenario =
        hourly(std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios/days/passing_clouds.yaml");
    const RunResult alone = run(scenario);
    Scenario every_second = scenario;
    every_second.record.every_s = 1;
    std::int64_t seen = 0;
    CivilSeconds expected_s = scenario.start_s;
    RunWishes wishes;
    wishes.watch = [&](const Bench& bench) {
        seen += bench.now() == expected_s ? 1 : 0;
        ++expected_s;
    };
    const RunResult watched = run(every_second, wishes);
    BOOST_TEST(seen == scenario.length_s);  // each tick once and in order
    BOOST_TEST((alone.events == watched.events));
    BOOST_TEST(same_rows(alone.trace, watched.trace));
    BOOST_TEST(alone.total.to_store_kwh == watched.total.to_store_kwh);
    BOOST_TEST(alone.total.tapped_l == watched.total.tapped_l);
}

// A stride may not reach over what happens outside, and is worth its name on a quiet night.
BOOST_AUTO_TEST_CASE(a_quiet_night_goes_in_long_strides_and_a_busy_hour_ends_on_its_moves) {
    Scenario scenario = hourly(std::filesystem::path(NOONBENCH_SOURCE_DIR) /
                               "scenarios/days/clear_spring_day.yaml");
    Move move;
    move.at_s = scenario.start_s + 2 * 3600 + 7;
    move.what = LeverMove{"coil_fouling", 0.9};
    scenario.moves.push_back(move);
    Bench bench(scenario);
    const CivilSeconds end = scenario.start_s + 4 * 3600;
    int strides = 0;
    bool stood_on_the_move = false;
    while (bench.now() < end) {
        bench.decide();
        stood_on_the_move |= bench.now() == move.at_s && !bench.moved().empty();
        bench.stride(end);
        ++strides;
    }
    BOOST_TEST(bench.now() == end);
    BOOST_TEST(stood_on_the_move);
    BOOST_TEST(strides < 4 * 3600 / 30, strides << " strides in four hours of night");
}

BOOST_AUTO_TEST_SUITE_END()
