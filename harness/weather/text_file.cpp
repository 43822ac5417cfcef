// SPDX-License-Identifier: MIT
#include "text_file.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <fstream>
#include <system_error>

namespace noonbench::harness {
namespace {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return text.substr(0, 0);
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// Length of the UTF-8 sequence that begins with this byte, 0 if none does.
std::size_t sequence_length(unsigned char lead) {
    if (lead < 0x80U) return 1;
    if (lead >= 0xc2U && lead < 0xe0U) return 2;
    if (lead >= 0xe0U && lead < 0xf0U) return 3;
    if (lead >= 0xf0U && lead < 0xf5U) return 4;
    return 0;
}

bool is_utf8(std::string_view bytes) {
    for (std::size_t i = 0; i < bytes.size();) {
        const std::size_t length = sequence_length(static_cast<unsigned char>(bytes[i]));
        if (length == 0 || i + length > bytes.size()) return false;
        for (std::size_t j = 1; j < length; ++j) {
            if ((static_cast<unsigned char>(bytes[i + j]) & 0xc0U) != 0x80U) return false;
        }
        i += length;
    }
    return true;
}

std::optional<std::string> trouble_with(const std::filesystem::path& path) {
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (!std::filesystem::exists(status)) return "there is no such weather file";
    if (std::filesystem::is_directory(status)) return "this is a folder, not a weather file";
    if (!std::filesystem::is_regular_file(status)) return "this is not a plain file";
    const std::uintmax_t size = std::filesystem::file_size(path, error);
    if (error) return "cannot be read: " + error.message();
    if (size == 0) return "the weather file is empty";
    if (size > largest_weather_file_bytes) {
        return fmt::format("{} MB is too large for a year of hours", size >> 20U);
    }
    return std::nullopt;
}

}  // namespace

std::vector<std::string_view> TextFile::lines() const {
    std::string_view rest = bytes;
    if (rest.starts_with("\xef\xbb\xbf")) rest.remove_prefix(3);
    std::vector<std::string_view> all;
    while (!rest.empty()) {
        const std::size_t end = rest.find('\n');
        std::string_view line = rest.substr(0, end);
        if (line.ends_with('\r')) line.remove_suffix(1);
        all.push_back(line);
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    }
    return all;
}

std::optional<TextFile> read_text_file(const std::filesystem::path& path,
                                       std::vector<Problem>& problems) {
    const auto refuse = [&](std::string what) {
        problems.push_back(
            {path.string(), 0, 0, std::move(what),
             fmt::format("a text file of at most {} MB", largest_weather_file_bytes >> 20U)});
        return std::nullopt;
    };
    if (const auto trouble = trouble_with(path)) return refuse(*trouble);
    std::ifstream stream(path, std::ios::binary);
    TextFile file{path.string(), {}};
    file.bytes.assign(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
    if (!stream) return refuse("cannot be read");
    if (file.bytes.find('\0') != std::string::npos) return refuse("this is not a text file");
    return file;
}

std::vector<Field> split_fields(std::string_view line) {
    std::vector<Field> fields;
    std::size_t begin = 0;
    bool quoted = false;
    for (std::size_t i = 0; i <= line.size(); ++i) {
        if (i < line.size() && line[i] == '"') quoted = !quoted;
        if (i < line.size() && (line[i] != ',' || quoted)) continue;
        std::string_view text = trimmed(line.substr(begin, i - begin));
        if (text.size() >= 2 && text.front() == '"' && text.back() == '"') {
            text = trimmed(text.substr(1, text.size() - 2));
        }
        const std::size_t at =
            text.empty() ? begin : static_cast<std::size_t>(text.data() - line.data());
        fields.push_back({text, static_cast<int>(at) + 1});
        begin = i + 1;
    }
    return fields;
}

std::optional<double> number_in(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

std::optional<int> integer_in(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

std::string utf8_from(std::string_view bytes) {
    if (is_utf8(bytes)) return std::string(bytes);
    std::string text;
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x80U) {
            text += c;
        } else {
            text += static_cast<char>(0xc0U | (byte >> 6U));
            text += static_cast<char>(0x80U | (byte & 0x3fU));
        }
    }
    return text;
}

}  // namespace noonbench::harness
