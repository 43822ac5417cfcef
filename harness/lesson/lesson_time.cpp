// SPDX-License-Identifier: MIT
#include "lesson_time.hpp"

#include "lesson_house.hpp"

#include <utility>

namespace noonbench::harness {

CivilSeconds tick_of(const NumberPhrase& phrase, const LessonUntil& until,
                     const Scenario& scenario) {
    if (phrase.at_s) return next_time_of_day(*phrase.at_s, scenario.start_s);
    return end_of_run(until, scenario) - 1;
}

RequirementText sentence_text(std::string name, const LessonPhrase& that) {
    RequirementText text;
    text.name = std::move(name);
    text.that = that.text;
    text.place = that.place;
    text.that_place = that.place;
    return text;
}

}  // namespace noonbench::harness
