// SPDX-License-Identifier: MIT
// What a lesson asks of the bench: runs of its houses, and answers held against them. Everything
// here may take seconds and may be called from any thread.
#pragma once
#include "lesson.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// A house of the lesson, read anew, with moves made by hand in it. Throws InputRefused.
[[nodiscard]] Scenario scenario_of(const Lesson& lesson, std::size_t house,
                                   std::span<const Move> by_hand = {});

/// A few signals over a stretch of a run, for a small picture.
struct ShortTrace {
    struct Course {
        std::string signal, unit;
        std::vector<std::pair<CivilSeconds, double>> points;  // at most 240, NaN left out
    };
    CivilSeconds from_s = 0;
    CivilSeconds to_s = 0;
    std::vector<Course> courses;
};

struct Answered {
    bool right = false;
    std::string truth;  // "07:43", "47.6", the place of a choice "2"
    std::string say;    // {answer} and {truth} put in
    std::optional<CivilSeconds> truth_at_s, answer_at_s;  // of a clock time, within the run
    ShortTrace trace;
};

/// Why an answer is none, in words with what is allowed; empty if it is one.
[[nodiscard]] std::string no_answer(const PredictStep& step, std::string_view answer);

struct ComparedRuns {
    std::vector<std::vector<std::string>> cells;  // a row for each house, as shown
    std::vector<ShortTrace> traces;               // one a house
};

struct JudgedPart {
    bool held = false;
    std::string words;  // "not held, by 12 min"
};

/// Runs houses and remembers what was found of those without moves by hand, so that a class asks
/// the bench once.
class Asked {
  public:
    Asked();
    ~Asked();
    Asked(const Asked&) = delete;
    Asked& operator=(const Asked&) = delete;

    /// `by_hand` are the learner's moves in the question's house.
    [[nodiscard]] Answered predicted(const Lesson& lesson, const PredictStep& step,
                                     std::string_view answer, std::span<const Move> by_hand);
    [[nodiscard]] ComparedRuns compared(const Lesson& lesson, const TryStep& step);
    /// The learner's own run of the task's house, part by part.
    [[nodiscard]] std::vector<JudgedPart> task(const Lesson& lesson, const TaskStep& step,
                                               std::span<const Move> by_hand);
    /// What a measurement reads at one of the hidden houses: "1.8 bar", "silent".
    [[nodiscard]] std::string look(const Lesson& lesson, const HuntStep& step,
                                   std::size_t measurement, std::size_t house);

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

/// Holds a lesson against the bench: figures seen; checks, and where they must fail; tasks unmet as
/// opened and met by their solution; words to wrong answers that fit the truth; hunts that can be
/// solved within their budget. One problem for each thing that is off, at its place. The truth of a
/// choice is the checks' matter.
[[nodiscard]] std::vector<Problem> replayed(const Lesson& lesson);

}  // namespace noonbench::harness
