// SPDX-License-Identifier: MIT
// What is wrong with the text of a requirement, by its offset in the text; whoever knows where the
// text stands makes a Problem of it.
#pragma once
#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>

namespace noonbench::harness {

class Misread : public std::runtime_error {
  public:
    Misread(std::size_t at, const std::string& what, std::string allowed)
        : std::runtime_error(what), at_(at), allowed_(std::move(allowed)) {}
    [[nodiscard]] std::size_t at() const noexcept { return at_; }
    [[nodiscard]] const std::string& allowed() const noexcept { return allowed_; }

  private:
    std::size_t at_;
    std::string allowed_;
};

}  // namespace noonbench::harness
