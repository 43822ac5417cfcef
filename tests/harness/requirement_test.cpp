// SPDX-License-Identifier: MIT
#include "requirement_signals.hpp"
#include "weather_scratch.hpp"

#include "harness/language/requirement.hpp"
#include "harness/scenario/yaml_tree.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace noonbench;
using namespace noonbench::harness;

struct Columns {
    std::vector<traces::Signal> signals = test::default_signals();

    [[nodiscard]] Requirement one(RequirementText text) const {
        if (text.name.empty()) text.name = "one";
        return understood_requirements(std::array{text}, signals).at(0);
    }
    [[nodiscard]] std::vector<std::string> problems(
        const std::vector<RequirementText>& texts) const {
        std::vector<std::string> lines;
        try {
            (void)understood_requirements(texts, signals);
        } catch (const InputRefused& refused) {
            for (const Problem& problem : refused.problems()) lines.push_back(text(problem));
        }
        return lines;
    }
};

RequirementText written(std::string that, std::string scale = "") {
    RequirementText text;
    text.that = std::move(that);
    text.scale = std::move(scale);
    text.scale_place = {"day.yaml", 7, 12};
    return text;
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(requirement, Columns)

BOOST_AUTO_TEST_CASE(classes_stand_in_order_of_the_text_with_shift_last_and_counts_inside_unseen) {
    const auto units = [&](const char* text) {
        std::string all;
        for (const MarginClass& each : classes_of(*parse_formula(text, signals)))
            all += (each.shift ? "shift:" : "") + std::string(unit_of(each)) + " ";
        return all;
    };
    BOOST_TEST(units("pump_relay is on and flow_lpm > 1 l/min and air_c > 3 degC and tap_c > 1 "
                     "degC") == "l/min K shift:s ");
    BOOST_TEST(units("each day, time with (flow_lpm > 1 l/min and pump_relay is on) > 1 h") ==
               "s ");
    BOOST_TEST(units("each day, first time with (pump_relay is on) < 08:00") == "s ");
    BOOST_TEST(units("each day, starts of pump_relay < 8") == " ");
    BOOST_TEST(units("at 12:00, pump_relay goes on") == "");
    BOOST_TEST(units("always tap_c has no value") == "");
}

BOOST_AUTO_TEST_CASE(the_scale_picks_the_class_of_its_unit) {
    const char* both = "always if pump_relay is on then flow_lpm > 1 l/min";
    const Requirement usual = one(written(both));
    BOOST_TEST(usual.scale == 0.5);  // l/min
    BOOST_TEST(!usual.classes.at(0).shift);
    const Requirement shifted = one(written(both, "2 min"));
    BOOST_TEST(shifted.scale == 120.0);  // s
    BOOST_TEST(shifted.classes.at(0).shift);
    BOOST_TEST((shifted.classes.at(1).measure == Measure::flow));
    BOOST_TEST(one(written("each day, starts of pump_relay < 8", "2")).scale == 2.0);
    BOOST_TEST(one(written("always air_c < 40 degC", "0.5 K")).scale == 0.5);
    BOOST_TEST(one(written("always pump_w < 80 W")).scale == 100.0);
    BOOST_TEST(one(written("always pump_relay is on")).scale == 60.0);
    BOOST_TEST(one(written("always to_store_w / absorbed_w > 30 %", "2 %")).scale == 2.0);
    BOOST_TEST(one(written("always to_store_w / absorbed_w > 0.3", "0.1")).scale == 0.1);

    const auto refusal = [&](const char* that, const char* scale) {
        return problems({written(that, scale)}).at(1);
    };
    BOOST_TEST(refusal("always air_c < 40 degC", "2 kW") ==
               "day.yaml:7:12: the requirement has no margin that is a power (kW); allowed: K");
    BOOST_TEST(refusal(both, "2 K")
                   .ends_with("allowed: l/min, l/h, m3/h, s, min, h, day, days, "
                              "year"));
    BOOST_TEST(refusal("always air_c < 40 degC", "0 K") ==
               "day.yaml:7:12: a scale of 0; allowed: a larger one");
    BOOST_TEST(refusal("always air_c < 40 degC", "-2 K").starts_with("day.yaml:7:12: \"-2\""));
    BOOST_TEST(refusal("always tap_c has a value", "1 K").starts_with("day.yaml:7:12: a scale, "));
}

BOOST_AUTO_TEST_CASE(a_requirement_tells_in_one_line_what_was_written_and_where_to_look) {
    RequirementText text =
        written("each day:\n  starts of pump_relay\n  < lowest of tap_c / 1 K\n");
    text.that = "always\n  if pump_relay is on\n  then flow_lpm > 1 l/min\n";
    const Requirement made = one(text);
    BOOST_TEST(made.text == "always if pump_relay is on then flow_lpm > 1 l/min");
    BOOST_TEST(made.look_at ==
               "pump_relay: the controller sends mains to the pump; flow_lpm: flow through the "
               "loop (sight glass)");
    text.look_at = "the sight glass";
    text.at_end = AtEnd::cut;
    BOOST_TEST(one(text).look_at == "the sight glass");
    BOOST_TEST((one(text).at_end == AtEnd::cut));
}

BOOST_AUTO_TEST_CASE(all_problems_of_all_requirements_come_at_once) {
    RequirementText first = written("pump_relay is onn");
    first.name = "same";
    first.place = {"day.yaml", 3, 5};
    first.that_place = {"--set require.0.that=...", 0, 0};
    RequirementText second = written("air_c > 5 kW");
    second.name = "same";
    second.place = {"day.yaml", 6, 5};
    const auto lines = problems({first, second});
    BOOST_REQUIRE(lines.size() == 3U);
    BOOST_TEST(lines[0].starts_with("--set require.0.that=...: \"onn\" is not a word of "));
    BOOST_TEST(lines[1] ==
               "day.yaml:6:5: a second requirement named \"same\" (first at day.yaml:3); "
               "allowed: each name once");
    BOOST_TEST(lines[2].find("cannot be compared") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(problems_stand_at_their_line_and_column_however_yaml_holds_the_text) {
    const test::Scratch scratch;
    const auto place = [&](const std::string& yaml) {
        const auto file = scratch.write("day.yaml", yaml);
        const Node root = parse_yaml_file(file);
        const Node* that = find(root, "that");
        BOOST_REQUIRE(that != nullptr);
        RequirementText text = written(that->text);
        text.name = "one";
        text.that_place = that->place;
        const std::string line = problems({text}).at(0);
        BOOST_REQUIRE(line.starts_with(file.string() + ":"));
        const std::string rest = line.substr(file.string().size() + 1);
        return rest.substr(0, rest.find(": "));
    };
    BOOST_TEST(place("that: always air_cc < 4 degC\n") == "1:14");
    BOOST_TEST(place("that: \"each day: highest of air_cc < 4 degC\"\n") == "1:29");
    BOOST_TEST(place("that: 'always air_cc < 4 degC'\n") == "1:15");
    BOOST_TEST(place("a: 1\nthat: >\n  always\n    air_c <\n\n  4 kW\nb: 2\n") == "4:11");
    BOOST_TEST(place("that: |-\n    always\n    air_cc < 4 degC\n") == "3:5");
    BOOST_TEST(place("that: always\n   air_c\n\n   < 4 degC and (pump_relay is on\nb: 2\n") ==
               "4:34");
    BOOST_TEST(place("that: \"always\n   air_cc < 4 degC\"\n") == "2:4");
    BOOST_TEST(place("that:\n  always air_cc < 4 degC\n") == "2:10");
    // an escape hides where things stand: the start of the value is shown
    BOOST_TEST(place("that: \"always \\x61ir_cc < 4 degC\"\n") == "1:7");
}

BOOST_AUTO_TEST_SUITE_END()
