// SPDX-License-Identifier: MIT
// Files of requirements, or of bands, that can be laid over any scenario.
#pragma once
#include "scenario.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace noonbench::harness {

struct Checks {
    std::string title;
    std::string about;
    std::vector<RequirementText> require;
};

struct Bands {
    std::string title;
    std::string about;
    std::vector<Uncertain> uncertain;
};

/// A file that holds title, about and require, and nothing else. Throws InputRefused with all
/// problems.
[[nodiscard]] Checks read_checks(const std::filesystem::path& file);

/// A file that holds title, about and uncertain, and nothing else: bands that are usual on many
/// sites, for any scenario. Throws InputRefused with all problems.
[[nodiscard]] Bands read_bands(const std::filesystem::path& file);

}  // namespace noonbench::harness
