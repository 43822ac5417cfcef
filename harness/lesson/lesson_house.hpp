// SPDX-License-Identifier: MIT
// The houses of a lesson as scenarios, and moments in their runs.
#pragma once
#include "lesson.hpp"
#include "lesson_map.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstdint>
#include <filesystem>
#include <span>

namespace noonbench::harness {

/// A scenario with overrides laid over it, each refused at its own place. Throws InputRefused.
[[nodiscard]] Scenario house_scenario(const std::filesystem::path& open,
                                      std::span<const LessonWord> with);

/// A house of the lesson with more overrides on top, all of them at one place.
[[nodiscard]] Scenario house_with(const Lesson& lesson, std::size_t house,
                                  std::span<const std::string> more, const Place& place);

/// Where a run is cut: the first second that is no longer part of it.
[[nodiscard]] CivilSeconds end_of_run(const LessonUntil& until, const Scenario& scenario);

/// The first moment at `time_of_day_s` at or after `from`.
[[nodiscard]] CivilSeconds next_time_of_day(std::int32_t time_of_day_s, CivilSeconds from);

}  // namespace noonbench::harness
