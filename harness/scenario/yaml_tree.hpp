// SPDX-License-Identifier: MIT
// A YAML document as plain data in which every key and value knows where it stands.
#pragma once
#include "problem.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

struct Entry;

/// One value. Only the member that belongs to its kind is filled.
struct Node {
    enum class Kind : std::uint8_t { nothing, scalar, list, map };
    Kind kind = Kind::nothing;
    std::string text;            // scalar
    std::vector<Node> items;     // list
    std::vector<Entry> entries;  // map, in order of writing; no key twice
    Place place;
};

struct Entry {
    std::string key;
    Place place;  // of the key
    Node value;
};

/// "a map", "a list", "a single value", "nothing".
[[nodiscard]] std::string_view kind_text(Node::Kind kind);

/// The value of a key of a map; null if it is not there.
[[nodiscard]] Node* find(Node& map, std::string_view key);
[[nodiscard]] const Node* find(const Node& map, std::string_view key);

inline constexpr std::size_t most_bytes_a_file = std::size_t{256} * 1024;
inline constexpr std::size_t most_depth = 32;

/// The one document of a text. `name` stands in messages. Throws InputRefused: not YAML, more than
/// one document, too large, too deep, not UTF-8, control characters, anchors, aliases or tags,
/// a key twice.
[[nodiscard]] Node parse_yaml(std::string_view text, const std::string& name);

/// The same from a file. Throws InputRefused also for a missing file, a directory, an empty file.
[[nodiscard]] Node parse_yaml_file(const std::filesystem::path& file);

/// The tree as text that parse_yaml() reads back to the same tree, places aside. Block style, small
/// maps within lists in one line.
[[nodiscard]] std::string yaml_text(const Node& root);

}  // namespace noonbench::harness
