// SPDX-License-Identifier: MIT
// Carrying the amounts through one second. Two explicit one-step methods on the same right-hand
// side; the second is cut into equal substeps whenever the stiffest rate times the step exceeds 1,
// which depends on the state and the drive alone, never on history.
#pragma once
#include "circuit.hpp"
#include "plant.hpp"
#include "rhs.hpp"

namespace noonbench::plant {

struct SecondDrive {
    const WeatherSpan& weather;
    CivilSeconds now = 0;
    const Tick& tick;
};

/// Advances `amounts` from now to now + 1 s in `substeps` equal steps and returns what the edges
/// carried. Explicit midpoint rule (order 2) or classical Runge-Kutta (order 4).
EdgeAmounts integrate_second(const Circuit& circuit, const SecondDrive& drive, Method method,
                             int substeps, Amounts& amounts);

/// Substeps that keep rate x step at or below 1.
[[nodiscard]] int substeps_needed(const Circuit& circuit, const Tick& tick);

}  // namespace noonbench::plant
