// SPDX-License-Identifier: MIT
// One self-contained page of many faults: contents by look-alikes, then a card for each.
#pragma once
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// One fault of the page; texts as they stand in the file.
struct FaultEntry {
    std::string name;
    std::string title;
    std::vector<std::string> looks_like;  // names; those of no entry count for nothing
    std::string card;                     // HTML
    bool as_claimed = true;
};

/// The entries that a customer's log cannot tell apart, as indices: whatever looks like something
/// stands in one group with it, whichever of the two says so. Only groups of two or more; in order
/// of their first entry, entries in order.
[[nodiscard]] std::vector<std::vector<std::size_t>> look_alikes(std::span<const FaultEntry> faults);

/// The whole page. The same entries give the same bytes.
[[nodiscard]] std::string fault_page_html(std::span<const FaultEntry> faults);

}  // namespace noonbench::harness
