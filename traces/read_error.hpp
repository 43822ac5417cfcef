// SPDX-License-Identifier: MIT
// The error of every reader in this folder: what is wrong, and where.
#pragma once
#include <cstddef>
#include <stdexcept>
#include <string>

namespace noonbench::traces {

/// Lines count from 1, columns are bytes of the line from 1. what() begins with "LINE:COLUMN: ".
class ReadError : public std::runtime_error {
  public:
    ReadError(std::size_t line, std::size_t column, const std::string& what)
        : std::runtime_error(std::to_string(line) + ":" + std::to_string(column) + ": " + what),
          line_(line),
          column_(column) {}
    [[nodiscard]] std::size_t line() const { return line_; }
    [[nodiscard]] std::size_t column() const { return column_; }

  private:
    std::size_t line_;
    std::size_t column_;
};

}  // namespace noonbench::traces
