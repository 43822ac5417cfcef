// SPDX-License-Identifier: MIT
// What a run of a house said to the phrases of a lesson.
#pragma once
#include "house_run.hpp"
#include "lesson.hpp"

#include "traces/signal.hpp"

#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// A phrase and how far the run goes that it is asked of. Without words only the courses up to
/// there are wanted.
struct PhraseAsked {
    LessonPhrase phrase;
    LessonUntil until;
};

struct HouseFound {
    Scenario scenario;
    std::map<std::pair<std::string, CivilSeconds>, double> values;  // by phrase and end of the run
    std::map<std::string, CoursePoints> courses;                    // by signal
    std::vector<traces::Signal> signals;                            // all that there are

    /// In the phrase's own unit; NaN where there was none. Throws std::logic_error for a phrase
    /// that was not asked.
    [[nodiscard]] double value_of(const LessonPhrase& phrase, const LessonUntil& until) const;
    [[nodiscard]] const traces::Signal& signal(const std::string& name) const;
};

/// One run for all the phrases, with the courses of the signals that are drawn beside an answer.
[[nodiscard]] HouseFound found_in_house(Scenario scenario, std::span<const PhraseAsked> phrases);

/// All that the steps of a lesson ask of a house.
[[nodiscard]] std::vector<PhraseAsked> phrases_of_house(const Lesson& lesson, std::size_t house);

/// The signals drawn beside an answer: collector, store bottom, pump, and one more number of which
/// the phrase speaks.
[[nodiscard]] std::vector<std::string> drawn_signals(const LessonPhrase* truth,
                                                     std::span<const traces::Signal> signals);

}  // namespace noonbench::harness
