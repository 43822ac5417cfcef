// SPDX-License-Identifier: MIT
// A text file in memory, in lines and comma-separated fields that know where they stand.
#pragma once
#include "harness/scenario/problem.hpp"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// Larger than any hourly year in the formats that are read (2 MB), smaller than trouble.
inline constexpr std::size_t largest_weather_file_bytes = 32U << 20U;

/// One field of a line; outer blanks and quotes are taken off. `column` counts bytes from 1.
struct Field {
    std::string_view text;
    int column = 1;
};

/// Lines without their ends (LF or CRLF) and without a byte-order mark.
struct TextFile {
    std::string name;
    std::string bytes;
    [[nodiscard]] std::vector<std::string_view> lines() const;
};

/// Nothing, and one problem more, if there is no such file, it is a folder, empty, too large, not
/// readable or holds zero bytes.
[[nodiscard]] std::optional<TextFile> read_text_file(const std::filesystem::path& path,
                                                     std::vector<Problem>& problems);

/// Commas inside double quotes do not part fields.
[[nodiscard]] std::vector<Field> split_fields(std::string_view line);

/// The whole field as a finite number, or nothing.
[[nodiscard]] std::optional<double> number_in(std::string_view text);

/// The same for an integer.
[[nodiscard]] std::optional<int> integer_in(std::string_view text);

/// Bytes of ISO 8859-1 as UTF-8; text that is valid UTF-8 already stays as it is.
[[nodiscard]] std::string utf8_from(std::string_view bytes);

}  // namespace noonbench::harness
