// SPDX-License-Identifier: MIT
#include "class_told.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr double stuck_after_s = 240.0;
constexpr int stuck_after_errors = 3;
constexpr std::size_t longest_file_stem = 40;

template <class T>
json::value or_null(const std::optional<T>& value) {
    return value ? json::value(*value) : json::value();
}

json::value tenths(const std::optional<double>& value) {
    return value ? json::value(std::round(*value * 10.0) / 10.0) : json::value();
}

bool is_stuck(const Seat& seat, double quiet_s) {
    if (!seat.line) return false;
    return seat.errors_in_a_row >= stuck_after_errors ||
           (seat.glance.unsettled && quiet_s > stuck_after_s);
}

json::object seat_json(const Seat& seat, double now_s) {
    const SessionGlance& glance = seat.glance;
    const double quiet_s = std::max(0.0, now_s - seat.heard_s);
    return {{"seat", seat.name},
            {"here", seat.line.has_value()},
            {"path", glance.path},
            {"title", glance.title},
            {"step", or_null(glance.step)},
            {"steps", or_null(glance.steps)},
            {"step_kind", glance.step_kind},
            {"clock", or_null(glance.clock)},
            {"pump", glance.pump_words},
            {"idle_s", 10 * static_cast<std::int64_t>(quiet_s / 10.0)},
            {"right", glance.right},
            {"asked", glance.asked},
            {"collector_c", tenths(glance.collector_c)},
            {"store_c", tenths(glance.store_c)},
            {"stuck", is_stuck(seat, quiet_s)}};
}

struct ToldAnswer {
    std::vector<std::string> seats;
    std::optional<bool> right;
};

struct ToldQuestion {
    std::string question;
    std::string unit;
    std::map<std::string, ToldAnswer> answers;
};

/// Of everything that is open at some seat, all that was foreseen there.
json::array predictions_json(const Seats& seats) {
    std::map<std::pair<std::string, int>, ToldQuestion> questions;
    for (const auto& seat : seats) {
        const auto record = seat->records.find(seat->glance.path);
        if (record == seat->records.end()) continue;
        for (const auto& [step, given] : record->second.answers) {
            ToldQuestion& question = questions[{record->first, step}];
            question.question = given.question;
            question.unit = given.unit;
            ToldAnswer& answer = question.answers[given.answer];
            answer.seats.push_back(seat->name);
            answer.right = given.right;
        }
    }
    json::array list;
    for (const auto& [place, question] : questions) {
        json::array answers;
        for (const auto& [answer, told] : question.answers) {
            answers.emplace_back(json::object{{"answer", answer},
                                              {"seats", json::value_from(told.seats)},
                                              {"right", or_null(told.right)}});
        }
        list.emplace_back(json::object{{"path", place.first},
                                       {"step", place.second},
                                       {"question", question.question},
                                       {"unit", question.unit},
                                       {"answers", std::move(answers)}});
    }
    return list;
}

/// Also in the wide forms that some spreadsheets take for the same.
bool begins_formula(std::string_view text) {
    constexpr auto begins = std::to_array<std::string_view>(
        {"=", "+", "-", "@", "\t", "\r", "\n", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"});
    return std::any_of(begins.begin(), begins.end(),
                       [&](std::string_view each) { return text.substr(0, each.size()) == each; });
}

/// A quote before what a spreadsheet would work out; then the quotes of RFC 4180.
std::string marks_cell(std::string_view text) {
    std::string cell;
    if (begins_formula(text)) cell += '\'';
    cell += text;
    if (cell.find_first_of(",\"\r\n;") == std::string::npos) return cell;
    std::string quoted = "\"";
    for (const char c : cell) {
        quoted += c;
        if (c == '"') quoted += '"';
    }
    return quoted + '"';
}

}  // namespace

std::string class_state(const KeptClass& of_class, const Seats& seats, double now_s) {
    json::array list;
    list.reserve(seats.size());
    for (const auto& seat : seats) list.emplace_back(seat_json(*seat, now_s));
    return json::serialize(json::object{
        {"is", "class_state"},
        {"held", of_class.held},
        {"shown", of_class.shown.empty() ? json::value() : json::value(of_class.shown)},
        {"seats", std::move(list)},
        {"predictions", predictions_json(seats)}});
}

std::string class_marks(const Seats& seats) {
    std::string csv =
        "seat,lesson,path,step reached,steps,predictions right,predictions made,tasks met,"
        "tasks,hunts right,hunts,minutes\r\n";
    for (const auto& seat : seats) {
        if (seat->records.empty()) csv += marks_cell(seat->name) + ",,,0,0,0,0,0,0,0,0,0\r\n";
        for (const auto& [path, r] : seat->records) {
            csv += fmt::format("{},{},{},{},{},{},{},{},{},{},{},{:.0f}\r\n",
                               marks_cell(seat->name), marks_cell(r.title), marks_cell(path),
                               std::min(r.step + 1, r.steps), r.steps, r.right, r.asked,
                               r.tasks_met, r.tasks, r.hunts_right, r.hunts, r.seconds / 60.0);
        }
    }
    return csv;
}

std::string marks_file_name(std::string_view class_title) {
    std::string stem;
    for (const char c : class_title) {
        const bool is_capital = c >= 'A' && c <= 'Z';
        const bool is_plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (is_capital) {
            stem += static_cast<char>(c - 'A' + 'a');
        } else if (is_plain) {
            stem += c;
        } else if (!stem.empty() && stem.back() != '_') {
            stem += '_';
        }
    }
    stem.resize(std::min(stem.size(), longest_file_stem));
    while (!stem.empty() && stem.back() == '_') stem.pop_back();
    return stem.empty() ? "marks.csv" : "marks_" + stem + ".csv";
}

}  // namespace noonbench::harness
