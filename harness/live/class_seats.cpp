// SPDX-License-Identifier: MIT
#include "class_seats.hpp"

#include "class_secrets.hpp"
#include "seat_name.hpp"

#include "harness/scenario/problem.hpp"

#include <algorithm>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr double at_work_s = 300.0;  // after the last message, somebody is still at it

json::object record_json(const SeatRecord& record) {
    json::array answers;
    for (const auto& [step, each] : record.answers) {
        answers.emplace_back(
            json::object{{"step", step},
                         {"question", each.question},
                         {"unit", each.unit},
                         {"answer", each.answer},
                         {"right", each.right ? json::value(*each.right) : json::value()}});
    }
    return {{"title", record.title},        {"seconds", record.seconds},
            {"step", record.step},          {"steps", record.steps},
            {"asked", record.asked},        {"right", record.right},
            {"tasks", record.tasks},        {"tasks_met", record.tasks_met},
            {"hunts", record.hunts},        {"hunts_right", record.hunts_right},
            {"answers", std::move(answers)}};
}

SeatRecord record_of(const json::object& kept) {
    const auto whole = [&](std::string_view key) { return kept.at(key).to_number<int>(); };
    SeatRecord record{std::string(kept.at("title").as_string()),
                      kept.at("seconds").to_number<double>(),
                      whole("step"),
                      whole("steps"),
                      whole("asked"),
                      whole("right"),
                      whole("tasks"),
                      whole("tasks_met"),
                      whole("hunts"),
                      whole("hunts_right"),
                      {}};
    for (const json::value& item : kept.at("answers").as_array()) {
        const json::object& each = item.as_object();
        const json::value& right = each.at("right");
        record.answers[each.at("step").to_number<int>()] = {
            std::string(each.at("question").as_string()), std::string(each.at("unit").as_string()),
            std::string(each.at("answer").as_string()),
            right.is_null() ? std::optional<bool>() : std::optional<bool>(right.as_bool())};
    }
    return record;
}

void enter(SeatRecord& record, const SessionGlance& glance) {
    record.title = glance.title;
    record.step = glance.step.value_or(0);
    record.steps = glance.steps.value_or(0);
    record.asked = glance.asked;
    record.right = glance.right;
    record.tasks = glance.tasks;
    record.tasks_met = glance.tasks_met;
    record.hunts = glance.hunts;
    record.hunts_right = glance.hunts_right;
    if (!glance.question || !glance.question->answer) return;
    const GlanceQuestion& asked = *glance.question;
    record.answers[asked.step] = {asked.question, asked.unit, *asked.answer, asked.right};
}

}  // namespace

Seat* seat_named(const Seats& seats, std::string_view name) {
    const std::string folded = folded_name(name);
    const auto seat = std::find_if(seats.begin(), seats.end(), [&](const auto& each) {
        return folded_name(each->name) == folded;
    });
    return seat != seats.end() ? seat->get() : nullptr;
}

Seat* seat_with_ticket(const Seats& seats, std::string_view ticket) {
    Seat* found = nullptr;
    for (const auto& each : seats) {  // all of them, whichever it is
        if (is_same_secret(ticket, each->ticket)) found = each.get();
    }
    return found;
}

void look_at(Seat& seat, double now_s, double seconds) {
    if (!seat.bench) return;
    seat.glance = seat.bench->glance();
    if (seat.glance.path.empty()) return;
    SeatRecord& record = seat.records[seat.glance.path];
    enter(record, seat.glance);
    if (seat.line && now_s - seat.heard_s < at_work_s) {
        record.seconds += seconds;
        seat.unsaved = true;
    }
}

KeptSeat kept_seat(const Seat& seat) {
    json::object records;
    for (const auto& [path, record] : seat.records) records[path] = record_json(record);
    json::object bench = seat.bench ? seat.bench->kept() : json::object();
    if (bench.empty()) bench = seat.kept;
    return {seat.name, seat.ticket, json::serialize(bench), json::serialize(records)};
}

std::unique_ptr<Seat> seat_kept(const KeptSeat& kept) {
    auto seat = std::make_unique<Seat>();
    seat->name = kept.name;
    seat->ticket = kept.ticket;
    try {
        seat->kept = json::parse(kept.bench).as_object();
        const json::value records = json::parse(kept.records);
        for (const auto& [path, record] : records.as_object()) {
            seat->records[std::string(path)] = record_of(record.as_object());
        }
    } catch (const std::exception& error) {
        throw InputRefused({{"", 0, 0, "the seat of " + kept.name + " is no good: " + error.what(),
                             "one that this program has kept"}});
    }
    if (const json::value* path = seat->kept.if_contains("path"); path && path->is_string()) {
        seat->glance.path = path->get_string();
        const auto record = seat->records.find(seat->glance.path);
        if (record != seat->records.end()) seat->glance.title = record->second.title;
    }
    return seat;
}

}  // namespace noonbench::harness
