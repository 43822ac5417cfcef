// SPDX-License-Identifier: MIT
// What a trainer is told of a class: how everybody stands, and marks to keep.
#pragma once
#include "class_seats.hpp"

#include <string>

namespace noonbench::harness {

/// `class_state` as JSON text. How long a seat has been quiet is told in steps of ten seconds, so
/// that a class in which nothing happens has nothing new to tell.
[[nodiscard]] std::string class_state(const KeptClass& of_class, const Seats& seats, double now_s);

/// A table with a row for each seat and lesson (RFC 4180), for a spreadsheet: no cell of a
/// learner's making can be taken for a formula.
[[nodiscard]] std::string class_marks(const Seats& seats);
/// "marks_tuesday_group.csv"
[[nodiscard]] std::string marks_file_name(std::string_view class_title);

}  // namespace noonbench::harness
