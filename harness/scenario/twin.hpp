// SPDX-License-Identifier: MIT
// The healthy twin of a scenario with a fault: the same site, sky and household, nothing broken.
#pragma once
#include "scenario.hpp"
#include "yaml_tree.hpp"

#include <filesystem>
#include <span>
#include <string>

namespace noonbench::harness {

/// Whether there is anything to heal: moves of a fault, or overrides under `fault.twin`.
[[nodiscard]] bool has_twin(const Scenario& scenario);

/// The twin of a composed tree: the overrides of its `fault.twin` laid over it last, all moves that
/// belong to a fault left out, plain moves kept. It tells no fault, and its name is that of the
/// file with `_healthy` behind it. Throws InputRefused as read_scenario_tree() does, and where
/// there is nothing to heal.
[[nodiscard]] Scenario healthy_twin_of(const Node& root, const std::filesystem::path& file);

/// The same from a file and the overrides of a command line.
[[nodiscard]] Scenario healthy_twin(const std::filesystem::path& file,
                                    std::span<const std::string> sets = {});

}  // namespace noonbench::harness
