// SPDX-License-Identifier: MIT
// One value of the tree into the place where it belongs, as its row of the table says.
#pragma once
#include "findings.hpp"
#include "key.hpp"
#include "yaml_tree.hpp"

namespace noonbench::harness {

/// Reads the node as the key's form wants it, checks the range and stores it. What is wrong goes
/// to `findings`, introduced by `label` (the whole path of the key). False if nothing was stored.
bool store_value(const Key& key, const Node& node, const std::string& label, Draft& draft,
                 Findings& findings);

/// What may be written for a key: "50 l to 2000 l (units: l, ml, m3)", "yes, no", ...
[[nodiscard]] std::string allowed_for(const Key& key);

/// What a key holds, written as it would be read; "" if it holds nothing.
[[nodiscard]] std::string written_value(const Key& key, Draft& draft);

}  // namespace noonbench::harness
