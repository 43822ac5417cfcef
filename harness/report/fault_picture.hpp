// SPDX-License-Identifier: MIT
// A small picture of a fault's run, with that of its healthy twin behind it.
#pragma once
#include "fault_seen.hpp"

#include <string>

namespace noonbench::harness {

/// Whether the gauge tells of this fault: a requirement speaks of it, or the loop is solved and the
/// pressure moves further than in the twin.
[[nodiscard]] bool gauge_tells(const SeenFault& seen);

/// An SVG of its own, styled by faults.css; needs picture_patterns() once on the page.
[[nodiscard]] std::string fault_picture(const SeenFault& seen);

/// <defs> of the pump's band: on, and on and off.
[[nodiscard]] std::string picture_patterns();

}  // namespace noonbench::harness
