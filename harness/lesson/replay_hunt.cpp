// SPDX-License-Identifier: MIT
// Whether a hunt can be solved: for its budget there must be looks that tell the hidden houses
// apart.
#include "asked.hpp"
#include "lesson_house.hpp"
#include "replay_house.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

constexpr std::size_t most_measurements_searched = 16;

/// What a measurement gives at a house: words, or a number in its own unit.
struct LookGiven {
    std::string words;
    double number = 0.0;
};

bool tells_apart(const LookGiven& a, const LookGiven& b, double clear) {
    if (std::isnan(a.number) != std::isnan(b.number)) return true;
    return a.words != b.words || std::abs(a.number - b.number) >= clear;
}

class HuntReplay {
  public:
    HuntReplay(const Lesson& lesson, const HuntStep& hunt, Asked& asked)
        : lesson_(lesson), hunt_(hunt) {
        const std::size_t looks = hunt.measurements.size();
        given_.assign(hunt.hidden.size(), std::vector<LookGiven>(looks));
        clear_.assign(looks, 0.0);
        for (std::size_t i = 0; i < hunt.hidden.size(); ++i) take_looks(i, asked);
    }

    /// The first two houses that no looks within the budget tell apart, in the best case.
    void complain(std::vector<Problem>& problems) const {
        const std::size_t looks = std::min(hunt_.measurements.size(), most_measurements_searched);
        std::pair<std::size_t, std::size_t> left{0, 0};
        for (std::uint32_t set = 0; set < (1U << looks); ++set) {
            if (price_of(set) > hunt_.budget_min) continue;
            const auto alike = first_alike(set);
            if (alike.first == alike.second) return;
            if (alike > left) left = alike;
        }
        const auto name = [&](std::size_t i) {
            return in_quotes(lesson_.houses[hunt_.hidden[i]].name);
        };
        problems.push_back(
            {hunt_.place.file, hunt_.place.line, hunt_.place.column,
             fmt::format("no looks for {} minutes tell {} from {} and all others from each other",
                         hunt_.budget_min, name(left.first), name(left.second)),
             "a larger budget, or a cheaper look that tells"});
    }

  private:
    void take_looks(std::size_t i, Asked& asked) {
        const std::size_t house = hunt_.hidden[i];
        HouseReplay replay(scenario_of(lesson_, house));
        for (std::size_t k = 0; k < hunt_.measurements.size(); ++k) {
            const HuntMeasurement& look = hunt_.measurements[k];
            if (look.shows != HuntMeasurement::Shows::number) {
                given_[i][k].words = asked.look(lesson_, hunt_, k, house);
                continue;
            }
            clear_[k] = clear_difference(replay.measure_of(look.phrase));
            replay.ask(look.phrase, {}, [&given = given_[i][k]](double v) { given.number = v; });
        }
        replay.run();
    }
    [[nodiscard]] int price_of(std::uint32_t set) const {
        int price = 0;
        for (std::size_t k = 0; (set >> k) != 0; ++k)
            if ((set >> k & 1U) != 0) price += hunt_.measurements[k].price_min;
        return price;
    }
    [[nodiscard]] bool apart(std::size_t a, std::size_t b, std::uint32_t set) const {
        for (std::size_t k = 0; (set >> k) != 0; ++k)
            if ((set >> k & 1U) != 0 && tells_apart(given_[a][k], given_[b][k], clear_[k]))
                return true;
        return false;
    }
    /// Two houses with other causes that look alike; the same one twice if there are none.
    [[nodiscard]] std::pair<std::size_t, std::size_t> first_alike(std::uint32_t set) const {
        for (std::size_t a = 0; a < hunt_.hidden.size(); ++a)
            for (std::size_t b = a + 1; b < hunt_.hidden.size(); ++b)
                if (hunt_.right[a] != hunt_.right[b] && !apart(a, b, set)) return {a, b};
        return {0, 0};
    }

    const Lesson& lesson_;
    const HuntStep& hunt_;
    std::vector<std::vector<LookGiven>> given_;  // of each house, of each measurement
    std::vector<double> clear_;                  // of each measurement, in its own unit
};

}  // namespace

void replay_hunts(const Lesson& lesson, std::vector<Problem>& problems) {
    Asked asked;
    for (const LessonStep& step : lesson.steps)
        if (const auto* hunt = std::get_if<HuntStep>(&step))
            HuntReplay(lesson, *hunt, asked).complain(problems);
}

}  // namespace noonbench::harness
