// SPDX-License-Identifier: MIT
// Fills that differ by pattern, so that colour is never the only carrier.
#pragma once
#include "firmware-model/reason.hpp"

#include <string>

namespace noonbench::harness {

/// <defs> of all patterns: "pump-0" .. for the pump's reasons, "backup-0" .. for the backup's, and
/// those of the energy picture ("useful", "lost", "backup").
std::string pattern_definitions();

/// A small square with that fill, for legends and tables.
std::string swatch(const std::string& pattern);

}  // namespace noonbench::harness
