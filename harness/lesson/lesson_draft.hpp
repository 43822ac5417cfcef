// SPDX-License-Identifier: MIT
// What the parts of a lesson's reading share.
#pragma once
#include "lesson.hpp"
#include "lesson_map.hpp"

#include "traces/signal.hpp"

#include "harness/language/number_phrase.hpp"
#include "harness/scenario/findings.hpp"
#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// A house that was read; without signals if it was refused.
struct HouseAtHand {
    std::vector<LessonWord> with;
    Scenario scenario;
    std::vector<traces::Signal> signals;
    [[nodiscard]] bool sound() const { return !signals.empty(); }
};

struct LessonDraft {
    Lesson lesson;
    std::vector<HouseAtHand> houses;  // of lesson.houses
    Findings findings;
};

/// Takes over what a refusal says.
void note(const InputRefused& refused, Findings& findings);

/// The house of that name; refused if there is none.
[[nodiscard]] std::optional<std::size_t> house_named(const LessonWord& name, LessonDraft& draft);
/// That of the key `of`, the first where it is missing.
[[nodiscard]] std::size_t house_of(const LessonMap& map, LessonDraft& draft);
/// Those of a list, none twice.
[[nodiscard]] std::vector<std::size_t> houses_named(std::span<const LessonWord> names,
                                                    LessonDraft& draft);

/// The key `until`, held against the runs of the houses.
[[nodiscard]] LessonUntil until_of(const LessonMap& map, std::span<const std::size_t> houses,
                                   LessonDraft& draft);

/// A phrase understood in all the houses, of which the first is given back; nothing if it was
/// refused in one, or if its moment lies outside of the run.
[[nodiscard]] std::optional<NumberPhrase> phrase_in(const LessonPhrase& phrase,
                                                    std::span<const std::size_t> houses,
                                                    const LessonUntil& until, LessonDraft& draft);
/// Likewise, of a number (no condition).
[[nodiscard]] std::optional<Measure> measure_in(const LessonPhrase& phrase,
                                                std::span<const std::size_t> houses,
                                                const LessonUntil& until, LessonDraft& draft);
/// Refuses a sentence that one of the houses does not understand.
void check_sentence(const LessonPhrase& that, std::span<const std::size_t> houses,
                    LessonDraft& draft);
/// Refuses overrides that the house does not take.
void check_overrides(std::span<const LessonWord> more, std::size_t house, LessonDraft& draft);

/// The texts alone.
[[nodiscard]] std::vector<std::string> lesson_texts(const std::vector<LessonWord>& words);

/// One entry of `steps`.
void read_step(const Node& node, LessonDraft& draft);
[[nodiscard]] PredictStep read_predict(const Node& node, LessonDraft& draft);
[[nodiscard]] HuntStep read_hunt(const Node& node, LessonDraft& draft);
/// One entry of `seen` and of `checks`.
void read_seen(const Node& node, LessonDraft& draft);
void read_check(const Node& node, LessonDraft& draft);

}  // namespace noonbench::harness
