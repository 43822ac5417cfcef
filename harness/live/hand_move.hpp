// SPDX-License-Identifier: MIT
// A move made by hand while a run is played, in a scenario's words.
#pragma once
#include "harness/scenario/scenario.hpp"

#include <boost/json.hpp>

#include <cstdint>
#include <stdexcept>
#include <string>

namespace noonbench::harness {

/// A page's wish that is not done; told to the page, nothing was changed.
struct WishRefused : std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct HandMoveText {
    CivilSeconds at_s = 0;
    std::string kind;  // setting, lever, hand, wire
    std::string name;
    std::string to;
    std::int32_t over_s = 0;
};

/// From a message that keeps to its schema; its moment is left open.
[[nodiscard]] HandMoveText move_text(const boost::json::object& body);

/// Throws WishRefused with what is allowed.
[[nodiscard]] Move understood_move(const HandMoveText& text, const Scenario& scenario);

}  // namespace noonbench::harness
