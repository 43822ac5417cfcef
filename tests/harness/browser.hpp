// SPDX-License-Identifier: MIT
// A page as paper: printed by a browser without a window, where one is installed.
#pragma once
#include "program.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <optional>
#include <sstream>
#include <string>

namespace noonbench::harness::testing {

/// In the folders of PATH.
inline std::optional<std::filesystem::path> browser() {
    const char* path = std::getenv("PATH");
    const std::string folders = path != nullptr ? path : "/usr/bin";
    for (const char* name : {"chromium", "chromium-browser"}) {
        for (std::size_t from = 0; from <= folders.size();) {
            const std::size_t end = std::min(folders.find(':', from), folders.size());
            const auto program = std::filesystem::path(folders.substr(from, end - from)) / name;
            std::error_code ignored;
            if (std::filesystem::exists(program, ignored)) return program;
            from = end + 1;
        }
    }
    return std::nullopt;
}

struct Paper {
    std::size_t pages = 0;
    bool a4 = false;
};

/// Nothing, and a loud word, where there is no browser: the test then passes without having looked.
inline std::optional<Paper> printed(const Bay& bay, const std::filesystem::path& page) {
    const auto program = browser();
    if (!program) {
        std::cerr << "SKIPPED: no chromium to print " << page.filename().string() << " with\n";
        BOOST_TEST_MESSAGE("skipped");
        return std::nullopt;
    }
    const std::filesystem::path pdf = bay / "paper.pdf";
    std::filesystem::remove(pdf);
    const std::string command =
        "'" + program->string() + "' --headless --no-sandbox --disable-gpu --user-data-dir='" +
        (bay / "browser").string() + "' --no-pdf-header-footer --print-to-pdf='" + pdf.string() +
        "' 'file://" + page.string() + "' >/dev/null 2>&1";
    BOOST_TEST_REQUIRE(std::system(command.c_str()) == 0);
    const std::string bytes = content_of(pdf);
    Paper paper;
    const std::string mark = "/Type /Page";
    for (auto at = bytes.find(mark); at != std::string::npos; at = bytes.find(mark, at + 1)) {
        if (bytes.compare(at + mark.size(), 1, "s") != 0) ++paper.pages;
    }
    // 210 x 297 mm are 595.3 x 841.9 points; browsers round to theirs.
    double width_pt = 0.0;
    double height_pt = 0.0;
    const auto box = bytes.find("/MediaBox [0 0 ");
    if (box != std::string::npos) {
        std::istringstream(bytes.substr(box + 15, 40)) >> width_pt >> height_pt;
    }
    paper.a4 = std::abs(width_pt - 595.3) < 1.0 && std::abs(height_pt - 841.9) < 1.0;
    return paper;
}

}  // namespace noonbench::harness::testing
