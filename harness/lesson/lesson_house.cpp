// SPDX-License-Identifier: MIT
#include "lesson_house.hpp"

#include "asked.hpp"

#include "harness/bench/clock.hpp"
#include "harness/scenario/compose.hpp"
#include "harness/scenario/read.hpp"

#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

namespace noonbench::harness {

Scenario house_scenario(const std::filesystem::path& open, std::span<const LessonWord> with) {
    Node root = composed_tree(open);
    std::vector<Problem> problems;
    for (const LessonWord& set : with) {
        try {
            apply_set(root, set.text, set.place);
        } catch (const InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (!problems.empty()) throw InputRefused(std::move(problems));
    return read_scenario_tree(root, open);
}

Scenario house_with(const Lesson& lesson, std::size_t house, std::span<const std::string> more,
                    const Place& place) {
    const LessonHouse& of = lesson.houses.at(house);
    std::vector<LessonWord> with;
    with.reserve(of.with.size() + more.size());
    for (const std::string& set : of.with) with.push_back({set, of.place});
    for (const std::string& set : more) with.push_back({set, place});
    return house_scenario(of.open, with);
}

Scenario scenario_of(const Lesson& lesson, std::size_t house, std::span<const Move> by_hand) {
    Scenario scenario = house_with(lesson, house, {}, lesson.houses.at(house).place);
    std::vector<Move>& moves = scenario.moves;
    std::copy(by_hand.begin(), by_hand.end(), std::back_inserter(moves));
    std::stable_sort(moves.begin(), moves.end(),
                     [](const Move& a, const Move& b) { return a.at_s < b.at_s; });
    return scenario;
}

CivilSeconds next_time_of_day(std::int32_t time_of_day_s, CivilSeconds from) {
    const CivilSeconds today = day_start(from) + time_of_day_s;
    return today >= from ? today : today + plant::seconds_a_day;
}

CivilSeconds end_of_run(const LessonUntil& until, const Scenario& scenario) {
    const CivilSeconds end = scenario.start_s + scenario.length_s;
    if (until.moment_s) return std::min(end, *until.moment_s);
    if (!until.time_of_day_s) return end;
    return std::min(end, next_time_of_day(*until.time_of_day_s, scenario.start_s + 1));
}

}  // namespace noonbench::harness
