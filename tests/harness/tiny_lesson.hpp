// SPDX-License-Identifier: MIT
// A small lesson with every kind of step, and ways to spoil it.
#pragma once
#include "harness/lesson/lesson.hpp"
#include "tests/scratch.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>

namespace noonbench::harness::testing {

inline const std::filesystem::path& tiny_lesson_file() {
    static const std::filesystem::path file =
        std::string(NOONBENCH_SOURCE_DIR) + "/tests/harness/lessons/07_tiny.yaml";
    return file;
}

/// The text with its first `from` replaced. Throws where there is none.
inline std::string spoilt(std::string text, std::string_view from, std::string_view to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) throw std::logic_error("nothing to spoil: " + std::string(from));
    return text.replace(at, from.size(), to);
}

/// The tiny lesson's text, good in any folder.
inline std::string tiny_lesson_text() {
    std::ifstream in(tiny_lesson_file(), std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    return spoilt(text, "../../..", NOONBENCH_SOURCE_DIR);
}

inline std::filesystem::path written_lesson(const noonbench::testing::ScratchFolder& folder,
                                            const std::string& text) {
    return folder.write("07_tiny.yaml", text);
}

}  // namespace noonbench::harness::testing
