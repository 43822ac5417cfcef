// SPDX-License-Identifier: MIT
// Sentences of a lesson judged on a run.
#pragma once
#include "asked.hpp"
#include "house_run.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

/// A sentence understood in a scenario. Throws InputRefused.
[[nodiscard]] Requirement understood_sentence(std::string name, const LessonPhrase& that,
                                              const Scenario& scenario, AtEnd at_end);

/// The parts of a task, each judged on the run up to its `until`.
[[nodiscard]] std::vector<JudgedPart> judged_task_parts(const TaskStep& step,
                                                        const Scenario& scenario);

}  // namespace noonbench::harness
