// SPDX-License-Identifier: MIT
// What a lesson asks of the bench, and what the bench says.
#include "harness/lesson/asked.hpp"

#include "tiny_lesson.hpp"

#include "harness/bench/run.hpp"
#include "harness/judge/judge.hpp"
#include "harness/language/number_phrase.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <thread>
#include <variant>
#include <vector>

BOOST_AUTO_TEST_SUITE(asked)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

const Lesson& tiny() {
    static const Lesson lesson = read_lesson(tiny_lesson_file());
    return lesson;
}

template <class Step>
const Step& step_of(const Lesson& lesson, std::size_t index) {
    return std::get<Step>(lesson.steps.at(index));
}

const PredictStep& clock_step() {
    return step_of<PredictStep>(tiny(), 1);
}
const PredictStep& number_step() {
    return step_of<PredictStep>(tiny(), 2);
}
const PredictStep& choice_step() {
    return step_of<PredictStep>(tiny(), 3);
}

/// A start difference set by hand, as the page does it.
Move set_by_hand(int centikelvin, CivilSeconds at_s) {
    Move move;
    move.at_s = at_s;
    move.what =
        SettingMove{firmware::Setting::start_difference, static_cast<std::int16_t>(centikelvin)};
    move.name = "start_difference";
    move.by_hand = true;
    return move;
}

Lesson lesson_of(const std::string& text) {
    const noonbench::testing::ScratchFolder folder;
    return read_lesson(written_lesson(folder, text));
}

std::vector<std::string> off(const std::string& text) {
    std::vector<std::string> lines;
    for (const Problem& problem : replayed(lesson_of(text)))
        lines.push_back(harness::text(problem));
    return lines;
}

/// The one line says this, at the line at which `at` stands in the lesson.
void expect_off(const std::string& text, std::string_view at, std::string_view words) {
    const std::vector<std::string> lines = off(text);
    for (const std::string& line : lines) BOOST_TEST_MESSAGE(line);
    BOOST_TEST_REQUIRE(lines.size() == 1U);
    const std::string whole = tiny_lesson_text();
    const std::size_t offset = whole.find(at);
    BOOST_TEST_REQUIRE(offset != std::string::npos);
    const auto line =
        1 + std::count(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(offset), '\n');
    BOOST_TEST(lines.front().find("07_tiny.yaml:" + std::to_string(line) + ":") !=
               std::string::npos);
    BOOST_TEST(lines.front().find(words) != std::string::npos);
}

}  // namespace

BOOST_AUTO_TEST_CASE(within_the_tolerance_is_right_both_ends_included) {
    Asked asked;
    const auto said = [&](std::string_view answer) {
        return asked.predicted(tiny(), clock_step(), answer, {});
    };
    const Answered right = said("07:43");
    BOOST_TEST(right.right);
    BOOST_TEST(right.truth == "07:43");
    BOOST_TEST(right.say == "07:43 it was, you said 07:43.");
    BOOST_TEST(said("7:33").right);
    BOOST_TEST(said(" 07:53 ").right);
    BOOST_TEST(!said("07:32").right);
    BOOST_TEST(!said("07:54").right);
}

BOOST_AUTO_TEST_CASE(the_first_wrong_that_fits_speaks) {
    Asked asked;
    const auto say = [&](const PredictStep& step, std::string_view answer) {
        return asked.predicted(tiny(), step, answer, {}).say;
    };
    BOOST_TEST(say(clock_step(), "06:30") == "06:30 is too early. 07:43.");
    BOOST_TEST(say(clock_step(), "07:15") == "Near 07:43.");  // the bound is not below itself
    BOOST_TEST(say(clock_step(), "9:00") == "Too late. 07:43.");
    BOOST_TEST(say(number_step(), "60") ==
               "Too warm, " + asked.predicted(tiny(), number_step(), "1", {}).truth + ".");
    BOOST_TEST(say(choice_step(), "1") == "No, not the top one. It is beside the coil.");
    BOOST_TEST(say(choice_step(), "2") == "Yes, the bottom one. It is beside the coil.");
    BOOST_TEST(asked.predicted(tiny(), choice_step(), "1", {}).truth == "2");
}

BOOST_AUTO_TEST_CASE(what_is_no_answer_is_told_with_what_is_one) {
    const auto refused = [](const PredictStep& step, std::string_view answer,
                            std::string_view allowed) {
        const std::string words = no_answer(step, answer);
        return words.find(allowed) != std::string::npos;
    };
    BOOST_TEST(no_answer(clock_step(), "7:15").empty());
    BOOST_TEST(no_answer(number_step(), "-17.4").empty());
    BOOST_TEST(no_answer(choice_step(), "2").empty());
    for (const char* bad : {"", "7", "24:00", "07:15:30", "7.15", "soon", "077:15", "7:5"})
        BOOST_TEST(refused(clock_step(), bad, "00:00 to 23:59, such as 07:15"), bad);
    for (const char* bad : {"", "warm", "17 K", "17,4", "nan", "inf", "1e99"})
        BOOST_TEST(refused(number_step(), bad, "a number with a decimal point, in \u00b0C"), bad);
    for (const char* bad : {"", "0", "3", "1.5", "two", "99999999999999999999"})
        BOOST_TEST(refused(choice_step(), bad, "1 to 2"), bad);
    BOOST_TEST(refused(number_step(), std::string(100, '1'), "at most 24 characters"));
    Asked asked;
    BOOST_CHECK_THROW(static_cast<void>(asked.predicted(tiny(), clock_step(), "soon", {})),
                      std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(moments_and_courses_are_those_of_the_run) {
    Asked asked;
    const Answered answered = asked.predicted(tiny(), clock_step(), "06:30", {});
    const CivilSeconds midnight = civil_seconds(2026, 4, 15);
    BOOST_TEST_REQUIRE(answered.truth_at_s.has_value());
    BOOST_TEST(*answered.answer_at_s == midnight + 6 * 3600 + 1800);
    BOOST_TEST(std::abs(double(*answered.truth_at_s - midnight - 7 * 3600 - 43 * 60)) <= 30.0);
    BOOST_TEST(answered.trace.from_s == midnight + 5 * 3600 + 1800);
    BOOST_TEST(answered.trace.to_s == *answered.truth_at_s + 3600);
    BOOST_TEST_REQUIRE(answered.trace.courses.size() == 3U);
    for (const auto& course : answered.trace.courses) {
        BOOST_TEST(course.points.size() <= 240U);
        BOOST_TEST(course.points.size() > 20U);
        BOOST_TEST(std::is_sorted(course.points.begin(), course.points.end(),
                                  [](const auto& a, const auto& b) { return a.first < b.first; }));
        BOOST_TEST(course.points.front().first >= answered.trace.from_s);
        BOOST_TEST(course.points.back().first <= answered.trace.to_s);
    }
    // the pump's course shows the very second of its start
    const auto& pump = answered.trace.courses[2];
    BOOST_TEST(pump.signal == "pump_relay");
    const auto on = std::find_if(pump.points.begin(), pump.points.end(),
                                 [](const auto& point) { return point.second > 0.5; });
    BOOST_TEST_REQUIRE((on != pump.points.end()));
    BOOST_TEST(on->first == *answered.truth_at_s);
}

BOOST_AUTO_TEST_CASE(moves_by_hand_count_and_are_not_remembered) {
    Asked asked;
    const std::array late{set_by_hand(1500, civil_seconds(2026, 4, 15) + 6 * 3600)};
    const Answered plain = asked.predicted(tiny(), clock_step(), "07:43", {});
    const Answered moved = asked.predicted(tiny(), clock_step(), "07:43", late);
    BOOST_TEST(moved.truth > plain.truth);
    BOOST_TEST(!moved.right);
    BOOST_TEST(asked.predicted(tiny(), clock_step(), "07:43", {}).truth == plain.truth);
}

BOOST_AUTO_TEST_CASE(where_nothing_happens_nobody_is_right) {
    Asked asked;
    const std::array never{set_by_hand(3000, civil_seconds(2026, 4, 15) + 60)};
    std::string text = spoilt(tiny_lesson_text(), "length=9 h", "length=8 h");
    text = spoilt(text, "at 08:30: pump_turning", "at 07:50: pump_turning");
    text = spoilt(text, "until: \"08:45\"", "until: \"07:55\"");
    const Lesson lesson = lesson_of(text);
    const Answered answered =
        asked.predicted(lesson, step_of<PredictStep>(lesson, 1), "07:43", never);
    BOOST_TEST(!answered.right);
    BOOST_TEST(answered.truth == "none");
    BOOST_TEST(!answered.truth_at_s.has_value());
    BOOST_TEST(answered.say == "There was no such moment in this run.");
}

BOOST_AUTO_TEST_CASE(houses_run_side_by_side) {
    Asked asked;
    const ComparedRuns compared = asked.compared(tiny(), step_of<TryStep>(tiny(), 5));
    BOOST_TEST_REQUIRE(compared.cells.size() == 2U);
    BOOST_TEST_REQUIRE(compared.traces.size() == 2U);
    BOOST_TEST(compared.cells[0][0] == "07:43");
    BOOST_TEST(compared.cells[0][1] == "1");
    BOOST_TEST(compared.cells[0][2] == "62");
    BOOST_TEST(compared.cells[1][0] > compared.cells[0][0]);
    BOOST_TEST(compared.traces[0].to_s == civil_seconds(2026, 4, 15) + 8 * 3600 + 2700);
}

BOOST_AUTO_TEST_CASE(a_run_that_is_cut_is_the_whole_one_so_far) {
    Scenario scenario = scenario_of(tiny(), 0);
    const CivilSeconds until = scenario.start_s + 8 * 3600 + 123;
    std::vector<double> whole;
    std::vector<double> cut;
    const Column collector = columns_of(scenario).front();
    run_watched(scenario, [&](const Bench& bench) {
        if (bench.now() < until) whole.push_back(collector.value(bench));
    });
    run_watched(scenario, until,
                [&](const Bench& bench) { cut.push_back(collector.value(bench)); });
    BOOST_TEST(cut.size() == 8U * 3600 + 123);
    const bool same =
        std::equal(whole.begin(), whole.end(), cut.begin(), cut.end(),
                   [](double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); });
    BOOST_TEST(same);
}

BOOST_AUTO_TEST_CASE(a_task_is_judged_part_by_part) {
    Asked asked;
    const auto& task = step_of<TaskStep>(tiny(), 6);
    const auto unmet = asked.task(tiny(), task, {});
    BOOST_TEST_REQUIRE(unmet.size() == 1U);
    BOOST_TEST(!unmet.front().held);
    BOOST_TEST(unmet.front().words.starts_with("not held, by "));
    const std::array early{set_by_hand(500, civil_seconds(2026, 4, 15) + 6 * 3600)};
    const auto met = asked.task(tiny(), task, early);
    BOOST_TEST(met.front().held);
    BOOST_TEST(met.front().words.starts_with("held, by "));
}

BOOST_AUTO_TEST_CASE(looks_read_the_house_that_was_drawn) {
    Asked asked;
    const auto& hunt = step_of<HuntStep>(tiny(), 7);
    const auto look = [&](std::size_t measurement, std::size_t house) {
        return asked.look(tiny(), hunt, measurement, house);
    };
    BOOST_TEST(look(0, 2) == "2.01 bar");
    BOOST_TEST(look(1, 2) == "silent");
    BOOST_TEST(look(1, 3) == "it hums");
    BOOST_TEST(look(2, 2) == "in line");
    BOOST_TEST(look(2, 3) == "one across");
    BOOST_TEST(look(3, 3) == "hot");
}

BOOST_AUTO_TEST_CASE(a_class_may_ask_from_many_threads) {
    Asked asked;
    std::vector<std::string> truths(8);
    std::vector<std::thread> threads;
    threads.reserve(truths.size());
    for (std::string& truth : truths)
        threads.emplace_back(
            [&] { truth = asked.predicted(tiny(), clock_step(), "07:00", {}).truth; });
    for (std::thread& thread : threads) thread.join();
    for (const std::string& truth : truths) BOOST_TEST(truth == "07:43");
}

BOOST_AUTO_TEST_CASE(a_lesson_as_written_is_what_the_bench_shows) {
    BOOST_TEST(off(tiny_lesson_text()) == std::vector<std::string>{},
               boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(whatever_is_off_is_found) {
    const std::string text = tiny_lesson_text();
    expect_off(spoilt(text, "is: \"07:43\"", "is: \"07:50\""), "is: \"07:43\"",
               "is 07:43 in \"as opened\", and 07:50 was seen");
    expect_off(spoilt(text, "is: 2.0 bar", "is: 2.3 bar"), "is: 2.0 bar", "in \"warm bottom\"");
    expect_off(spoilt(text, "is on) < 08:00", "is on) < 07:00"), "is on) < 08:00",
               "\"it starts before eight\" in \"as opened\": not held");
    expect_off(spoilt(text, "is on) < 08:00", "is on) < 09:00"), "is on) < 08:00",
               "\"it starts before eight\" in \"warm bottom\": held");
    expect_off(spoilt(text, "fails_with: [controller.start_difference=5 K",
                      "fails_with: [controller.start_difference=8 K"),
               "always if", "with the change that it names: held");
    expect_off(spoilt(text, "is on) < 07:40", "is on) < 07:50"), "say: Make it",
               "the task is met before anybody has done anything");
    expect_off(spoilt(text, "solution: [controller.start_difference=5 K]",
                      "solution: [controller.start_difference=9 K]"),
               "is on) < 07:40", "\"before 07:40\" with the solution: not held");
    expect_off(spoilt(text, "below: \"07:15\"", "below: \"08:15\""), "below: \"07:15\"",
               "answers that are too high are taken for too low: the truth is 07:43");
    expect_off(spoilt(text, "above: 40", "above: 3"), "above: 40",
               "answers that are too low are taken for too high");
}

BOOST_AUTO_TEST_CASE(a_hunt_that_nobody_can_solve_is_found) {
    std::string text =
        spoilt(tiny_lesson_text(), "reads: {\"on\": it hums, \"off\": silent}, price: 2",
               "reads: {\"on\": it hums, \"off\": silent}, price: 6");
    text = spoilt(text, "1: in line}, price: 2", "1: in line}, price: 6");
    expect_off(text, "say: One of two",
               "no looks for 5 minutes tell \"pump seized\" from \"valve shut\"");
}

BOOST_AUTO_TEST_CASE(a_number_phrase_is_read_where_it_says) {
    const Scenario scenario = scenario_of(tiny(), 0);
    const auto signals = judged_signals(scenario);
    const auto understood = [&](std::string_view text) {
        return parse_number(text, {"here", 0, 0}, signals);
    };
    BOOST_TEST(understood("at 07:00: gauge_bar").at_s.value() == 7 * 3600);
    BOOST_TEST(!understood("over the run: gauge_bar").at_s.has_value());
    BOOST_TEST(
        (understood("over the run: total of to_store_w").number->measure == Measure::energy));
    BOOST_TEST(understood("at 07:00: pump_relay").condition != nullptr);
    BOOST_TEST(understood("at 07:00: pump_reason is collecting").number == nullptr);
    BOOST_TEST(understood("over the run: change of heat_counter_kwh / total of to_store_w")
                   .signals.size() == 2U);
    for (const char* bad : {"over the run: always gauge_bar > 1 bar", "starts of pump_relay",
                            "pump_reason", "at 07:00: gauge", ""})
        BOOST_CHECK_THROW(static_cast<void>(understood(bad)), InputRefused);
}

BOOST_AUTO_TEST_CASE(numbers_are_read_at_their_ticks) {
    const Scenario scenario = scenario_of(tiny(), 0);
    const auto columns = judged_columns(scenario);
    const auto signals = judged_signals(scenario);
    const CivilSeconds start = scenario.start_s;
    // on both sides of a block's end, the last tick, and one that never comes
    const std::array<CivilSeconds, 6> at{start,         start + 479,   start + 480,
                                         start + 30000, start + 32399, start + 40000};
    std::vector<NumberAt> numbers;
    for (const CivilSeconds tick : at)
        numbers.push_back({parse_number("air_c", {"here", 0, 0}, signals).number, nullptr, tick});
    Monitor monitor({}, start, numbers);
    BOOST_TEST_REQUIRE(monitor.signals().size() == 1U);
    const Column air = columns[monitor.signals().front()];
    std::vector<double> seen(at.size(), std::nan(""));
    run_watched(scenario, [&](const Bench& bench) {
        *monitor.row() = air.value(bench);
        for (std::size_t i = 0; i < at.size(); ++i)
            if (bench.now() == at[i]) seen[i] = air.value(bench);
        monitor.tick();
    });
    static_cast<void>(monitor.finish());
    for (std::size_t i = 0; i + 1 < at.size(); ++i) BOOST_TEST(monitor.numbers()[i] == seen[i]);
    BOOST_TEST(std::isnan(monitor.numbers().back()));
}

BOOST_AUTO_TEST_SUITE_END()
