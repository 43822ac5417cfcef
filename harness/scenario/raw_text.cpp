// SPDX-License-Identifier: MIT
#include "raw_text.hpp"

#include "problem.hpp"
#include "yaml_tree.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <system_error>
#include <utility>

namespace noonbench::harness {

namespace {

[[noreturn]] void refuse(const std::string& name, std::string what, std::string allowed) {
    throw InputRefused({{name, 0, 0, std::move(what), std::move(allowed)}});
}

std::string too_large() {
    return fmt::format("a scenario file of at most {} KiB", most_bytes_a_file / 1024);
}

/// Length of the UTF-8 character at the front (Unicode 15, table 3-7); 0 if it is not one.
std::size_t utf8_length(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xC2 && first < 0xE0   ? 2
                               : first >= 0xE0 && first < 0xF0 ? 3
                               : first >= 0xF0 && first < 0xF5 ? 4
                                                               : 0;
    if (length == 0 || text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
    const unsigned char second = byte(1);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second >= 0xA0;
    const bool beyond = first == 0xF4 && second >= 0x90;
    return overlong || surrogate || beyond ? 0 : length;
}

bool is_control(unsigned char c) {
    return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F;
}

}  // namespace

std::string file_text(const std::filesystem::path& file) {
    namespace fs = std::filesystem;
    const std::string name = file.string();
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status)) refuse(name, "there is no such file", "a YAML file");
    if (fs::is_directory(status)) refuse(name, "this is a directory", "a YAML file");
    if (!fs::is_regular_file(status)) refuse(name, "this is not a regular file", "a YAML file");
    std::ifstream stream(file, std::ios::binary);
    if (!stream) refuse(name, "the file cannot be opened", "a file that may be read");
    // One byte more than allowed is read, never the whole of an enormous file.
    std::string text(most_bytes_a_file + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (stream.bad()) refuse(name, "the file cannot be read", "a file that may be read");
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

void refuse_unreadable(std::string_view text, const std::string& name) {
    if (text.size() > most_bytes_a_file) refuse(name, "the file is too large", too_large());
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        refuse(name, "the file is empty", "a scenario; `noonbench init` writes a starter");
    int line = 1;
    std::size_t line_begin = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = static_cast<unsigned char>(text[at]);
        const std::size_t length = utf8_length(text.substr(at));
        const int column = static_cast<int>(at - line_begin) + 1;
        if (length == 0)
            throw InputRefused({{name, line, column, "not UTF-8 text", "YAML in UTF-8"}});
        if (is_control(c))
            throw InputRefused(
                {{name, line, column,
                  fmt::format("not text: a control character (code {})", unsigned{c}),
                  "YAML in UTF-8"}});
        at += length;
        if (c == '\n') {
            ++line;
            line_begin = at;
        }
    }
}

}  // namespace noonbench::harness
