// SPDX-License-Identifier: MIT
// Value change dump after IEEE 1364, for any wave viewer: time in seconds from the table's start.
#pragma once
#include "table.hpp"

#include <ostream>

namespace noonbench::traces {

/// Numbers become reals, on_off wires, a choice an integer (its words stand in a comment) and, in a
/// scope of the choice's name, one wire a word, so that a viewer shows the words. The format has
/// no "unknown" for reals: a number column with missing values holds its last value and has
/// a wire NAME_known beside it.
void write_vcd(std::ostream& out, const Table& table);

}  // namespace noonbench::traces
