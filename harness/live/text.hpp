// SPDX-License-Identifier: MIT
// JSON as the live bench sends it: compact, numbers with the decimals they are worth.
#pragma once
#include <boost/json.hpp>

#include <span>
#include <string>

namespace noonbench::harness {

/// A number rounded to so many decimals, without needless digits; null where there is none.
void append_number(std::string& out, double value, int decimals);
/// A string with its quotes.
void append_quoted(std::string& out, std::string_view text);

}  // namespace noonbench::harness
