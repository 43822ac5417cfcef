// SPDX-License-Identifier: MIT
// Ordinary collectors by name: typical values of their kind, no product's.
#pragma once
#include "draft.hpp"

namespace noonbench::harness {

/// The data sheet of a typical collector of that kind, per square metre of gross area.
[[nodiscard]] plant::Collector typical_collector(CollectorKind kind);

}  // namespace noonbench::harness
