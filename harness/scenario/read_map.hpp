// SPDX-License-Identifier: MIT
// A map of the tree against a table of keys.
#pragma once
#include "findings.hpp"
#include "key.hpp"
#include "yaml_tree.hpp"

#include <map>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Paths of the keys that were given and understood, with the place of each value.
using Given = std::map<std::string, Place, std::less<>>;

/// Reads everything in the map; unknown keys, wrong kinds and bad values go to `findings`.
/// `label` is the path of the map itself ("" at the top, "collectors" in an item).
Given read_map(const std::vector<Key>& keys, const Node& map, const std::string& label,
               Draft& draft, Findings& findings);

}  // namespace noonbench::harness
