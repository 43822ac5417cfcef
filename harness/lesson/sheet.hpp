// SPDX-License-Identifier: MIT
// A lesson on paper: one page or two of A4, each a file of its own that needs nothing else.
#pragma once
#include "lesson.hpp"

#include <string>

namespace noonbench::harness {

/// Cautions, questions and tables with room to write, and no answers.
[[nodiscard]] std::string learner_sheet(const Lesson& lesson);

/// Timing, what learners usually say, what is true, and what to speak about.
[[nodiscard]] std::string instructor_sheet(const Lesson& lesson);

}  // namespace noonbench::harness
