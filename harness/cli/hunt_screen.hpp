// SPDX-License-Identifier: MIT
// noonbench judge SCENARIO --hunt REQUIREMENT
#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace noonbench::cli {

struct HuntOptions {
    std::filesystem::path scenario;
    std::vector<std::string> sets;
    std::vector<std::string> checks;  // files of requirements laid over the scenario
    std::string requirement;
    std::filesystem::path bands;  // a file with `uncertain:`, or empty
    int budget = 400;             // runs
    std::uint64_t seed = 1;
    std::filesystem::path into;  // folder of the scenario found; empty: out/NAME_worst_day
};

/// Hunts, writes the scenario found and says so on standard output. Exit code 1 if the requirement
/// could be broken, 0 if not. Throws what hunt() and write_worst_day() throw.
int hunt_worst_day(const HuntOptions& options);

}  // namespace noonbench::cli
