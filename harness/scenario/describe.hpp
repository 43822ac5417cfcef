// SPDX-License-Identifier: MIT
// What a scenario may hold, told from the same table of keys that reads it.
#pragma once
#include <string>

namespace noonbench::harness {

/// JSON Schema (draft 2020-12) of a scenario, ended by a newline.
[[nodiscard]] std::string schema_text();

/// A commented starter scenario; reads back without problems.
[[nodiscard]] std::string starter_text();

/// All settings of the controller: name, least, most, default, step, meaning, ground.
[[nodiscard]] std::string settings_text();

/// All keys of a scenario: path, unit, least, most, default, meaning.
[[nodiscard]] std::string keys_text();

}  // namespace noonbench::harness
