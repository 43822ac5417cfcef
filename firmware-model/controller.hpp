// SPDX-License-Identifier: MIT
// The controller's one function of time. The priority of its decisions is the table in
// priority.hpp; everything that survives a tick is in State (state.hpp).
#pragma once
#include "settings.hpp"
#include "state.hpp"
#include "terminals.hpp"

namespace noonbench::firmware {

/// One second of control. Any input and any in-range settings give an answer;
/// Outputs::pump_reason and ::backup_reason say why.
Outputs tick(const Settings& settings, const Inputs& inputs, State& state) noexcept;

}  // namespace noonbench::firmware
