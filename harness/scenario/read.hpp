// SPDX-License-Identifier: MIT
// From a YAML file to a Scenario. Every problem of the input is collected before it is refused.
#pragma once
#include "scenario.hpp"
#include "yaml_tree.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// Reads the file, the files that it is based on and the overrides `path.to.key=VALUE`, in that
/// order. Throws InputRefused with all problems, each with its place; nothing else.
[[nodiscard]] Scenario read_scenario(const std::filesystem::path& file,
                                     std::span<const std::string> sets = {});

/// The same from text in memory; `name` stands in messages, `based_on` is looked up from the
/// working directory.
[[nodiscard]] Scenario read_scenario_text(std::string_view yaml, const std::string& name,
                                          std::span<const std::string> sets = {});

/// The file with everything that it is based on and the overrides laid over, as a tree: read once,
/// it can be copied, varied and read as often as one likes.
[[nodiscard]] Node composed_tree(const std::filesystem::path& file,
                                 std::span<const std::string> sets = {});

/// A composed tree understood. `file` names the scenario and stands in messages.
[[nodiscard]] Scenario read_scenario_tree(const Node& root, const std::filesystem::path& file);

/// The same with the overrides of a healthy twin laid over the tree and without what it tells of
/// the fault; twin.hpp has the whole twin. Throws InputRefused with every override that is none,
/// each with its place.
[[nodiscard]] Scenario read_twin_tree(Node root, std::span<const TwinSet> twin,
                                      const std::filesystem::path& file);

/// Makes the paths in a tree (its weather file) good for a file that lies in `folder`.
void move_to_folder(Node& root, const std::filesystem::path& folder);

}  // namespace noonbench::harness
