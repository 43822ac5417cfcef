// SPDX-License-Identifier: MIT
#include "lesson_draft.hpp"

#include "lesson_house.hpp"
#include "lesson_time.hpp"

#include "harness/judge/judge.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace noonbench::harness {
namespace {

void check_until(const LessonUntil& until, const Place& place, std::size_t house,
                 LessonDraft& draft) {
    const HouseAtHand& at_hand = draft.houses[house];
    if (!at_hand.sound()) return;
    const Scenario& run = at_hand.scenario;
    const CivilSeconds end = run.start_s + run.length_s;
    const CivilSeconds meant =
        until.moment_s ? *until.moment_s : next_time_of_day(*until.time_of_day_s, run.start_s + 1);
    if (meant > run.start_s && meant <= end) return;
    draft.findings.add(
        place,
        fmt::format("the run of {} does not reach that moment",
                    in_quotes(draft.lesson.houses[house].name)),
        fmt::format("after {}, up to {}", moment_text(run.start_s), moment_text(end)));
}

/// A moment of the phrase that lies in the run.
bool moment_is_there(const NumberPhrase& phrase, const Place& place, const LessonUntil& until,
                     const HouseAtHand& house, Findings& findings) {
    const Scenario& run = house.scenario;
    if (!phrase.at_s || tick_of(phrase, until, run) < end_of_run(until, run)) return true;
    findings.add(place, "the run is over before that time of day",
                 fmt::format("a time of day before {}", moment_text(end_of_run(until, run))));
    return false;
}

}  // namespace

void note(const InputRefused& refused, Findings& findings) {
    for (const Problem& p : refused.problems())
        findings.add({p.file, p.line, p.column}, p.what, p.allowed);
}

std::optional<std::size_t> house_named(const LessonWord& name, LessonDraft& draft) {
    if (name.text.empty()) return std::nullopt;
    std::vector<std::string_view> names;
    names.reserve(draft.lesson.houses.size());
    for (const LessonHouse& house : draft.lesson.houses) names.emplace_back(house.name);
    const auto found = std::find(names.begin(), names.end(), name.text);
    if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
    refuse_lesson_word(name, "one of the houses", names, draft.findings);
    return std::nullopt;
}

std::size_t house_of(const LessonMap& map, LessonDraft& draft) {
    return house_named(map.text_if("of"), draft).value_or(0);
}

std::vector<std::size_t> houses_named(std::span<const LessonWord> names, LessonDraft& draft) {
    std::vector<std::size_t> houses;
    houses.reserve(names.size());
    for (const LessonWord& name : names) {
        const std::optional<std::size_t> house = house_named(name, draft);
        if (!house) continue;
        if (std::find(houses.begin(), houses.end(), *house) != houses.end())
            draft.findings.add(name.place, in_quotes(name.text) + " stands there twice",
                               "each house once");
        else
            houses.push_back(*house);
    }
    return houses;
}

LessonUntil until_of(const LessonMap& map, std::span<const std::size_t> houses,
                     LessonDraft& draft) {
    LessonUntil until;
    const LessonWord word = map.text_if("until");
    if (word.text.empty()) return until;
    const Parsed<std::int32_t> time = parse_time_of_day(word.text);
    if (time.value) {
        until.time_of_day_s = time.value;
    } else {
        const Parsed<std::int64_t> moment = parse_date_time(word.text);
        if (!moment.value) {
            draft.findings.add(word.place, in_quotes(word.text) + " is no moment",
                               "a time of day such as 09:30, or 2026-04-15 09:30");
            return until;
        }
        until.moment_s = moment.value;
    }
    for (const std::size_t house : houses) check_until(until, word.place, house, draft);
    return until;
}

std::optional<NumberPhrase> phrase_in(const LessonPhrase& phrase,
                                      std::span<const std::size_t> houses, const LessonUntil& until,
                                      LessonDraft& draft) {
    if (phrase.text.empty()) return std::nullopt;
    std::optional<NumberPhrase> first;
    for (const std::size_t house : houses) {
        const HouseAtHand& at_hand = draft.houses[house];
        if (!at_hand.sound()) continue;
        try {
            NumberPhrase understood = parse_number(phrase.text, phrase.place, at_hand.signals);
            if (!moment_is_there(understood, phrase.place, until, at_hand, draft.findings))
                return std::nullopt;
            if (!first) first = std::move(understood);
        } catch (const InputRefused& refused) {
            note(refused, draft.findings);
            return std::nullopt;
        }
    }
    return first;
}

std::optional<Measure> measure_in(const LessonPhrase& phrase, std::span<const std::size_t> houses,
                                  const LessonUntil& until, LessonDraft& draft) {
    const std::optional<NumberPhrase> understood = phrase_in(phrase, houses, until, draft);
    if (!understood) return std::nullopt;
    if (understood->number) return understood->number->measure;
    draft.findings.add(phrase.place, in_quotes(phrase.text) + " is no number",
                       "such as over the run: starts of pump_relay");
    return std::nullopt;
}

void check_sentence(const LessonPhrase& that, std::span<const std::size_t> houses,
                    LessonDraft& draft) {
    if (that.text.empty()) return;
    for (const std::size_t house : houses) {
        if (!draft.houses[house].sound()) continue;
        try {
            const std::array texts{sentence_text("that", that)};
            static_cast<void>(understood_requirements(texts, draft.houses[house].signals));
        } catch (const InputRefused& refused) {
            note(refused, draft.findings);
            return;
        }
    }
}

void check_overrides(std::span<const LessonWord> more, std::size_t house, LessonDraft& draft) {
    const HouseAtHand& at_hand = draft.houses[house];
    if (!at_hand.sound()) return;
    std::vector<LessonWord> with = at_hand.with;
    with.insert(with.end(), more.begin(), more.end());
    try {
        static_cast<void>(house_scenario(draft.lesson.houses[house].open, with));
    } catch (const InputRefused& refused) {
        note(refused, draft.findings);
    }
}

std::vector<std::string> lesson_texts(const std::vector<LessonWord>& words) {
    std::vector<std::string> texts;
    texts.reserve(words.size());
    for (const LessonWord& word : words) texts.push_back(word.text);
    return texts;
}

}  // namespace noonbench::harness
