// SPDX-License-Identifier: MIT
// What a page says and what it is answered: good wishes, bad ones, and noise.
#include "harness/live/session.hpp"

#include "plant/random.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

BOOST_AUTO_TEST_SUITE(live_session)

using namespace noonbench;
using namespace noonbench::harness;
namespace json = boost::json;

namespace {

const Shelf& shelf() {
    static const Shelf all(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios");
    return all;
}

LessonDesk& desk() {
    static LessonDesk one;
    return one;
}

std::vector<json::object> answers(Session& session, std::string_view text) {
    std::vector<json::object> all;
    for (const std::string& answer : session.take(text)) {
        all.push_back(json::parse(answer).as_object());
    }
    return all;
}

json::object last(Session& session, std::string_view text) {
    const auto all = answers(session, text);
    BOOST_TEST_REQUIRE(!all.empty());
    return all.back();
}

std::string is(const json::object& message) {
    return std::string(message.at("is").as_string());
}

Session opened(std::string_view path = "days/clear_spring_day") {
    Session session(shelf(), desk());
    const auto all = answers(session, R"({"do":"open","path":")" + std::string(path) + "\"}");
    BOOST_TEST_REQUIRE(all.size() == 3U);
    BOOST_TEST(is(all[0]) == "opened");
    BOOST_TEST(is(all[1]) == "sun");
    BOOST_TEST(is(all[2]) == "frame");
    return session;
}

const json::value& bench_of(const json::object& frame, std::size_t which = 0) {
    return frame.at("benches").as_array().at(which);
}

/// Passes real time until nothing moves any more; the last frame.
json::object settle(Session& session) {
    json::object frame;
    for (int beats = 0; session.moves() && beats < 1000; ++beats) {
        const auto said = session.pass(0.1);
        if (!said.empty()) frame = json::parse(said.back()).as_object();
    }
    return frame;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_greeting_names_the_shelf) {
    const json::object greeting = json::parse(Session(shelf(), desk()).greeting()).as_object();
    BOOST_TEST(is(greeting) == "welcome");
    BOOST_TEST(greeting.at("shelf").as_array().size() == shelf().items().size());
    BOOST_TEST(shelf().items().size() > 90U);
}

BOOST_AUTO_TEST_CASE(time_passes_at_the_pace_that_was_asked_for) {
    Session session = opened();
    static_cast<void>(session.take(R"({"do":"pace","times":60})"));
    json::object frame;
    for (int beat = 0; beat < 10; ++beat) {
        const auto said = session.pass(0.1);
        if (!said.empty()) frame = json::parse(said.back()).as_object();
    }
    BOOST_TEST(frame.at("at_s").to_number<int>() == 60);
    BOOST_TEST(bench_of(frame).at("rows").as_array().size() <= 12U);
}

BOOST_AUTO_TEST_CASE(a_thinned_frame_keeps_its_values) {
    Session session = opened();
    static_cast<void>(session.take(R"({"do":"pace","times":3600})"));
    const auto said = session.pass(0.1);
    BOOST_TEST_REQUIRE(said.size() == 1U);
    const json::object frame = json::parse(said.back()).as_object();
    const auto width = bench_of(frame).at("now").as_array().size() + 1;
    for (const json::value& row : bench_of(frame).at("rows").as_array()) {
        BOOST_TEST(row.as_array().size() == width);
    }
}

BOOST_AUTO_TEST_CASE(a_jump_to_the_next_event_stops_on_its_tick) {
    Session session = opened();
    static_cast<void>(session.take(R"({"do":"jump","to_s":21600})"));
    static_cast<void>(settle(session));
    static_cast<void>(session.take(R"({"do":"jump","to":"event"})"));
    const json::object frame = settle(session);
    const json::array& events = bench_of(frame).at("events").as_array();
    BOOST_TEST_REQUIRE(!events.empty());
    BOOST_TEST(events.back().at("at_s").to_number<int>() == frame.at("at_s").to_number<int>());
}

BOOST_AUTO_TEST_CASE(each_new_day_has_its_own_sun) {
    Session session = opened("days/hot_idle_august_week");
    static_cast<void>(session.take(R"({"do":"jump","to_s":180000})"));
    std::vector<std::int64_t> days;
    while (session.moves()) {
        for (const std::string& text : session.pass(0.1)) {
            const json::object said = json::parse(text).as_object();
            if (is(said) == "sun") days.push_back(said.at("day").to_number<std::int64_t>());
        }
    }
    const std::vector<std::int64_t> wanted{1, 2};
    BOOST_TEST(days == wanted, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_setting_that_is_moved_shows_at_the_next_tick) {
    Session session = opened();
    const json::object frame =
        last(session, R"({"do":"move","kind":"setting","name":"start_difference","to":"6 K"})");
    BOOST_TEST(is(frame) == "frame");
    BOOST_TEST(frame.at("at_s").to_number<int>() == 1);
    BOOST_TEST(bench_of(frame).at("settings").at("start_difference").as_string() == "6 K");
    BOOST_TEST(bench_of(frame).at("needle").at("start_k").to_number<double>() == 6.0);
}

BOOST_AUTO_TEST_CASE(a_fork_runs_the_same_morning_with_another_setting) {
    Session session = opened();
    static_cast<void>(session.take(R"({"do":"jump","to_s":50000})"));
    static_cast<void>(settle(session));
    const json::object forked =
        last(session, R"({"do":"fork","at_s":21600,"moves":[{"kind":"setting",)"
                      R"("name":"start_difference","to":"20 K"}]})");
    BOOST_TEST(is(forked) == "frame");
    BOOST_TEST(forked.at("at_s").to_number<int>() == 21601);
    static_cast<void>(session.take(R"({"do":"jump","to_s":28200})"));
    const json::object frame = settle(session);
    BOOST_TEST_REQUIRE(frame.at("benches").as_array().size() == 2U);
    BOOST_TEST(bench_of(frame, 0).at("pump").at("reason").as_string() == "collecting");
    BOOST_TEST(bench_of(frame, 1).at("pump").at("reason").as_string() == "waiting_for_sun");
    BOOST_TEST(last(session, R"({"do":"unfork"})").at("benches").as_array().size() == 1U);
}

BOOST_AUTO_TEST_CASE(what_is_wrong_is_said_and_changes_nothing) {
    Session session = opened();
    for (const std::string_view wrong :
         {R"({"do":"move","kind":"setting","name":"start_difference","to":"60 K"})",
          R"({"do":"move","kind":"setting","name":"startt_difference","to":"6 K"})",
          R"({"do":"move","kind":"lever","name":"coil_fouling","to":"-1"})",
          R"({"do":"move","kind":"magic","name":"coil_fouling","to":"1"})",
          R"({"do":"move","on":"other","kind":"lever","name":"coil_fouling","to":"0.5"})",
          R"({"do":"open","path":"../../etc/passwd"})",
          R"({"do":"open","path":"days/clear_spring_day","more":1})",
          R"({"do":"pace","times":-1})",
          R"({"do":"pace","times":1e99})",
          R"({"do":"pace"})",
          R"({"do":"jump"})",
          R"({"do":"fork","at_s":0,"moves":[]})",
          R"({"do":"fork","at_s":99999999,"moves":[{"kind":"lever","name":"x","to":"1"}]})",
          R"({"do":"course","signal":"nothing","from_s":0,"to_s":1})",
          R"({"do":"fly"})",
          R"({"do":7})",
          R"([])",
          "",
          "{",
          "\xff\xfe",
          R"({"do":"step","do":"open"})"}) {
        const auto all = answers(session, wrong);
        if (all.size() == 1 && is(all[0]) == "frame") continue;  // the last one is only odd
        BOOST_TEST(all.size() == 1U, wrong);
        BOOST_TEST(is(all.at(0)) == "error", wrong);
        BOOST_TEST(!all.at(0).at("what").as_string().empty());
    }
    const json::object frame = last(session, R"({"do":"step"})");
    BOOST_TEST(bench_of(frame).at("settings").as_object().empty());
    BOOST_TEST(bench_of(frame).at("levers").as_object().empty());
}

BOOST_AUTO_TEST_CASE(a_page_without_a_run_is_told_so) {
    Session session(shelf(), desk());
    BOOST_TEST(is(last(session, R"({"do":"step"})")) == "error");
    BOOST_TEST(session.pass(1.0).empty());
}

// Wishes with bytes changed, cut, doubled: each is answered, none ends the program.
BOOST_AUTO_TEST_CASE(noise_is_answered) {
    Session session = opened();
    const std::vector<std::string> wishes{
        R"({"do":"move","kind":"lever","name":"passing_cloud","to":"90 %","over_s":30})",
        R"({"do":"jump","to_s":3600})",
        R"({"do":"wiring","wanted":true})",
        R"({"do":"course","signal":"air_c","from_s":0,"to_s":100,"points":10})",
        R"({"do":"fork","at_s":5,"moves":[{"kind":"wire","name":"collector.state","to":"open"}]})",
        R"({"do":"move","kind":"setting","name":"window_1_from","to":"06:30"})",
        R"({"do":"save"})"};
    const plant::RandomStream stream = plant::random_stream(1, "noise at the live bench");
    std::uint64_t drawn = 0;
    const auto below = [&](std::size_t n) {
        return static_cast<std::size_t>(plant::random_uniform(stream, drawn++) *
                                        static_cast<double>(n));
    };
    for (int round = 0; round < 1500; ++round) {
        std::string text = wishes[below(wishes.size())];
        for (std::size_t changes = below(4); changes > 0; --changes) {
            const std::size_t at = below(text.size());
            switch (below(4)) {
                case 0:
                    text[at] = static_cast<char>(below(256));
                    break;
                case 1:
                    text.erase(at, 1 + below(6));
                    break;
                case 2:
                    text.insert(at, text.substr(below(text.size()), 8));
                    break;
                default:
                    text.insert(at, 1, "\"{}[]:,0-9eE\\"[below(13)]);
                    break;
            }
            if (text.empty()) break;
        }
        for (const std::string& answer : session.take(text)) {
            BOOST_TEST_REQUIRE(json::parse(answer).as_object().contains("is"));
        }
        static_cast<void>(session.pass(0.02));
    }
}

BOOST_AUTO_TEST_CASE(who_comes_to_look_later_sees_what_came_before) {
    Session session = opened();
    std::vector<std::string> events;
    static_cast<void>(session.take(R"({"do":"jump","to_s":50000})"));
    while (session.moves()) {
        for (const std::string& text : session.pass(0.1)) {
            const json::object said = json::parse(text).as_object();
            if (is(said) != "frame") continue;
            for (const json::value& event : bench_of(said).at("events").as_array()) {
                events.push_back(json::serialize(event));
            }
        }
    }
    const auto seen = [&] {
        return bench_of(json::parse(session.picture().back()).as_object()).as_object();
    };
    const json::object bench = seen();
    const json::array& rows = bench.at("rows").as_array();
    BOOST_TEST(rows.size() > 180U);
    BOOST_TEST(rows.size() <= 360U);
    BOOST_TEST(rows.front().at(0).to_number<int>() < 300);
    BOOST_TEST(rows.back().at(0).to_number<int>() > 49700);
    BOOST_TEST(bench.at("events_from").to_number<int>() == 0);
    std::vector<std::string> told;
    for (const json::value& event : bench.at("events").as_array()) {
        told.push_back(json::serialize(event));
    }
    BOOST_TEST(events.size() > 5U);
    BOOST_TEST(std::equal(events.rbegin(), events.rend(), told.rbegin()));

    static_cast<void>(session.take(R"({"do":"jump","to_s":30000})"));
    const json::object back = seen();
    BOOST_TEST(back.at("rows").as_array().back().at(0).to_number<int>() <= 30000);
    for (const json::value& event : back.at("events").as_array()) {
        BOOST_TEST(event.at("at_s").to_number<int>() <= 30000);
    }
}

BOOST_AUTO_TEST_SUITE_END()
