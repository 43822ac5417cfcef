// SPDX-License-Identifier: MIT
#include "problem.hpp"

#include <fmt/format.h>

#include <utility>

namespace noonbench::harness {

std::filesystem::path path_seen_from(const Place& place, const std::filesystem::path& path) {
    const bool in_a_file = place.line > 0;
    const std::filesystem::path base =
        in_a_file ? std::filesystem::path(place.file).parent_path() : std::filesystem::path();
    return (base / path).lexically_normal();
}

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
