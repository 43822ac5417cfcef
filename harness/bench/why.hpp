// SPDX-License-Identifier: MIT
// The chain of reasons before an instant, from what a run has left on disk.
#pragma once
#include "traces/table.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Lines such as "13:42:07 pump off: Waiting for sun: the collector (51.3 °C) is 3.9 K above ...",
/// oldest first: the last `links` changes of the pump's reason (with its relay), hands, levers and
/// advice up to `at_s`, with the pump's last change in front of them where it lies further back.
/// Dates stand in front where the chain leaves the day of `at_s`.
std::vector<std::string> chain_of_reasons(const std::vector<traces::Event>& events,
                                          std::int64_t at_s, std::size_t links);

}  // namespace noonbench::harness
