// SPDX-License-Identifier: MIT
// What a lesson says of a house, held against one run of it.
#pragma once
#include "house_run.hpp"
#include "lesson.hpp"

#include "traces/signal.hpp"

#include <functional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Gathers questions, runs once, and hands each answer to whoever asked.
class HouseReplay {
  public:
    explicit HouseReplay(Scenario scenario);

    /// `take` gets the value in the phrase's own unit, NaN where there was none.
    void ask(const LessonPhrase& phrase, const LessonUntil& until,
             std::function<void(double)> take);
    void judge(const LessonPhrase& that, const LessonUntil& until, AtEnd at_end,
               std::function<void(const Outcome&)> take);
    /// Nothing is run where nothing was asked.
    void run() const;

    [[nodiscard]] Measure measure_of(const LessonPhrase& phrase) const;

  private:
    Scenario scenario_;
    std::vector<traces::Signal> signals_;
    RunQuestions questions_;
    std::vector<std::function<void(double)>> takers_;
    std::vector<std::function<void(const Outcome&)>> judges_;
};

/// All that is said of one house. Problems come in the order of the answers.
void replay_house(const Lesson& lesson, std::size_t house, std::vector<Problem>& problems);

/// Hunts whose hidden houses cannot be told apart within the budget.
void replay_hunts(const Lesson& lesson, std::vector<Problem>& problems);

}  // namespace noonbench::harness
