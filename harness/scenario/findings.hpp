// SPDX-License-Identifier: MIT
// Problems as they are found, up to a number that a person would still read.
#pragma once
#include "problem.hpp"

#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {

class Findings {
  public:
    void add(const Place& place, std::string what, std::string allowed) {
        ++count_;
        if (problems_.size() < most)
            problems_.push_back(
                {place.file, place.line, place.column, std::move(what), std::move(allowed)});
    }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }

    /// Throws InputRefused if anything was found.
    void refuse_if_any(const std::string& file) {
        if (count_ == 0) return;
        if (count_ > problems_.size())
            problems_.push_back(
                {file, 0, 0,
                 std::to_string(count_ - problems_.size()) + " more problems are not shown", ""});
        throw InputRefused(std::move(problems_));
    }

  private:
    static constexpr std::size_t most = 50;
    std::vector<Problem> problems_;
    std::size_t count_ = 0;
};

}  // namespace noonbench::harness
