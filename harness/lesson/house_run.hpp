// SPDX-License-Identifier: MIT
// One run of a house, and everything that is asked of it.
#pragma once
#include "harness/judge/judge.hpp"
#include "harness/scenario/scenario.hpp"

#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// Requirements judged on a run that is cut at `end_s`.
struct CutRequirements {
    std::vector<Requirement> requirements;
    CivilSeconds end_s = 0;
};

struct RunQuestions {
    std::vector<NumberAt> numbers;
    std::vector<CutRequirements> cut;
    std::vector<std::string> courses;  // signals
    CivilSeconds courses_end_s = 0;
};

using CoursePoints = std::vector<std::pair<CivilSeconds, double>>;

struct RunAnswers {
    std::vector<double> numbers;                 // NaN where there was none
    std::vector<std::vector<Outcome>> outcomes;  // of `cut`
    std::vector<CoursePoints> courses;           // first, least and greatest of each half minute
};

/// Runs the scenario no further than is asked.
[[nodiscard]] RunAnswers answered_by_run(const Scenario& scenario, const RunQuestions& questions);

/// At most so many points between two moments, both included: the least and the greatest of equal
/// stretches, each at its own moment.
[[nodiscard]] CoursePoints thinned_course(const CoursePoints& points, CivilSeconds from_s,
                                          CivilSeconds to_s, std::size_t most);

}  // namespace noonbench::harness
