// SPDX-License-Identifier: MIT
// From a YAML file to a proving test.
#pragma once
#include "tests.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// Reads the file and what it is based on. Throws InputRefused with all problems, each with its
/// place.
[[nodiscard]] ProvingTest read_proving(const std::filesystem::path& file);

/// The same from text; `name` stands in messages.
[[nodiscard]] ProvingTest read_proving_text(std::string_view yaml, const std::string& name);

}  // namespace noonbench::harness
