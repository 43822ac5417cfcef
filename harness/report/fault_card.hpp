// SPDX-License-Identifier: MIT
// One fault on the page of all faults.
#pragma once
#include "fault_seen.hpp"

#include <map>
#include <string>

namespace noonbench::harness {

/// Names of the faults on the page, with their titles.
using FaultTitles = std::map<std::string, std::string>;

/// "fault-pump_seized", safe as an id and in a link.
[[nodiscard]] std::string fault_id(const std::string& name);

/// What the customer says, the picture, what to do, what it moves, yield, requirements. Links lead
/// to the faults of `titles` only.
[[nodiscard]] std::string fault_card(const SeenFault& seen, const FaultTitles& titles);

/// For a fault whose run did not come back.
[[nodiscard]] std::string failed_card(const std::string& name, const std::string& title,
                                      const std::string& failure);

}  // namespace noonbench::harness
