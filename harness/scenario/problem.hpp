// SPDX-License-Identifier: MIT
// What is wrong with an input, where it stands, and what would be right.
#pragma once
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Where a value stands. Lines and columns count from 1; line 0 = the whole file (or a --set).
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

/// A path as its writer means it: seen from the file that names it; on the command line, from where
/// one stands.
[[nodiscard]] std::filesystem::path path_seen_from(const Place& place,
                                                   const std::filesystem::path& path);

/// One thing that is wrong. `allowed` may be empty; it names units, ranges, words or the nearest
/// known word.
struct Problem {
    std::string file;
    int line = 0;
    int column = 0;
    std::string what;
    std::string allowed;
};

/// `FILE:LINE:COLUMN: what; allowed: ...`, shortened where there is no line or nothing allowed.
[[nodiscard]] std::string text(const Problem& problem);
/// One line each, in order, each ended by a newline.
[[nodiscard]] std::string text(const std::vector<Problem>& problems);

/// All problems of an input at once; what() is their text. Exit code 2.
class InputRefused : public std::runtime_error {
  public:
    explicit InputRefused(std::vector<Problem> found);
    [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }

  private:
    std::vector<Problem> problems_;
};

}  // namespace noonbench::harness
