// SPDX-License-Identifier: MIT
// Rows of the table of keys by the path that a person writes.
#pragma once
#include "key.hpp"
#include "yaml_tree.hpp"

#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// A row that holds one value, and the list in which it stands, if any.
struct KeyFound {
    const Key* key = nullptr;
    const Key* list = nullptr;
};

/// "sky.clear_day.clouds.0.from": numbers pick items of lists. Nulls if there is no such row or if
/// it is a list itself.
[[nodiscard]] KeyFound find_key(std::string_view path);

/// The nearest path of one value, without numbers; empty if none is near enough to be meant.
[[nodiscard]] std::string nearest_path(std::string_view path);

/// Of the paths below a section whose last word this is, the one with the fewest words: "volume" is
/// the store's, not the vessel's. Empty if there is none.
[[nodiscard]] std::string_view path_ending_in(std::string_view word,
                                              std::span<const std::string_view> paths);

/// What stands at a path of a tree; a list that is written as one map is its own item 0. Null if
/// nothing stands there.
[[nodiscard]] const Node* node_at(const Node& root, std::string_view path);

/// What a composed scenario holds at a path, as text: what its tree says, else the default, in a
/// form that the key reads. Empty if it holds nothing or if a list has no such item.
[[nodiscard]] std::string held_text(std::string_view path, const Node& root,
                                    const Scenario& scenario);

}  // namespace noonbench::harness
