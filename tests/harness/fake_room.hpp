// SPDX-License-Identifier: MIT
// A classroom without sockets or disk: what is said to each line is kept to be looked at.
#pragma once
#include "harness/live/classroom.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness::testing {

namespace json = boost::json;

inline const Shelf& whole_shelf() {
    static const Shelf all(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios");
    return all;
}

inline std::string is(const json::object& message) {
    return std::string(message.at("is").as_string());
}

struct FakeLines final : Lines {
    void say(LineId line, SaidText text) override {
        said[line].push_back(json::parse(*text).as_object());
    }
    [[nodiscard]] std::size_t waiting(LineId line) const override {
        const auto found = behind.find(line);
        return found != behind.end() ? found->second : 0;
    }
    void hang_up(LineId line) override { hung_up.insert(line); }

    std::map<LineId, std::vector<json::object>> said;
    std::map<LineId, std::size_t> behind;
    std::set<LineId> hung_up;
};

struct FakeKeeper final : ClassKeeper {
    [[nodiscard]] std::optional<KeptAll> all() override {
        if (!of_class) return std::nullopt;
        KeptAll everything{*of_class, {}};
        for (const std::string& name : order) everything.seats.push_back(seats.at(name));
        return everything;
    }
    void keep(const KeptClass& kept) override {
        if (fails) throw std::runtime_error("the disk is full");
        of_class = kept;
    }
    void keep(const std::vector<KeptSeat>& kept) override {
        if (fails) throw std::runtime_error("the disk is full");
        for (const KeptSeat& seat : kept) {
            if (!seats.contains(seat.name)) order.push_back(seat.name);
            seats[seat.name] = seat;
            ++writes;
        }
    }
    void forget_seat(const std::string& name) override {
        seats.erase(name);
        std::erase(order, name);
    }
    void forget() override {
        of_class.reset();
        seats.clear();
        order.clear();
    }

    std::optional<KeptClass> of_class;
    std::map<std::string, KeptSeat> seats;
    std::vector<std::string> order;
    int writes = 0;
    bool fails = false;
};

inline constexpr std::string_view fake_secret = "ABCD-EFGH-JKLM";

/// A room with helpers to speak as a page does. Line 1 is the trainer's where class_of() was
/// called.
struct FakeRoom {
    explicit FakeRoom(bool must_join = true) {
        wishes.must_join = must_join;
        wishes.secret = fake_secret;
        wishes.address = "http://192.0.2.7:8070/";
        wishes.new_bench = [this] { return std::make_unique<Session>(whole_shelf(), desk); };
        begin();
    }

    /// As a program does that was started anew.
    void begin() {
        lines.said.clear();
        room = std::make_unique<Classroom>(whole_shelf(), wishes, lines, &keeper);
    }

    LineId enter() {
        room->enter(++last_line, now_s);
        return last_line;
    }

    /// What comes back on that line, in order.
    std::vector<json::object> say(LineId line, const json::object& wish) {
        return say_text(line, json::serialize(wish));
    }
    std::vector<json::object> say_text(LineId line, std::string_view text) {
        const std::size_t before = lines.said[line].size();
        room->take(line, text, now_s);
        while (room->open_next()) {
        }
        const auto& all = lines.said[line];
        return {all.begin() + static_cast<std::ptrdiff_t>(before), all.end()};
    }
    json::object first(LineId line, const json::object& wish) {
        const auto all = say(line, wish);
        BOOST_TEST_REQUIRE(!all.empty(), json::serialize(wish));
        return all.front();
    }
    bool refuses(LineId line, const json::object& wish) { return is(first(line, wish)) == "error"; }

    /// The trainer's line.
    LineId class_of(std::string_view title = "Tuesday group") {
        const LineId line = enter();
        const json::object opened =
            first(line, {{"do", "class_open"}, {"secret", fake_secret}, {"title", title}});
        BOOST_TEST_REQUIRE(is(opened) == "class");
        word = opened.at("word").as_string();
        return line;
    }
    LineId join(std::string_view name) {
        const LineId line = enter();
        const json::object seated = first(line, {{"do", "join"}, {"word", word}, {"seat", name}});
        BOOST_TEST_REQUIRE(is(seated) == "seated", json::serialize(seated));
        tickets[std::string(name)] = seated.at("ticket").as_string();
        return line;
    }
    void leave(LineId line) { room->leave(line); }

    void pass(double seconds) {
        for (double left = seconds; left > 0.0; left -= 0.1) {
            now_s += 0.1;
            for (LineId line = 1; line <= last_line; ++line) room->beat(line, now_s);
            room->pass(now_s);
        }
    }

    /// The last of its kind that a line was told; an empty object where there was none.
    json::object last(LineId line, std::string_view kind) {
        const auto& all = lines.said[line];
        const auto found = std::find_if(all.rbegin(), all.rend(),
                                        [&](const json::object& each) { return is(each) == kind; });
        return found != all.rend() ? *found : json::object();
    }
    std::size_t count(LineId line, std::string_view kind) {
        const auto& all = lines.said[line];
        return static_cast<std::size_t>(std::count_if(
            all.begin(), all.end(), [&](const json::object& each) { return is(each) == kind; }));
    }

    LessonDesk desk;
    RoomWishes wishes;
    FakeLines lines;
    FakeKeeper keeper;
    std::unique_ptr<Classroom> room;
    std::string word;
    std::map<std::string, std::string> tickets;
    LineId last_line = 0;
    double now_s = 1000.0;
};

}  // namespace noonbench::harness::testing
