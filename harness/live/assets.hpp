// SPDX-License-Identifier: MIT
// The page's files and the schema of its messages, part of the program.
#pragma once
#include <span>
#include <string_view>

namespace noonbench::harness {

struct PageFile {
    std::string_view path;  // "/page.js"
    std::string_view type;  // of its content
    std::string_view content;
};

/// All that a browser may ask for; the page itself is "/".
[[nodiscard]] std::span<const PageFile> page_files();

extern const std::string_view messages_schema_json;

}  // namespace noonbench::harness
