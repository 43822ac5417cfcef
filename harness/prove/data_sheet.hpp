// SPDX-License-Identifier: MIT
// What a proving run leaves: data_sheet.json and data_sheet.html (one page by itself, made for A4).
// Same results, same bytes.
#pragma once
#include "prove.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace noonbench::harness {

[[nodiscard]] std::string data_sheet_json(const std::vector<TestResult>& results);
[[nodiscard]] std::string data_sheet_html(const std::vector<TestResult>& results);

/// Settings other than as delivered: "start difference 10 K, backup control off"; may be empty.
[[nodiscard]] std::string settings_line(const ProvingTest& test);

/// Writes both, each whole or not at all, and makes the folder. Throws traces::FileError or
/// std::filesystem::filesystem_error where the machine refuses.
void write_data_sheet(const std::vector<TestResult>& results, const std::filesystem::path& folder);

}  // namespace noonbench::harness
