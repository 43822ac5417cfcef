// SPDX-License-Identifier: MIT
// What the bench showed when the lesson was written, and sentences that hold.
#include "lesson_draft.hpp"
#include "lesson_unit.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <array>
#include <utility>

namespace noonbench::harness {
void read_seen(const Node& node, LessonDraft& draft) {
    static constexpr std::array<std::string_view, 5> keys{"of", "until", "number", "is", "give"};
    const LessonMap map(node, "seen", keys, draft.findings);
    Seen seen;
    seen.house = house_of(map, draft);
    const std::array houses{seen.house};
    seen.until = until_of(map, houses, draft);
    const LessonWord number = map.text("number", "such as over the run: starts of pump_relay");
    seen.number = {number.text, number.place};
    const LessonWord is = map.text("is", "what the bench showed");
    const LessonWord give = map.text("give", "how far it may move");
    seen.is_text = is.text;
    seen.give_text = give.text;
    const auto measure = measure_in(seen.number, houses, seen.until, draft);
    if (measure && !is.text.empty() && !give.text.empty()) {
        const Parsed<double> value = parse_in_unit(is.text, kept_unit(*measure));
        if (!value.value) draft.findings.add(is.place, value.what, value.allowed);
        const Parsed<double> distance = parse_distance(give.text, kept_unit(*measure));
        if (!distance.value) draft.findings.add(give.place, distance.what, distance.allowed);
        seen.is = value.value.value_or(0.0);
        seen.give = distance.value.value_or(0.0);
    }
    draft.lesson.seen.push_back(std::move(seen));
}

void read_check(const Node& node, LessonDraft& draft) {
    static constexpr std::array<std::string_view, 6> keys{"name", "of",       "until",
                                                          "that", "fails_in", "fails_with"};
    const LessonMap map(node, "checks", keys, draft.findings);
    LessonCheck check;
    check.name = map.text("name", "a few words").text;
    check.house = house_of(map, draft);
    check.fails_in = houses_named(map.texts_if("fails_in"), draft);
    std::vector<std::size_t> houses{check.house};
    houses.insert(houses.end(), check.fails_in.begin(), check.fails_in.end());
    check.until = until_of(map, houses, draft);
    const LessonWord that = map.text("that", "a requirement, see `noonbench list phrases`");
    check.that = {that.text, that.place};
    check_sentence(check.that, houses, draft);
    const std::vector<LessonWord> with = map.texts_if("fails_with");
    check_overrides(with, check.house, draft);
    check.fails_with = lesson_texts(with);
    if (check.fails_in.empty() && check.fails_with.empty())
        draft.findings.add(map.place(),
                           in_quotes(check.name) + " names nothing with which it fails",
                           "fails_in: [houses], or fails_with: [path.to.key=VALUE]");
    draft.lesson.checks.push_back(std::move(check));
}

}  // namespace noonbench::harness
