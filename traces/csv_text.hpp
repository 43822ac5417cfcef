// SPDX-License-Identifier: MIT
// The bare grammar of RFC 4180: cells, quotes and rows, each cell with its place in the file.
#pragma once
#include <cstddef>
#include <istream>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::traces {

struct Cell {
    std::string text;
    std::size_t line = 1;
    std::size_t column = 1;
};

/// Appends the cell, in quotes if it holds a comma, a quote or a line end.
void append_cell(std::string& out, std::string_view text);

/// Row after row. Throws ReadError for a quote out of place, an open quote at the end or a bare CR.
class RowReader {
  public:
    explicit RowReader(std::istream& in) : in_(in) {}

    /// False at the end of the file. The last row may lack its line end.
    bool next(std::vector<Cell>& cells);
    [[nodiscard]] std::size_t line() const { return line_; }

  private:
    bool next_in_quotes(std::string& text);
    int get();

    std::istream& in_;
    std::size_t line_ = 1;
    std::size_t column_ = 1;
};

}  // namespace noonbench::traces
