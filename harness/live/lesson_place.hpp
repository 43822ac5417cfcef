// SPDX-License-Identifier: MIT
// Where a learner stands in a lesson, and what came of each step; plain data that can be kept.
#pragma once
#include "harness/lesson/lesson.hpp"

#include <boost/json.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

struct LessonPlace {
    const Lesson* lesson = nullptr;
    std::size_t step = 0;                     // the number of steps: finished
    std::vector<boost::json::value> results;  // one a step; null: nothing came of it yet
    std::vector<std::size_t> drawn;           // one a step; of a hunt: the house drawn by lot
    std::size_t house = 0;                    // on the bench
};

/// At the first step. The lots of its hunts follow from the seed and the lesson's number.
[[nodiscard]] LessonPlace begun(const Lesson& lesson, std::uint64_t seed);

/// The step at which the learner stands; null when the lesson is finished.
[[nodiscard]] const LessonStep* present_step(const LessonPlace& place);
/// Whether the learner may go on from the step.
[[nodiscard]] bool is_settled(const LessonPlace& place, std::size_t step);
/// A prediction must be committed to before time moves.
[[nodiscard]] bool must_commit(const LessonPlace& place);
/// Only looks that cost minutes will tell.
[[nodiscard]] bool is_hunting(const LessonPlace& place);
/// The house that the present step is about; none: whatever is on the bench.
[[nodiscard]] std::optional<std::size_t> house_wanted(const LessonPlace& place);
/// The name of such a house would tell what a hunt asks.
[[nodiscard]] bool is_secret(const Lesson& lesson, std::size_t house);
/// Likewise, until those hunts are over.
[[nodiscard]] bool is_secret_still(const LessonPlace& place, std::size_t house);

/// What is kept of a place, and the place again; throws std::runtime_error for what never was one.
[[nodiscard]] boost::json::object kept_place(const LessonPlace& place);
[[nodiscard]] LessonPlace place_kept(const Lesson& lesson, const boost::json::object& kept);

/// The first such moment after `start_s`; `otherwise` where there is no end.
[[nodiscard]] CivilSeconds moment_of(const LessonUntil& until, CivilSeconds start_s,
                                     CivilSeconds otherwise);
/// Up to where time may run in the present step, so that no later question is answered before it
/// is asked. `last_s`: of the run.
[[nodiscard]] CivilSeconds time_stops_at(const LessonPlace& place, CivilSeconds start_s,
                                         CivilSeconds shown_s, CivilSeconds last_s);

/// What a page must know of the lesson; `start_s` is its bench's.
[[nodiscard]] boost::json::object lesson_message(const LessonPlace& place, const std::string& path,
                                                 CivilSeconds start_s);
/// `stops_s`: see time_stops_at.
[[nodiscard]] boost::json::object lesson_state_message(const LessonPlace& place,
                                                       CivilSeconds start_s, CivilSeconds stops_s);

/// What the learner made of it, for the trainer.
struct LessonMarks {
    int asked = 0;
    int right = 0;
    int tasks = 0;
    int tasks_met = 0;
    int hunts = 0;
    int hunts_right = 0;
    int spent_min = 0;  // in hunts
};
[[nodiscard]] LessonMarks marks_of(const LessonPlace& place);

}  // namespace noonbench::harness
