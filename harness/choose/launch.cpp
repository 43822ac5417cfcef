// SPDX-License-Identifier: MIT
#include "launch.hpp"

#include <charconv>
#include <cstdlib>
#include <optional>
#include <string_view>

namespace noonbench::harness {

namespace {

std::optional<int> count_in_environment(const char* name) {
    const char* text = std::getenv(name);
    if (text == nullptr) return std::nullopt;
    const std::string_view digits(text);
    int value = 0;
    const auto [end, error] = std::from_chars(digits.begin(), digits.end(), value);
    if (error != std::errc{} || end != digits.end()) return std::nullopt;
    return value;
}

}  // namespace

Launch launch_from_environment() {
    constexpr struct {
        const char* rank;
        const char* ranks;
    } launchers[] = {{"OMPI_COMM_WORLD_RANK", "OMPI_COMM_WORLD_SIZE"}, {"PMI_RANK", "PMI_SIZE"}};
    for (const auto& names : launchers) {
        const auto rank = count_in_environment(names.rank);
        const auto ranks = count_in_environment(names.ranks);
        if (rank && ranks && *rank >= 0 && *rank < *ranks) return {*rank, *ranks};
    }
    return {};
}

}  // namespace noonbench::harness
