// SPDX-License-Identifier: MIT
// When a phrase of a lesson is read, and how its sentences are judged.
#pragma once
#include "lesson.hpp"

#include "harness/language/number_phrase.hpp"
#include "harness/scenario/scenario.hpp"

#include <string>

namespace noonbench::harness {

/// The tick at which a phrase is read: the first at its time of day, or the last of the run that is
/// cut at `until`.
[[nodiscard]] CivilSeconds tick_of(const NumberPhrase& phrase, const LessonUntil& until,
                                   const Scenario& scenario);

/// A sentence of a lesson as a requirement.
[[nodiscard]] RequirementText sentence_text(std::string name, const LessonPhrase& that);

}  // namespace noonbench::harness
