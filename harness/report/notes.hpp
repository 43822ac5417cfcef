// SPDX-License-Identifier: MIT
// What must be said beside the figures.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// One line on where and what: date, collectors, store, fluid.
std::string site_line(const RunResult& result);

/// "Check this" of the controller, empty if there is none; and messages of the run.
std::string advice_notes(const RunResult& result);
std::string message_notes(const RunResult& result);

std::string caution_notes(const RunResult& result);

/// What the models leave out.
std::string limit_notes(const RunResult& result);

/// The check of the energy books: the figures, what they can show and what they cannot.
std::string balance_notes(const RunResult& result);

}  // namespace noonbench::harness
