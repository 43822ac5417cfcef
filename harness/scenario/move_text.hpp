// SPDX-License-Identifier: MIT
// From the words of one item of `moves` to a Move.
#pragma once
#include "draft.hpp"
#include "quantity_text.hpp"

#include "plant/levers.hpp"

namespace noonbench::harness {

/// Exactly one of setting, lever, hand and wire must be given; the value must be one that it takes;
/// the moment must lie within the run.
[[nodiscard]] Parsed<Move> understood(const MoveDraft& draft, const Scenario& scenario);

/// A lever's value: switches take yes and no, shares a percentage or a plain number, the rest its
/// unit. In the unit of the lever table.
[[nodiscard]] Parsed<double> parse_lever_value(const plant::LeverInfo& lever,
                                               std::string_view text);

/// Where a complaint about the move belongs; no place if nothing was written.
[[nodiscard]] Place place_of(const MoveDraft& draft);

}  // namespace noonbench::harness
