// SPDX-License-Identifier: MIT
// Lessons are read whole, and everything that is wrong in one is told with its place.
#include "harness/lesson/lesson.hpp"

#include "tiny_lesson.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

BOOST_AUTO_TEST_SUITE(lesson)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

std::vector<std::filesystem::path> shelf_of_lessons() {
    std::vector<std::filesystem::path> files;
    const std::string folder = std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/lessons";
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

/// One way to spoil the tiny lesson, and what is said of it.
struct Spoilt {
    const char* from;
    const char* to;
    const char* at;    // the refusal stands where this begins in the spoilt text
    const char* what;  // part of its words
};

// clang-format off
const Spoilt spoilt_lessons[] = {
    {"  number: 7", "  numbre: 7", "numbre", "\"numbre\" is not a key of lesson (did you mean number?)"},
    {"  aim: Say when it starts.\n", "", "number: 7", "lesson.aim is missing"},
    {"title: A short <morning>", "title: [a, b]", "[a, b]", "lesson.title: a list stands where a single value is wanted"},
    {"minutes: 12", "minutes: 12.5", "12.5", "\"12.5\" is no such number"},
    {"minutes: 12", "minutes: 13", "[1, 2, 1, 1", "the steps take 12 minutes, the lesson 13"},
    {"timing: [1, 2, 1, 1, 1, 2, 2, 2]", "timing: [1, 2, 2, 1, 2, 2, 2]", "[1, 2, 2", "7 numbers for 8 steps"},
    {"interesting: \"07:30\"", "interesting: half past seven", "half past", "is not a time of day"},
    {"with: [length=9 h]", "with: [length=9 h, store.start_topp=3 degC]", "store.start_topp", "is not a key"},
    {"clear_spring_day.yaml", "clear_sprung_day.yaml", "/", "is no file"},
    {"store.start_bottom=45 degC", "store.start_bottom=45 K", "store.start_bottom=45 K", "is not a unit of"},
    {"{name: warm bottom, ", "{name: as opened, ", "as opened, with", "a second house named \"as opened\""},
    {"  - text: The scene is set here.", "  - txt: The scene is set here.", "txt", "did you mean text?"},
    {"  - text: The scene is set here.", "  - {text: The scene, watch: {}}", "{text", "2 kinds stand in one step"},
    {"kind: clock", "kind: hour", "hour", "\"hour\" is not a kind of question"},
    {"      tolerance: 10 min\n", "", "question: When", "predict.tolerance is missing"},
    {"tolerance: 10 min", "tolerance: 10 K", "10 K", "\"K\" is not a unit of"},
    {"unit: degC", "unit: kWh", "kWh", "\"kWh\" is no unit of"},
    {"(pump_relay is on)\"\n      right", "(pump_rely is on)\"\n      right", "pump_rely", "pump_rely"},
    {"truth: \"at 07:00: store_bottom_reading_c\"", "truth: \"over the run: total of store_bottom_reading_c\"", "total of", "there is no total of a temperature"},
    {"truth: \"at 07:00: store_bottom_reading_c\"", "truth: \"at 08:30: store_bottom_reading_c\"", "\"at 08:30", "the run is over before that time of day"},
    {"until: \"08:00\"", "until: \"09:30\"", "\"09:30\"", "the run of \"as opened\" does not reach that moment"},
    {"until: \"08:45\"", "until: soon", "soon", "\"soon\" is no moment"},
    {"{truth} it was", "{trut} it was", "\"{trut}", "{trut} is not put in"},
    {"        - {say: \"Near {truth}.\"}\n", "", "- {below", "some answers would be left without words"},
    {"{say: \"No, {truth}.\"}", "{below: 3 K, say: \"No.\"}", "3 K", "has a unit, a plain number is wanted"},
    {"{choice: 1, say", "{choice: 2, say", "2, say", "that choice is the right one"},
    {"truth: 2", "truth: 3", "3\n      because", "\"3\" is no such number"},
    {"look_at: [collector_reading_c", "look_at: [collector_reading", "collector_reading,", "did you mean collector_reading_c?"},
    {"forks: [as opened, warm bottom]", "forks: [as opened, warm botom]", "warm botom", "did you mean warm bottom?"},
    {"unit: clock}", "unit: h}", "h}\n        - {name: starts", "\"h\" is no unit of"},
    {"< 07:40\"\n", "< 40 K\"\n", "< 40 K", "cannot be compared"},
    {"solution: [controller.start_difference=5 K]", "solution: [controller.start_difference=500 K]", "controller.start_difference=500 K", "out of range"},
    {"hidden: [pump seized, valve shut]", "hidden: [pump seized, pump seized]", "pump seized]", "stands there twice"},
    {"\"off\": silent}", "\"of\": silent}", "{\"on\"", "nothing is said of off"},
    {"lever loop_valve_opening", "lever loop_valve_openin", "lever loop_valve_openin", "did you mean loop_valve_opening?"},
    {"{0: one across, 1: in line}", "{0: one across}", "{0: one", "nothing is said of 1, as in \"pump seized\""},
    {"reads: {pump seized: hot, valve shut: hot}", "reads: {pump seized: hot}", "{pump seized: hot}", "nothing is said of \"valve shut\""},
    {"reads: bar", "reads: K", "K, price", "\"K\" is no unit of"},
    {"price: 60", "price: 0", "0}\n      causes", "\"0\" is no such number"},
    {"budget: 5\n", "budget: 5\n      prise: 3\n", "prise", "is not a key of hunt"},
    {"valve shut: shut}\n", "valve shut: shutt}\n", "shutt}", "did you mean shut?"},
    {"right: {pump seized: seized, valve shut: shut}", "right: {pump seized: seized}", "{pump seized: seized}", "hunt.right.valve shut is missing"},
    {"feedback: {seized: It was silent., shut: It hummed.}", "feedback: {seized: It was silent.}", "{seized: It", "hunt.feedback.shut is missing"},
    {"{line: I have noticed, lines: 2}", "{line: I have noticed}", "{line", "one of blank and lines is wanted"},
    {"give: 3 min", "give: 3 K", "3 K", "\"K\" is not a unit of"},
    {"is: 2.0 bar", "is: \"2,0 bar\"", "\"2,0 bar", "decimal comma"},
    {"    fails_in: [warm bottom]\n", "", "name: it starts before eight", "names nothing with which it fails"},
    {"controller.stop_difference=2 K]", "controller.stop_differenz=2 K]", "controller.stop_differenz", "is not a key"},
    {"> 7.9 K\"", "> 7.9\"", "> 7.9\"", "cannot be compared"},
};
// clang-format on

/// "LINE:COLUMN" of a text's first place within another, looked for from where the two lessons
/// differ or before.
std::string place_of(const std::string& text, std::string_view wanted) {
    const std::size_t at = text.find(wanted);
    BOOST_TEST_REQUIRE(at != std::string::npos);
    const std::size_t line = std::count(text.begin(), text.begin() + std::ptrdiff_t(at), '\n') + 1U;
    const std::size_t begin = text.rfind('\n', at);
    return std::to_string(line) + ":" +
           std::to_string(begin == std::string::npos ? at + 1 : at - begin);
}

std::vector<std::string> refusals_of(const std::filesystem::path& file) {
    try {
        static_cast<void>(read_lesson(file));
    } catch (const InputRefused& refused) {
        std::vector<std::string> lines;
        for (const Problem& problem : refused.problems()) lines.push_back(text(problem));
        return lines;
    }
    return {};
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_lesson_of_the_shelf_is_read) {
    const auto files = shelf_of_lessons();
    BOOST_TEST_REQUIRE(files.size() == 15U);
    int number = 0;
    for (const auto& file : files) {
        const Lesson lesson = read_lesson(file);
        BOOST_TEST_CONTEXT(file) {
            BOOST_TEST(lesson.number == ++number);
            BOOST_TEST(lesson.steps.size() >= 5U);
            BOOST_TEST(!lesson.cautions.empty());
            BOOST_TEST(lesson.houses.front().name == "as opened");
        }
    }
}

BOOST_AUTO_TEST_CASE(what_is_written_is_what_is_read) {
    const noonbench::testing::ScratchFolder folder;
    const Lesson lesson = read_lesson(written_lesson(folder, tiny_lesson_text()));
    BOOST_TEST(lesson.number == 7);
    BOOST_TEST(lesson.minutes == 12);
    BOOST_TEST(lesson.interesting_s.value() == 7 * 3600 + 1800);
    BOOST_TEST_REQUIRE(lesson.houses.size() == 4U);
    BOOST_TEST(lesson.houses[1].with.size() == 3U);  // the bench's own first
    BOOST_TEST(lesson.houses[1].with[0] == "length=9 h");
    BOOST_TEST_REQUIRE(lesson.steps.size() == 8U);

    const auto& clock = std::get<PredictStep>(lesson.steps[1]);
    BOOST_TEST((clock.form == PredictStep::Form::clock));
    BOOST_TEST(clock.tolerance == 600.0);
    BOOST_TEST(clock.tolerance_text == "10 min");
    BOOST_TEST_REQUIRE(clock.wrong.size() == 3U);
    BOOST_TEST((clock.wrong[0].kind == WrongAnswer::Kind::below));
    BOOST_TEST(clock.wrong[0].bound == 7 * 3600 + 900.0);
    BOOST_TEST((clock.wrong[2].kind == WrongAnswer::Kind::any));

    const auto& number = std::get<PredictStep>(lesson.steps[2]);
    BOOST_TEST(number.unit == "degC");
    BOOST_TEST(number.tolerance == 2.0);
    BOOST_TEST(number.until.time_of_day_s.value() == 8 * 3600);

    const auto& attempt = std::get<TryStep>(lesson.steps[5]);
    BOOST_TEST((attempt.houses == std::vector<std::size_t>{0, 1}));
    BOOST_TEST(attempt.compare[1].unit.empty());

    const auto& hunt = std::get<HuntStep>(lesson.steps[7]);
    BOOST_TEST((hunt.hidden == std::vector<std::size_t>{2, 3}));
    BOOST_TEST((hunt.measurements[0].shows == HuntMeasurement::Shows::number));
    BOOST_TEST((hunt.measurements[1].shows == HuntMeasurement::Shows::condition));
    BOOST_TEST((hunt.measurements[2].shows == HuntMeasurement::Shows::lever));
    BOOST_TEST(hunt.measurements[2].lever == "loop_valve_opening");
    BOOST_TEST((hunt.measurements[3].shows == HuntMeasurement::Shows::text));
    BOOST_TEST((hunt.right[1] == std::vector<std::size_t>{1}));

    BOOST_TEST_REQUIRE(lesson.seen.size() == 2U);
    BOOST_TEST(lesson.seen[0].is == 7 * 3600 + 43 * 60.0);
    BOOST_TEST(lesson.seen[0].give == 180.0);
    BOOST_TEST(lesson.seen[1].is == 2.0);
    BOOST_TEST(lesson.checks[0].fails_in.size() == 1U);
    BOOST_TEST(lesson.checks[1].fails_with.size() == 2U);
}

BOOST_AUTO_TEST_CASE(what_is_wrong_is_told_with_its_place) {
    for (const Spoilt& each : spoilt_lessons) {
        const noonbench::testing::ScratchFolder folder;
        const std::string text = spoilt(tiny_lesson_text(), each.from, each.to);
        const auto file = written_lesson(folder, text);
        const std::string wanted = file.string() + ":" + place_of(text, each.at) + ": ";
        BOOST_TEST_CONTEXT(each.to << " instead of " << each.from) {
            const std::vector<std::string> lines = refusals_of(file);
            const bool told = std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
                return line.starts_with(wanted) && line.find(each.what) != std::string::npos &&
                       line.find("; allowed: ") != std::string::npos;
            });
            for (const std::string& line : lines)
                if (!told) BOOST_TEST_MESSAGE("  said: " << line);
            BOOST_TEST(told, "not said: " << wanted << each.what);
        }
    }
}

BOOST_AUTO_TEST_CASE(all_that_is_wrong_is_told_at_once) {
    const noonbench::testing::ScratchFolder folder;
    std::string text = spoilt(tiny_lesson_text(), "minutes: 12", "minutes: twelve");
    text = spoilt(text, "kind: choice", "kind: vote");
    text = spoilt(text, "budget: 5", "budget: none");
    const std::vector<std::string> lines = refusals_of(written_lesson(folder, text));
    const auto said = [&](std::string_view words) {
        return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
            return line.find(words) != std::string::npos;
        });
    };
    BOOST_TEST(said("\"twelve\""));
    BOOST_TEST(said("\"vote\""));
    BOOST_TEST(said("\"none\""));
}

BOOST_AUTO_TEST_SUITE_END()
