// SPDX-License-Identifier: MIT
// Comma-separated values after RFC 4180: one header row, time_s first, decimal point, fixed
// decimals, lines ended by CR LF. The reader takes a bare LF as well.
#pragma once
#include "read_error.hpp"
#include "table.hpp"

#include <istream>
#include <ostream>
#include <vector>

namespace noonbench::traces {

void write_csv(std::ostream& out, const Table& table);

/// Reads what write_csv wrote for these signals. The header must name exactly these columns in
/// this order, each cell must have the column's kind and decimals. `start_s` becomes the first
/// row's time. Throws ReadError.
Table read_csv(std::istream& in, std::vector<Signal> signals);

/// Reads any such file without knowing its signals: a column of words becomes a choice (words in
/// the order met), one of numbers a number with the decimals of its first cell, which all others
/// must share; an on_off column is read as a number without decimals. Unit and meaning stay empty.
Table read_csv(std::istream& in);

/// Header: time_s,what,name,from,to,because.
void write_events_csv(std::ostream& out, const std::vector<Event>& events);
/// Throws ReadError, also where times go backward.
std::vector<Event> read_events_csv(std::istream& in);

}  // namespace noonbench::traces
