// SPDX-License-Identifier: MIT
// `based_on: FILE` in any map: what that file holds, with this map laid over it. Maps merge key by
// key, lists and single values replace.
#pragma once
#include "yaml_tree.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

inline constexpr int most_files_in_a_chain = 8;
inline constexpr int most_files_in_all = 64;

/// The file with everything that it is based on; every value keeps the place where it is written.
/// Throws InputRefused: circular, too long a chain, too many files, and all of parse_yaml_file().
[[nodiscard]] Node compose_file(const std::filesystem::path& file);

/// The same from text; `based_on` is seen from the working directory.
[[nodiscard]] Node compose_text(std::string_view yaml, const std::string& name);

/// Lays a value over the tree at `path.to.key`, making maps on the way; a number in the path picks
/// an item of a list; rivals of a key on the way are dropped. Throws InputRefused, at `place`.
void lay_at(Node& root, std::string_view path, Node value, const Place& place);

/// `path.to.key=VALUE`: lays VALUE over the tree, making maps on the way; a number in the path
/// picks an item of a list. Places become `--set path.to.key=VALUE`. Throws InputRefused.
void apply_set(Node& root, const std::string& set);

/// The same for an override that is written in a file, at `place`.
void apply_set(Node& root, const std::string& set, const Place& place);

}  // namespace noonbench::harness
