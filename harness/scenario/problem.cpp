// SPDX-License-Identifier: MIT
#include "problem.hpp"

#include <fmt/format.h>

#include <utility>

namespace noonbench::harness {

std::string text(const Problem& problem) {
    std::string line = problem.file;
    if (problem.line > 0) line += fmt::format(":{}:{}", problem.line, problem.column);
    line += ": " + problem.what;
    if (!problem.allowed.empty()) line += "; allowed: " + problem.allowed;
    return line;
}

std::string text(const std::vector<Problem>& problems) {
    std::string all;
    for (const Problem& problem : problems) all += text(problem) + "\n";
    return all;
}

InputRefused::InputRefused(std::vector<Problem> found)
    : std::runtime_error(text(found)), problems_(std::move(found)) {}

}  // namespace noonbench::harness
