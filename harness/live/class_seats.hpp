// SPDX-License-Identifier: MIT
// The seats of a class: who sits there, at which bench, and what was done there so far.
#pragma once
#include "class_keeper.hpp"
#include "session.hpp"
#include "session_glance.hpp"

#include <boost/json.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// One connection; numbers are never used again.
using LineId = std::uint64_t;

inline constexpr std::size_t most_seats = 60;

struct SeatAnswer {
    std::string question;
    std::string unit;
    std::string answer;
    std::optional<bool> right;
};

/// What one seat did in one lesson, or at one day or fault.
struct SeatRecord {
    std::string title;
    double seconds = 0.0;  // that somebody was at it
    int step = 0;
    int steps = 0;
    int asked = 0;
    int right = 0;
    int tasks = 0;
    int tasks_met = 0;
    int hunts = 0;
    int hunts_right = 0;
    std::map<int, SeatAnswer> answers;  // by step
};

struct Seat {
    std::string name;
    std::string ticket;
    std::unique_ptr<Session> bench;  // none until it is wanted after a restart
    boost::json::object kept;        // what it was then
    std::optional<LineId> line;      // who sits there at present
    double heard_s = 0.0;            // when a message came last
    int errors_in_a_row = 0;
    bool unsaved = false;
    SessionGlance glance;
    std::map<std::string, SeatRecord> records;  // by path
};

/// In the order in which they were taken.
using Seats = std::vector<std::unique_ptr<Seat>>;

/// Null where there is none; capitals do not count.
[[nodiscard]] Seat* seat_named(const Seats& seats, std::string_view name);
/// Null for a ticket of nobody's.
[[nodiscard]] Seat* seat_with_ticket(const Seats& seats, std::string_view ticket);

/// Looks at the bench and enters what has come of it; `seconds` have passed since the last look.
void look_at(Seat& seat, double now_s, double seconds);

[[nodiscard]] KeptSeat kept_seat(const Seat& seat);
/// Its bench is restored when it is wanted. Throws InputRefused for text that was never kept.
[[nodiscard]] std::unique_ptr<Seat> seat_kept(const KeptSeat& kept);

}  // namespace noonbench::harness
