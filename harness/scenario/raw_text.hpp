// SPDX-License-Identifier: MIT
// Bytes of a file before anyone calls them YAML.
#pragma once
#include <filesystem>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// The bytes of a regular file of at most most_bytes_a_file. Throws InputRefused with one problem:
/// missing, a directory, not a regular file, not readable, too large.
[[nodiscard]] std::string file_text(const std::filesystem::path& file);

/// Throws InputRefused with one problem if the text is empty, too large, not UTF-8 or holds
/// control characters other than tab, line feed and carriage return.
void refuse_unreadable(std::string_view text, const std::string& name);

}  // namespace noonbench::harness
