// SPDX-License-Identifier: MIT
// The tables of keys of a proving file, on top of those of scenarios: same forms, same refusals.
#pragma once
#include "tests.hpp"

#include "harness/scenario/key.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// A proving test while it is being read, with the list item that is being read beside it.
struct ProvingDraft : Draft {
    ProvingTest test{};
    double celsius = 0.0;
    AccuracyPoints points{};
    Contest contest{};
};

/// One kind of test: its word, what it does in a line, and its keys (paths begin with the word).
struct KindInfo {
    std::string_view word;
    std::string_view meaning;
    std::vector<Key> keys;
    void (*choose)(ProvingTest& test);  // makes ProvingTest::what one of this kind
};
[[nodiscard]] const std::vector<KindInfo>& all_kinds();

/// title, about, the controller's settings and the simulated device.
[[nodiscard]] const std::vector<Key>& common_keys();

/// Lists of bare values in a proving file ("store: [20 degC, 40 degC]"): the words of such keys.
/// The reader wraps each value as a map with this one key, so that the tables need no other form.
inline constexpr std::string_view wrapped_key = "value";
[[nodiscard]] std::span<const std::string_view> lists_of_values();

/// The words of Condition, in order.
[[nodiscard]] std::span<const std::string_view> condition_words();

/// Every kind with its keys, for people.
[[nodiscard]] std::string kinds_text();

/// The setting behind a SwitchedBy.
[[nodiscard]] firmware::Setting setting_of(SwitchedBy by);

}  // namespace noonbench::harness
