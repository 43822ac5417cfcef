// SPDX-License-Identifier: MIT
// A run that was played, as a scenario that repeats it to the same bytes.
#pragma once
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

struct HandMoveText;

/// The scenario of `file` with everything that it is based on, the overrides `sets` laid over, and
/// the moves made by hand under `moves:`.
[[nodiscard]] std::string saved_scenario(const std::filesystem::path& file,
                                         std::span<const std::string> sets,
                                         const std::vector<HandMoveText>& by_hand);

}  // namespace noonbench::harness
