// SPDX-License-Identifier: MIT
// JSON for people and for diff.
#pragma once
#include <boost/json.hpp>

#include <string>

namespace noonbench::harness {

/// One member a line, two blanks a level, ended by a newline.
[[nodiscard]] std::string json_lines(const boost::json::value& value);

}  // namespace noonbench::harness
