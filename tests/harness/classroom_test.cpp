// SPDX-License-Identifier: MIT
// Who may do what in a class, and what everybody is told.
#include "fake_room.hpp"

#include "harness/live/class_secrets.hpp"
#include "harness/live/class_told.hpp"
#include "harness/live/seat_name.hpp"

#include <regex>
#include <set>

BOOST_AUTO_TEST_SUITE(classroom)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

const json::object open_day{{"do", "open"}, {"path", "days/clear_spring_day"}};

json::object seat_of(FakeRoom& room, LineId trainer, std::string_view name) {
    const json::object state = room.last(trainer, "class_state");
    for (const json::value& seat : state.at("seats").as_array()) {
        if (seat.at("seat").as_string() == name) return seat.as_object();
    }
    return {};
}

}  // namespace

BOOST_AUTO_TEST_CASE(words_and_secrets_are_drawn_in_their_form) {
    std::set<std::string> words;
    std::set<std::string> secrets;
    std::set<std::string> tickets;
    for (int i = 0; i < 200; ++i) {
        words.insert(drawn_class_word());
        secrets.insert(drawn_secret());
        tickets.insert(drawn_ticket());
        BOOST_TEST(std::regex_match(drawn_class_word(), std::regex("[a-z]+-[a-z]+-[1-9][0-9]")));
        BOOST_TEST(std::regex_match(
            drawn_secret(), std::regex("[2-9A-HJ-NP-Z]{4}-[2-9A-HJ-NP-Z]{4}-[2-9A-HJ-NP-Z]{4}")));
    }
    BOOST_TEST(words.size() > 190U);
    BOOST_TEST(secrets.size() == 200U);
    BOOST_TEST(tickets.size() == 200U);
    BOOST_TEST(is_same_typed(" Copper valley-27", "copper-valley-27"));
    BOOST_TEST(!is_same_typed("copper-valley-2", "copper-valley-27"));
    BOOST_TEST(!is_same_typed("", ""));
    BOOST_TEST(!is_same_secret("abc", "abd"));
}

BOOST_AUTO_TEST_CASE(names_are_trimmed_counted_in_characters_and_seen) {
    BOOST_TEST(understood_seat_name("  Änne Müller\u00a0").value.value_or("") == "Änne Müller");
    BOOST_TEST(understood_seat_name("ääääääääääääääääääääääää").value.has_value());
    BOOST_TEST(!understood_seat_name("äääääääääääääääääääääääää").value.has_value());
    for (const std::string_view bad :
         {std::string_view(""), std::string_view("   "), std::string_view("a\nb"),
          std::string_view("a\0b", 3), std::string_view("a\u202eb"), std::string_view("a\u200bb"),
          std::string_view("a\u2066b"), std::string_view("\ufeff"), std::string_view("a\x7f"),
          std::string_view("a\xff"), std::string_view("a\u00adb"), std::string_view("a\u2028b")}) {
        const auto name = understood_seat_name(bad);
        BOOST_TEST(!name.value.has_value(), bad);
        BOOST_TEST(!name.what.empty());
    }
    BOOST_TEST(folded_name("ÄNNE") == folded_name("änne"));
    BOOST_TEST(folded_name("Anna") != folded_name("Anne"));
}

BOOST_AUTO_TEST_CASE(only_the_secret_opens_a_class) {
    FakeRoom room;
    const LineId line = room.enter();
    BOOST_TEST(room.refuses(line, {{"do", "class_open"}, {"secret", "ABCD-EFGH-JKLN"}}));
    BOOST_TEST(room.refuses(line, {{"do", "class_hold"}, {"held", true}}));
    BOOST_TEST(!room.room->has_class());
    const auto told =
        room.say(line, {{"do", "class_open"}, {"secret", "abcdefghjklm"}, {"title", "Group"}});
    BOOST_TEST_REQUIRE(told.size() >= 2U);
    BOOST_TEST(is(told[0]) == "class");
    BOOST_TEST(told[0].at("address").as_string() == "http://192.0.2.7:8070/");
    BOOST_TEST(is(told[1]) == "class_state");
    // a second one enters the same class
    const LineId other = room.enter();
    const json::object entered =
        room.first(other, {{"do", "class_open"}, {"secret", fake_secret}, {"title", "Other"}});
    BOOST_TEST(entered.at("title").as_string() == "Group");
    BOOST_TEST(entered.at("word").as_string() == told[0].at("word").as_string());
    BOOST_TEST(room.count(other, "class_state") == 1U);
}

BOOST_AUTO_TEST_CASE(on_a_network_a_visitor_joins_first) {
    FakeRoom room;
    const LineId early = room.enter();
    const json::object before = room.last(early, "welcome");
    BOOST_TEST(before.at("class").at("open").as_bool() == false);
    BOOST_TEST(before.at("class").at("must_join").as_bool());
    BOOST_TEST(before.at("shelf").as_array().empty());
    BOOST_TEST(room.refuses(early, open_day));
    room.class_of();
    BOOST_TEST(room.last(early, "welcome").at("class").at("open").as_bool());
    BOOST_TEST(room.refuses(early, {{"do", "join"}, {"word", "none-of-it-11"}, {"seat", "A"}}));
    const auto told = room.say(early, {{"do", "join"}, {"word", room.word}, {"seat", "Anna"}});
    BOOST_TEST_REQUIRE(told.size() == 2U);
    BOOST_TEST(is(told[0]) == "seated");
    BOOST_TEST(told[0].at("ticket").as_string().size() == 32U);
    BOOST_TEST(is(told[1]) == "welcome");
    BOOST_TEST(told[1].at("shelf").as_array().size() == whole_shelf().items().size());
    BOOST_TEST(is(room.first(early, open_day)) == "opened");
    BOOST_TEST(room.refuses(early, {{"do", "join"}, {"word", room.word}, {"seat", "Ben"}}));
    BOOST_TEST(room.refuses(early, {{"do", "class_end"}}));
}

BOOST_AUTO_TEST_CASE(alone_nobody_must_join_and_a_run_comes_along_to_the_seat) {
    FakeRoom room(false);
    const LineId line = room.enter();
    BOOST_TEST(!room.last(line, "welcome").at("shelf").as_array().empty());
    BOOST_TEST(is(room.first(line, open_day)) == "opened");
    const LineId trainer = room.class_of();
    BOOST_TEST(is(room.first(line, {{"do", "join"}, {"word", room.word}, {"seat", "Anna"}})) ==
               "seated");
    BOOST_TEST(is(room.first(line, {{"do", "step"}})) == "frame");
    BOOST_TEST(is(room.first(trainer, {{"do", "class_end"}})) == "class_over");
    BOOST_TEST(room.count(line, "class_over") == 1U);
    BOOST_TEST(is(room.first(line, {{"do", "step"}})) == "frame");  // and goes home with its page
}

BOOST_AUTO_TEST_CASE(a_name_is_nobodys_but_one_and_comes_back_as_data) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const std::string sharp = "<script>\"',=x</script>";
    room.join(sharp);
    room.join("=HYPERLINK(1;\"x\")");
    room.join("Änne");
    const LineId line = room.enter();
    for (const char* taken : {"änne", " ÄNNE ", "<SCRIPT>\"',=x</script>"}) {
        BOOST_TEST(room.refuses(line, {{"do", "join"}, {"word", room.word}, {"seat", taken}}));
    }
    room.pass(1.1);
    BOOST_TEST(!seat_of(room, trainer, sharp).empty());
    const json::object marks = room.first(trainer, {{"do", "class_marks"}});
    BOOST_TEST(marks.at("name").as_string() == "marks_tuesday_group.csv");
    const std::string csv(marks.at("csv").as_string());
    BOOST_TEST(csv.find("\r\n\"<script>\"\"',=x</script>\",") != std::string::npos, csv);
    BOOST_TEST(csv.find("\r\n\"'=HYPERLINK(1;\"\"x\"\")\",") != std::string::npos, csv);
    for (const char* formula : {"=", "+", "-", "@", "\uFF1D"}) {
        Seats seats;
        seats.push_back(std::make_unique<Seat>());
        seats.back()->name = std::string(formula) + "1+1";
        BOOST_TEST(class_marks(seats).find("\r\n'" + seats.back()->name) != std::string::npos);
    }
    BOOST_TEST(marks_file_name("../../Größe: \"x\"") == "marks_gr_e_x.csv");
    BOOST_TEST(marks_file_name("___") == "marks.csv");
}

BOOST_AUTO_TEST_CASE(sixty_seats_and_no_more) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    for (int i = 0; i < 60; ++i) room.join("seat " + std::to_string(i));
    const LineId late = room.enter();
    BOOST_TEST(room.refuses(late, {{"do", "join"}, {"word", room.word}, {"seat", "one more"}}));
    room.say(trainer, {{"do", "class_dismiss"}, {"seat", "SEAT 7"}});
    BOOST_TEST(!room.refuses(late, {{"do", "join"}, {"word", room.word}, {"seat", "one more"}}));
}

BOOST_AUTO_TEST_CASE(guessing_shuts_the_line_and_slows_everybody) {
    FakeRoom room;
    room.class_of();
    const LineId guesser = room.enter();
    const json::object wrong{{"do", "join"}, {"word", "wrong-word-10"}, {"seat", "A"}};
    for (int i = 0; i < 5; ++i) BOOST_TEST(room.refuses(guesser, wrong));
    BOOST_TEST(!room.lines.hung_up.contains(guesser));
    BOOST_TEST(room.refuses(guesser, wrong));
    BOOST_TEST(room.lines.hung_up.contains(guesser));
    room.leave(guesser);
    const LineId second = room.enter();
    const json::object right{{"do", "join"}, {"word", room.word}, {"seat", "Anna"}};
    room.now_s += 1.0;
    BOOST_TEST(room.refuses(second, wrong));
    const json::object at_once = room.first(second, right);  // within the same second
    BOOST_TEST(is(at_once) == "error");
    BOOST_TEST(at_once.at("what").as_string().find("one try a second") != std::string::npos);
    room.now_s += 1.0;
    BOOST_TEST(is(room.first(second, right)) == "seated");
    room.now_s += 700.0;  // it is forgotten in the end
    const LineId third = room.enter();
    BOOST_TEST(room.refuses(third, wrong));
    BOOST_TEST(!room.refuses(third, {{"do", "join"}, {"word", room.word}, {"seat", "Ben"}}));
}

BOOST_AUTO_TEST_CASE(a_ticket_takes_the_seat_over) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId old_page = room.join("Anna");
    room.say(old_page, open_day);
    room.say(old_page, {{"do", "jump"}, {"to_s", 30000}});
    room.pass(1.0);
    const LineId new_page = room.enter();
    BOOST_TEST(room.refuses(new_page, {{"do", "rejoin"}, {"ticket", "0123"}}));
    const auto told = room.say(new_page, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
    std::vector<std::string> kinds;
    for (const json::object& each : told) kinds.push_back(is(each));
    const std::vector<std::string> wanted{"seated", "welcome", "opened", "sun", "frame"};
    BOOST_TEST(kinds == wanted, boost::test_tools::per_element());
    BOOST_TEST(told.back().at("at_s").to_number<int>() == 30000);
    BOOST_TEST(room.lines.hung_up.contains(old_page));
    BOOST_TEST(room.count(old_page, "taken_over") == 1U);
    BOOST_TEST(room.refuses(old_page, {{"do", "step"}}));  // it sits there no longer
    BOOST_TEST(is(room.first(new_page, {{"do", "step"}})) == "frame");
    room.leave(old_page);  // later than the takeover: the seat stays taken
    room.pass(1.1);
    BOOST_TEST(seat_of(room, trainer, "Anna").at("here").as_bool());
}

BOOST_AUTO_TEST_CASE(a_seat_stands_still_while_its_laptop_sleeps) {
    FakeRoom room;
    room.class_of();
    const LineId line = room.join("Anna");
    room.say(line, open_day);
    room.say(line, {{"do", "pace"}, {"times", 60}});
    room.pass(2.0);
    const auto at_s = room.last(line, "frame").at("at_s").to_number<int>();
    BOOST_TEST(at_s > 100);
    room.leave(line);
    room.pass(10.0);
    const LineId back = room.enter();
    const auto told = room.say(back, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}});
    BOOST_TEST(told.back().at("at_s").to_number<int>() == at_s);
    room.pass(1.0);
    BOOST_TEST(room.last(back, "frame").at("at_s").to_number<int>() >= at_s + 50);
}

BOOST_AUTO_TEST_CASE(held_time_stands) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    room.say(anna, {{"do", "pace"}, {"times", 60}});
    room.pass(1.0);
    room.say(trainer, {{"do", "class_hold"}, {"held", true}});
    BOOST_TEST(room.last(anna, "held").at("held").as_bool());
    room.pass(0.2);
    const auto at_s = room.last(anna, "frame").at("at_s").to_number<int>();
    room.pass(3.0);
    BOOST_TEST(room.last(anna, "frame").at("at_s").to_number<int>() == at_s);
    for (const json::object& wish :
         {json::object{{"do", "pace"}, {"times", 600}}, json::object{{"do", "step"}},
          json::object{{"do", "jump"}, {"to_s", 1}},
          json::object{{"do", "jump"}, {"to", "event"}}}) {
        const json::object told = room.first(anna, wish);
        BOOST_TEST(is(told) == "error");
        BOOST_TEST(told.at("what").as_string() == "the trainer holds time");
    }
    const LineId ben = room.enter();
    const json::object seated =
        room.first(ben, {{"do", "join"}, {"word", room.word}, {"seat", "Ben"}});
    BOOST_TEST(seated.at("held").as_bool());
    room.say(ben, open_day);
    BOOST_TEST(room.refuses(ben, {{"do", "step"}}));
    room.say(trainer, {{"do", "class_hold"}, {"held", false}});
    room.pass(1.0);
    BOOST_TEST(room.last(anna, "frame").at("at_s").to_number<int>() >= at_s + 50);
}

BOOST_AUTO_TEST_CASE(a_projector_sees_who_is_shown) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    const LineId wall = room.enter();
    BOOST_TEST(room.refuses(wall, {{"do", "project"}, {"secret", "x"}}));
    const auto told = room.say(wall, {{"do", "project"}, {"secret", fake_secret}});
    BOOST_TEST_REQUIRE(told.size() == 2U);
    BOOST_TEST(told[0].at("word").as_string() == room.word);
    BOOST_TEST(told[1].at("seat").is_null());
    room.pass(0.5);
    BOOST_TEST(room.count(wall, "frame") == 0U);
    room.say(trainer, {{"do", "class_show"}, {"seat", "Anna"}});
    BOOST_TEST(room.last(wall, "showing").at("seat").as_string() == "Anna");
    BOOST_TEST(room.count(wall, "opened") == 1U);
    room.say(anna, {{"do", "pace"}, {"times", 60}});
    room.pass(1.0);
    BOOST_TEST(room.last(wall, "frame") == room.last(anna, "frame"));
    room.say(anna, {{"do", "fly"}});
    room.say(anna, {{"do", "save"}});
    BOOST_TEST(room.count(wall, "error") == 1U);  // its own wrong secret
    BOOST_TEST(room.count(wall, "saved") == 0U);
    BOOST_TEST(room.refuses(wall, {{"do", "step"}}));
    // a projector that falls behind is told no more until it has caught up, then all anew
    room.lines.behind[wall] = 40;
    room.pass(1.0);
    const std::size_t frames = room.count(wall, "frame");
    room.pass(1.0);
    BOOST_TEST(room.count(wall, "frame") == frames);
    room.lines.behind.clear();
    room.pass(0.3);
    BOOST_TEST(room.count(wall, "opened") == 2U);
    BOOST_TEST(room.count(wall, "frame") > frames);
    room.say(trainer, {{"do", "class_show"}, {"seat", nullptr}});
    BOOST_TEST(room.last(wall, "showing").at("seat").is_null());
    BOOST_TEST(room.refuses(trainer, {{"do", "class_show"}, {"seat", "Zoe"}}));
}

BOOST_AUTO_TEST_CASE(a_slow_page_loses_no_time) {
    FakeRoom room;
    room.class_of();
    const LineId line = room.join("Anna");
    room.say(line, open_day);
    room.say(line, {{"do", "pace"}, {"times", 60}});
    room.pass(1.0);
    const auto at_s = room.last(line, "frame").at("at_s").to_number<int>();
    room.lines.behind[line] = 1;
    room.pass(5.0);
    BOOST_TEST(room.last(line, "frame").at("at_s").to_number<int>() == at_s);
    room.lines.behind.clear();
    room.pass(0.15);
    BOOST_TEST(room.last(line, "frame").at("at_s").to_number<int>() <= at_s + 42);
}

BOOST_AUTO_TEST_CASE(the_trainer_sees_who_is_stuck) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    room.say(anna, open_day);
    room.say(anna, {{"do", "jump"}, {"to_s", 43200}});
    room.pass(2.0);
    const json::object seat = seat_of(room, trainer, "Anna");
    BOOST_TEST(seat.at("path").as_string() == "days/clear_spring_day");
    BOOST_TEST(seat.at("clock").as_string() == "12:00");
    BOOST_TEST(seat.at("step").is_null());
    BOOST_TEST(seat.at("collector_c").to_number<double>() > 20.0);
    BOOST_TEST(!seat.at("stuck").as_bool());
    for (int i = 0; i < 2; ++i) room.say(anna, {{"do", "fly"}});
    room.pass(1.1);
    BOOST_TEST(!seat_of(room, trainer, "Anna").at("stuck").as_bool());
    room.say_text(anna, "no JSON");
    room.pass(1.1);
    BOOST_TEST(seat_of(room, trainer, "Anna").at("stuck").as_bool());
    room.say(anna, {{"do", "step"}});
    room.pass(1.1);
    BOOST_TEST(!seat_of(room, trainer, "Anna").at("stuck").as_bool());
    const std::size_t told = room.count(trainer, "class_state");
    room.pass(8.0);  // nothing happens: at most the tens of idle seconds are told
    BOOST_TEST(room.count(trainer, "class_state") <= told + 1);
}

BOOST_AUTO_TEST_CASE(a_class_that_is_over_is_over) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    const LineId wall = room.enter();
    room.say(wall, {{"do", "project"}, {"secret", fake_secret}});
    room.say(trainer, {{"do", "class_end"}});
    for (const LineId line : {trainer, anna, wall})
        BOOST_TEST(room.count(line, "class_over") == 1U);
    BOOST_TEST(!room.room->has_class());
    BOOST_TEST(!room.keeper.of_class.has_value());
    BOOST_TEST(room.refuses(anna, open_day));
    BOOST_TEST(room.refuses(anna, {{"do", "rejoin"}, {"ticket", room.tickets["Anna"]}}));
    BOOST_TEST(room.refuses(trainer, {{"do", "class_hold"}, {"held", true}}));
    room.class_of("again");
}

BOOST_AUTO_TEST_CASE(a_class_that_cannot_be_kept_is_not_opened_and_goes_on_when_it_fails_later) {
    FakeRoom room;
    room.keeper.fails = true;
    const LineId line = room.enter();
    BOOST_TEST(room.refuses(line, {{"do", "class_open"}, {"secret", fake_secret}}));
    room.keeper.fails = false;
    const LineId trainer = room.class_of();
    room.keeper.fails = true;
    const LineId anna = room.join("Anna");
    BOOST_TEST(is(room.first(anna, open_day)) == "opened");
    BOOST_TEST(room.count(trainer, "error") == 1U);  // told once
}

BOOST_AUTO_TEST_CASE(the_trainers_sheet_is_the_trainers) {
    FakeRoom room;
    const LineId trainer = room.class_of();
    const LineId anna = room.join("Anna");
    const json::object wish{{"do", "instructor_sheet"}, {"path", "lessons/01_what_it_compares"}};
    BOOST_TEST(room.refuses(anna, wish));
    const json::object sheet = room.first(trainer, wish);
    BOOST_TEST(sheet.at("name").as_string() == "01_what_it_compares_instructor.html");
    BOOST_TEST(
        room.refuses(trainer, {{"do", "instructor_sheet"}, {"path", "../01_what_it_compares"}}));
}

// On one computer nobody must join; who does is led back to the shelf.
BOOST_AUTO_TEST_CASE(who_joins_of_his_own_will_is_shown_the_shelf) {
    FakeRoom room(false);
    room.class_of();
    const LineId anna = room.join("Anna");
    const json::object& newest = room.lines.said.at(anna).back();
    BOOST_TEST_REQUIRE(newest.at("is").as_string() == "welcome");
    BOOST_TEST(!newest.at("shelf").as_array().empty());
}

BOOST_AUTO_TEST_SUITE_END()
