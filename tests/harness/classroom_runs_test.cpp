// SPDX-License-Identifier: MIT
// The runs of a class: sent by the trainer, sealed, kept and found again; and noise.
#include "fake_room.hpp"
#include "short_form.hpp"

#include "plant/random.hpp"

#include "harness/scenario/problem.hpp"

#include <string>
#include <utility>

BOOST_AUTO_TEST_SUITE(classroom_runs)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

const json::object open_day{{"do", "open"}, {"path", "days/clear_spring_day"}};

/// Everything a line was told from there on, as text.
std::string told_of(FakeRoom& room, LineId line, std::size_t from) {
    std::string text;
    const auto& all = room.lines.said[line];
    for (std::size_t i = from; i < all.size(); ++i) text += json::serialize(all[i]) + '\n';
    return text;
}

std::string run_to_its_end(FakeRoom& room, LineId line, const std::function<void()>& open) {
    const std::size_t from = room.lines.said[line].size();
    open();
    room.say(line, {{"do", "jump"}, {"to_s", 86400}});
    for (int i = 0; i < 400; ++i) {
        room.pass(0.1);
        if (!room.last(line, "frame").at("jumping").as_bool()) break;
    }
    return told_of(room, line, from);
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_the_trainer_sends_is_on_the_bench) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    const LineId ben = room.join("Ben");
    BOOST_TEST(room.refuses(
        trainer,
        {{"do", "class_send"}, {"path", "faults/no_such"}, {"to", nullptr}, {"sealed", false}}));
    room.say(trainer, {{"do", "class_send"},
                       {"path", "days/clear_spring_day"},
                       {"to", nullptr},
                       {"sealed", false}});
    for (const LineId line : {anna, ben}) {
        const json::object opened = room.last(line, "opened");
        BOOST_TEST(opened.at("sent").as_bool());
        BOOST_TEST(!opened.at("hidden").as_bool());
        BOOST_TEST(opened.at("path").as_string() == "days/clear_spring_day");
    }
    room.say(
        trainer,
        {{"do", "class_send"}, {"path", "faults/pressure_lost"}, {"to", "Ben"}, {"sealed", true}});
    BOOST_TEST(room.count(anna, "opened") == 1U);
    const json::object sealed = room.last(ben, "opened");
    BOOST_TEST(sealed.at("title").as_string() == "A house with something wrong");
    BOOST_TEST(sealed.at("path").as_string() == "");
    BOOST_TEST(sealed.at("hidden").as_bool());
    BOOST_TEST(room.refuses(ben, {{"do", "save"}}));
    room.pass(1.1);
    // the trainer knows
    const json::object state = room.last(trainer, "class_state");
    BOOST_TEST(state.at("seats").at(1).at("path").as_string() == "faults/pressure_lost");
}

// For each fault on the shelf: what a page is told of the sealed run holds neither its name, nor
// its title, nor any move or lever. The same run unsealed does, for most of them: the test can
// fail.
BOOST_AUTO_TEST_CASE(a_sealed_run_does_not_tell) {
    FakeRoom room(false);
    const LineId line = room.enter();
    std::size_t open_told = 0;
    std::size_t faults = 0;
    const std::size_t one_in = is_short_form() ? 32 : 8;  // time
    for (const ShelfItem& item : whole_shelf().items()) {
        if (item.kind != "fault" || ++faults % one_in != 1) continue;
        const auto open = [&](bool hidden) {
            return run_to_its_end(room, line, [&] {
                room.say(line, {{"do", "open"}, {"path", item.path}, {"hidden", hidden}});
            });
        };
        const std::string title = json::serialize(json::string(item.title));
        std::string told = open(true);
        BOOST_TEST(told.find(title) == std::string::npos, item.path);
        BOOST_TEST(told.find(R"("what":"lever")") == std::string::npos, item.path);
        BOOST_TEST(told.find(R"("what":"wire")") == std::string::npos, item.path);
        const json::object frame = room.last(line, "frame");
        BOOST_TEST(frame.at("benches").at(0).at("levers").as_object().empty(), item.path);
        for (std::size_t at = told.find(R"("what":"setting")"); at != std::string::npos;
             at = told.find(R"("what":"setting")", at + 1)) {
            const std::size_t end = told.find('}', at);
            BOOST_TEST(told.substr(at, end - at).find(R"("because":"")") != std::string::npos);
        }
        told = open(false);
        BOOST_TEST(told.find(title) != std::string::npos, item.path);
        const json::object plain = room.last(line, "frame");
        if (!plain.at("benches").at(0).at("levers").as_object().empty() ||
            told.find(R"("what":"lever")") != std::string::npos ||
            told.find(R"("what":"wire")") != std::string::npos) {
            ++open_told;
        }
    }
    BOOST_TEST(faults > 60U);
    BOOST_TEST(open_told > 1U);
}

BOOST_AUTO_TEST_CASE(a_sealed_run_is_the_same_run) {
    FakeRoom room(false);
    const LineId line = room.enter();
    const auto end_of = [&](bool hidden) {
        static_cast<void>(run_to_its_end(room, line, [&] {
            room.say(line, {{"do", "open"}, {"path", "faults/pressure_lost"}, {"hidden", hidden}});
        }));
        return room.last(line, "frame").at("benches").at(0).at("now");
    };
    BOOST_TEST(json::serialize(end_of(true)) == json::serialize(end_of(false)));
}

// A program that was started anew: the same word, tickets, moves, places, both mornings.
BOOST_AUTO_TEST_CASE(a_kept_class_stands_where_it_stood) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    room.say(anna, {{"do", "jump"}, {"to_s", 30000}});
    room.pass(2.0);
    room.say(anna,
             {{"do", "move"}, {"kind", "setting"}, {"name", "start_difference"}, {"to", "15 K"}});
    room.say(anna, {{"do", "move"},
                    {"kind", "lever"},
                    {"name", "passing_cloud"},
                    {"to", "90 %"},
                    {"over_s", 30}});
    room.say(anna, {{"do", "jump"}, {"to_s", 40000}});
    room.pass(2.0);
    room.say(anna,
             {{"do", "fork"},
              {"at_s", 35000},
              {"moves", json::array{json::object{
                            {"kind", "setting"}, {"name", "stop_difference"}, {"to", "3 K"}}}}});
    room.say(anna, {{"do", "jump"}, {"to_s", 50000}});
    room.pass(2.0);
    room.say(trainer, {{"do", "class_hold"}, {"held", true}});
    room.say(trainer, {{"do", "class_show"}, {"seat", "Anna"}});
    room.pass(0.2);
    json::object before = room.last(anna, "frame");
    BOOST_TEST_REQUIRE(before.at("benches").as_array().size() == 2U);
    const std::string old_word = room.word;
    room.pass(6.0);  // that nobody decided is saved as it goes
    room.begin();

    BOOST_TEST_REQUIRE(room.room->has_class());
    const LineId new_trainer = room.class_of();
    BOOST_TEST(room.word == old_word);
    BOOST_TEST(room.last(new_trainer, "class_state").at("held").as_bool());
    BOOST_TEST(room.last(new_trainer, "class_state").at("shown").as_string() == "Anna");
    const LineId back = room.enter();
    const auto told = room.say(back, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
    BOOST_TEST(is(told.front()) == "seated");
    BOOST_TEST(is(told.back()) == "frame");
    room.pass(3.0);  // catches up, though time is held
    const json::object after = room.last(back, "frame");
    BOOST_TEST(after.at("at_s").to_number<int>() == 50000);
    for (std::size_t side = 0; side < 2; ++side) {
        for (const char* part : {"now", "pump", "settings", "levers", "advice", "needle"}) {
            BOOST_TEST(json::serialize(after.at("benches").at(side).at(part)) ==
                       json::serialize(before.at("benches").at(side).at(part)));
        }
    }
    // what was decided after the restart is decided on top of it
    room.say(new_trainer, {{"do", "class_hold"}, {"held", false}});
    BOOST_TEST(is(room.say(back, {{"do", "step"}}).back()) == "frame");
}

BOOST_AUTO_TEST_CASE(while_it_catches_up_nothing_is_decided) {
    FakeRoom room;
    room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, {{"do", "open"}, {"path", "days/hot_idle_august_week"}});
    room.say(anna, {{"do", "jump"}, {"to_s", 200000}});
    room.pass(10.0);
    BOOST_TEST_REQUIRE(room.last(anna, "frame").at("at_s").to_number<int>() == 200000);
    room.pass(6.0);
    room.begin();
    const LineId back = room.enter();
    room.say(back, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
    room.pass(0.2);
    BOOST_TEST(room.last(back, "frame").at("jumping").as_bool());
    const json::object move{
        {"do", "move"}, {"kind", "setting"}, {"name", "start_difference"}, {"to", "15 K"}};
    BOOST_TEST(room.refuses(back, move));
    BOOST_TEST(room.refuses(back, {{"do", "pace"}, {"times", 0}}));
    room.room->keep_all();  // killed once more on the way: it is still to go to the same place
    BOOST_TEST(room.keeper.seats.at("Anna").bench.find("200000") != std::string::npos);
    room.pass(10.0);
    BOOST_TEST(room.last(back, "frame").at("at_s").to_number<int>() == 200000);
    BOOST_TEST(!room.refuses(back, move));
}

BOOST_AUTO_TEST_CASE(every_decision_is_kept_before_it_is_answered) {
    FakeRoom room;
    room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    for (int i = 0; i < 5; ++i) {
        const int writes = room.keeper.writes;
        const std::string to = std::to_string(6 + i) + " K";
        room.say(anna,
                 {{"do", "move"}, {"kind", "setting"}, {"name", "start_difference"}, {"to", to}});
        BOOST_TEST(room.keeper.writes == writes + 1);
        BOOST_TEST(room.keeper.seats.at("Anna").bench.find('"' + to + '"') != std::string::npos);
    }
}

BOOST_AUTO_TEST_CASE(a_run_that_was_kept_for_another_shelf_is_told_and_stays_kept) {
    FakeRoom room;
    room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    std::string& bench = room.keeper.seats.at("Anna").bench;
    bench.replace(bench.find("clear_spring_day"), 16, "clear_summer_day");
    for (int i = 0; i < 2; ++i) {
        room.begin();
        const LineId back = room.enter();
        const auto told = room.say(back, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
        BOOST_TEST(is(told.front()) == "seated");
        BOOST_TEST(is(told.back()) == "error");
        room.pass(6.0);
        BOOST_TEST(room.keeper.seats.at("Anna").bench.find("clear_summer_day") !=
                   std::string::npos);
        if (i == 1) BOOST_TEST(is(room.first(back, open_day)) == "opened");
    }
    room.keeper.seats.at("Anna").records = "[]";
    BOOST_CHECK_THROW(room.begin(), InputRefused);
}

BOOST_AUTO_TEST_CASE(predictions_of_a_class_come_together) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    const LineId ben = room.join("Ben");
    const json::object open_lesson{{"do", "open"}, {"path", "lessons/01_what_it_compares"}};
    for (const LineId line : {anna, ben}) {
        room.say(line, open_lesson);
        const json::object lesson = room.last(line, "lesson");
        const json::array& steps = lesson.at("steps").as_array();
        for (std::size_t i = 0; i < steps.size(); ++i) {
            if (steps[i].at("kind").as_string() == "predict") break;
            room.say(line, {{"do", "lesson_go"}, {"step", i + 1}});
        }
    }
    const json::object state = room.last(anna, "lesson_state");
    const int step = state.at("step").to_number<int>();
    const json::object question =
        room.last(anna, "lesson").at("steps").at(static_cast<std::size_t>(step)).as_object();
    const std::string form(question.at("form").as_string());
    const std::string answer = form == "clock" ? "07:15" : form == "number" ? "7" : "1";
    BOOST_TEST(is(room.first(anna, {{"do", "predict"}, {"step", step}, {"answer", answer}})) ==
               "working");
    room.pass(2.0);
    json::object seen = room.last(trainer, "class_state");
    BOOST_TEST_REQUIRE(seen.at("predictions").as_array().size() == 1U);
    BOOST_TEST(seen.at("predictions").at(0).at("answers").at(0).at("seats").at(0).as_string() ==
               "Anna");
    BOOST_TEST(seen.at("seats").at(0).at("asked").to_number<int>() == 1);
    BOOST_TEST(seen.at("seats").at(1).at("step_kind").as_string() == "predict");
    room.pass(250.0);  // Ben has not answered for more than four minutes, Anna may go on
    seen = room.last(trainer, "class_state");
    BOOST_TEST(!seen.at("seats").at(0).at("stuck").as_bool());
    BOOST_TEST(seen.at("seats").at(1).at("stuck").as_bool());
    // the place in the lesson is kept
    room.begin();
    const LineId back = room.enter();
    room.say(back, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
    BOOST_TEST(room.count(back, "lesson") == 1U);
    const json::object restored = room.last(back, "lesson_state");
    BOOST_TEST(restored.at("step").to_number<int>() == step);
    BOOST_TEST(restored.at("results").at(static_cast<std::size_t>(step)).is_object());
    const LineId again = room.class_of();
    room.pass(1.1);
    BOOST_TEST(room.last(again, "class_state").at("predictions").as_array().size() == 1U);
}

// Wishes of all roles with bytes changed, cut, doubled: each is answered, none ends the program.
BOOST_AUTO_TEST_CASE(noise_in_a_class_is_answered) {
    const plant::RandomStream stream = plant::random_stream(1, "noise in a class");
    std::uint64_t drawn = 0;
    const auto below = [&](std::size_t n) {
        return static_cast<std::size_t>(plant::random_uniform(stream, drawn++) *
                                        static_cast<double>(n));
    };
    FakeRoom room;
    LineId trainer = room.class_of();
    LineId anna = room.join("Anna");
    LineId wall = room.enter();
    room.say(wall, {{"do", "project"}, {"secret", fake_secret}});
    room.say(anna, open_day);
    const auto wishes = [&] {
        return std::vector<std::string>{
            R"({"do":"join","word":")" + room.word + R"(","seat":"Ben"})",
            R"({"do":"rejoin","ticket":")" + room.tickets["Anna"] + R"("})",
            R"({"do":"class_open","secret":"ABCD-EFGH-JKLM","title":"x"})",
            R"({"do":"project","secret":"ABCD-EFGH-JKLM"})",
            R"({"do":"class_hold","held":true})",
            R"({"do":"class_hold","held":false})",
            R"({"do":"class_send","path":"days/clear_spring_day","to":"Anna","sealed":false})",
            R"({"do":"class_show","seat":"Anna"})",
            R"({"do":"class_show","seat":null})",
            R"({"do":"class_marks"})",
            R"({"do":"class_dismiss","seat":"Ben"})",
            R"({"do":"instructor_sheet","path":"lessons/01_what_it_compares"})",
            R"({"do":"step"})"};
    };
    int answered = 0;
    constexpr int rounds = 2000;
    for (int round = 0; round < rounds; ++round) {
        const std::vector<std::string> all = wishes();
        std::string text = all[below(all.size())];
        for (std::size_t changes = 1 + below(3); changes > 0 && !text.empty(); --changes) {
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
        }
        const std::vector<LineId> speakers{trainer, anna, wall, room.enter()};
        const LineId speaker = speakers[below(speakers.size())];
        const std::size_t before = room.lines.said[speaker].size();
        static_cast<void>(room.say_text(speaker, text));
        if (room.lines.said[speaker].size() > before) ++answered;
        room.pass(0.1);
        room.now_s += 2.0;
        if (speakers.back() != trainer) room.leave(speakers.back());
        if (!room.room->has_class()) trainer = room.class_of();
    }
    BOOST_TEST(answered > rounds / 2);
    BOOST_TEST(room.room->seats().size() <= 60U);
}

BOOST_AUTO_TEST_SUITE_END()
