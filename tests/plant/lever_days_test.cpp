// SPDX-License-Identifier: MIT
// Days on which the plant's levers are moved at random within their bounds, by steps and slides.
// Nothing of that may break the loop: all stays a number, no mass falls below nothing, nothing runs
// away, energy and fluid stay in the books. NOONBENCH_LEVER_DAYS says how many days (100); a day is
// made from its seed, so a longer series begins with the same days.
#include "lever_day.hpp"

#include "plant/circuit.hpp"
#include "plant/loop_picture.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>
#include <utility>

BOOST_AUTO_TEST_SUITE(lever_days)

namespace {

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

constexpr double litre = 1e-3;

// ------------------------------------------------------------ what must hold

struct Finding {
    std::string what;
    double figure = 0.0;
    double allowed = 0.0;
};
using MaybeFinding = std::optional<Finding>;

struct Course {
    double most_steam_m3 = 0.0;
    double most_gas_m3 = 0.0;
    double most_ice = 0.0;
    double lost_kg = 0.0;
    double least_flow_m3_s = 0.0;
    double most_flow_m3_s = 0.0;
};

class Audit {
  public:
    Audit(const Plant& plant, const Limits& limits)
        : plant_(plant), limits_(limits), balance_kg_(fluid_balance_kg(plant)) {}

    // Every second: numbers, signs of masses, both books.
    MaybeFinding second() {
        for (int i = 0; i < layout().total; ++i) {
            if (!std::isfinite(amount(i))) return Finding{"amount " + std::to_string(i), amount(i)};
        }
        course_.least_flow_m3_s = std::min(course_.least_flow_m3_s, plant_.last.flow_m3_s);
        course_.most_flow_m3_s = std::max(course_.most_flow_m3_s, plant_.last.flow_m3_s);
        if (!std::isfinite(plant_.last.flow_m3_s)) return Finding{"flow", plant_.last.flow_m3_s};
        if (MaybeFinding found = masses()) return found;
        const Residual energy = plant_.last.residual;
        if (!energy.holds())
            return Finding{"energy of a step, J", energy.residual_j, energy.bound_j};
        const double balance_kg = fluid_balance_kg(plant_);
        const double step_kg = balance_kg - balance_kg_;
        balance_kg_ = balance_kg;
        const double bound_kg = 1e-12 * plant_.filled_kg;
        if (!(std::abs(step_kg) <= bound_kg))
            return Finding{"fluid of a step, kg", step_kg, bound_kg};
        return {};
    }

    // Now and then, since it costs as much as the second itself: temperatures and pressure.
    MaybeFinding look() {
        const Circuit& c = *plant_.circuit;
        const LoopPicture picture =
            look_at_loop(c, plant_.levers, plant_.modes.loop, plant_.amounts.data());
        const Pressure& p = picture.pressure;
        if (!(std::isfinite(p.gauge_pa) && p.top_pa > 0.0))
            return Finding{"pressure, Pa", p.gauge_pa};
        if (!(p.cavity_m3 >= 0.0)) return Finding{"cavity, m3", p.cavity_m3};
        if (!(picture.air_m3 >= 0.0)) return Finding{"air, m3", picture.air_m3};
        // A vessel that has swallowed all leaves nothing but what the fluid has shrunk since then.
        const double least_m3 = -0.06 * c.filled.room.volume_m3;
        const double liquid_m3 = picture.contents.liquid_m3;
        if (!(liquid_m3 >= least_m3)) return Finding{"liquid, m3", liquid_m3, least_m3};
        if (MaybeFinding found = within("vessel, degC", picture.vessel_c)) return found;
        for (int i = 0; i < layout().layers_first; ++i) {
            const double t_c = picture.t_c[static_cast<std::size_t>(i)];
            if (MaybeFinding found = within("loop, degC", t_c)) return found;
        }
        for (std::size_t k = 0; k < static_cast<std::size_t>(layout().layers); ++k) {
            if (MaybeFinding found = within("store, degC", layer_c(plant_, k))) return found;
        }
        course_.most_steam_m3 = std::max(course_.most_steam_m3, picture.steam_m3);
        course_.most_gas_m3 = std::max(course_.most_gas_m3, picture.air_m3 + p.cavity_m3);
        course_.most_ice = std::max(course_.most_ice, picture.most_ice);
        return {};
    }

    MaybeFinding end() {
        course_.lost_kg = loop_fluid_state(plant_).lost_kg;
        const Residual energy = balance_of_run(plant_);
        if (!energy.holds())
            return Finding{"energy of the day, J", energy.residual_j, energy.bound_j};
        const double bound_kg = 1e-10 * plant_.filled_kg;
        const double balance_kg = fluid_balance_kg(plant_);
        if (!(std::abs(balance_kg) <= bound_kg)) {
            return Finding{"fluid of the day, kg", balance_kg, bound_kg};
        }
        return {};
    }

    [[nodiscard]] const Course& course() const { return course_; }

  private:
    [[nodiscard]] MaybeFinding masses() const {
        // Where steam comes and goes within a second a step may overshoot; the walls give it back.
        constexpr double least_steam_kg = -5e-6;  // 0.01 l at the atmosphere's pressure
        constexpr double least_liquid_kg = -5e-6;
        constexpr double most_full = 1.0 + 1e-6;
        const LoopMemory& memory = plant_.modes.loop;
        for (const auto& [what, kg] :
             {std::pair{"air, kg", memory.air_kg}, std::pair{"bubbles, kg", memory.bubbles_kg},
              std::pair{"set aside, kg", memory.set_aside_kg},
              std::pair{"drip, m3", memory.potable_drip_m3}}) {
            if (!(kg >= 0.0)) return Finding{what, kg};
        }
        const Circuit& c = *plant_.circuit;
        for (int r = 0; r < layout().rows; ++r) {
            const double liquid_kg = amount(layout().row_kg_first + r);
            const double steam_kg = amount(layout().steam_first + r) / steam_j_kg(c);
            const double full_kg = c.row_full_kg[static_cast<std::size_t>(r)];
            if (!(liquid_kg >= least_liquid_kg)) {
                return Finding{"liquid of a row, kg", liquid_kg, least_liquid_kg};
            }
            if (!(liquid_kg <= most_full * full_kg)) {
                return Finding{"liquid of a row, kg", liquid_kg, most_full * full_kg};
            }
            if (!(steam_kg >= least_steam_kg)) {
                return Finding{"steam of a row, kg", steam_kg, least_steam_kg};
            }
        }
        return {};
    }

    [[nodiscard]] MaybeFinding within(const char* what, double t_c) const {
        if (t_c >= limits_.coldest_c && t_c <= limits_.hottest_c) return {};
        return Finding{what, t_c, t_c < limits_.coldest_c ? limits_.coldest_c : limits_.hottest_c};
    }

    [[nodiscard]] const Layout& layout() const { return plant_.circuit->layout; }
    [[nodiscard]] double amount(int i) const { return plant_.amounts[static_cast<std::size_t>(i)]; }

    const Plant& plant_;
    Limits limits_;
    double balance_kg_ = 0.0;
    Course course_{};
};

std::string told(const LeverDay& day, CivilSeconds s, const Levers& levers, const Finding& found) {
    std::ostringstream text;
    text.precision(17);
    text << "day of seed " << day.seed << ", second " << s << " after "
         << static_cast<double>(day.from_s) / 3600.0 << " h: " << found.what << " = "
         << found.figure << ", allowed " << found.allowed
         << "; levers:" << unhealthy_levers(levers);
    return text.str();
}

// One day; the first thing that breaks ends it with an error.
Course live_through(LeverDay day) {
    constexpr CivilSeconds look_s = 10;
    Plant plant = make_plant(day.parameters, day.store_bottom_c, day.store_top_c,
                             day.weather.at(day.from_s).air_c);
    Audit audit(plant, limits_of(day.parameters, day.weather));
    House house(plant, sub_stream(day.weather.clouds, 2));
    WeatherSpan weather;
    MaybeFinding found;
    CivilSeconds s = 0;
    for (; s < day.lasts_s && !found; ++s) {
        const CivilSeconds now = day.from_s + s;
        if (now % 60 == 0 || s == 0) weather = {day.weather.at(now), day.weather.at(now + 60)};
        for (LeverMove& move : day.moves) move.act(plant.levers, s);
        const Actions actions = house.actions(now);
        advance(plant, weather, now, actions, house.tap_kg_s());
        found = audit.second();
        if (!found && s % look_s == 0) found = audit.look();
    }
    if (!found) found = audit.end();
    if (found) BOOST_ERROR(told(day, s - 1, plant.levers, *found));
    return audit.course();
}

int days_wanted() {
    const char* const days = std::getenv("NOONBENCH_LEVER_DAYS");
    return days == nullptr ? 100 : std::stoi(days);
}

}  // namespace

BOOST_AUTO_TEST_CASE(levers_that_step_and_slide_all_day_break_nothing) {
    const int days = days_wanted();
    int forward = 0;
    int backward = 0;
    int steamed = 0;
    int airy = 0;
    int frozen = 0;
    int lost = 0;
    for (int day = 0; day < days; ++day) {
        const Course course = live_through(random_day(static_cast<std::uint64_t>(day)));
        forward += course.most_flow_m3_s > 0.0 ? 1 : 0;
        backward += course.least_flow_m3_s < 0.0 ? 1 : 0;
        steamed += course.most_steam_m3 > 0.1 * litre ? 1 : 0;
        airy += course.most_gas_m3 > 0.1 * litre ? 1 : 0;
        frozen += course.most_ice > 0.1 ? 1 : 0;
        lost += course.lost_kg > 0.1 ? 1 : 0;
    }
    BOOST_TEST_MESSAGE(days << " days: flow forward on " << forward << ", backward on " << backward
                            << "; steam on " << steamed << ", air or cavity on " << airy
                            << ", ice on " << frozen << ", fluid lost on " << lost);
    if (days < 20) return;
    for (const int seen : {forward, backward, steamed, airy, frozen, lost}) {
        BOOST_TEST(seen > days / 20);  // the days are no empty ones
    }
}

// July days from nine in the morning, nearly a third of all levers thrown at once four times a day.
BOOST_AUTO_TEST_CASE(many_levers_thrown_at_once_break_nothing) {
    constexpr std::uint64_t days = 12;
    constexpr CivilSeconds act_s = 4500;
    RandomSequence random(20260704);
    for (std::uint64_t n = 0; n < days; ++n) {
        LeverDay day;
        day.seed = n;
        day.parameters.loop.hydraulics = Hydraulics::solved;
        day.parameters.loop.glycol_mass_share = n % 3 == 0 ? 0.0 : 0.4;
        day.weather.sun = 1.17;
        day.weather.warmer_k = 12.0;
        day.from_s = 9 * hour_s;
        day.lasts_s = 4 * act_s;
        for (CivilSeconds act = 0; act < 4; ++act) {
            for (const LeverInfo& lever : lever_table) {
                if (random.uniform() < 0.7) continue;
                day.moves.push_back(
                    {&lever, act * act_s, 1, between(random, lever.least, lever.most)});
            }
        }
        const Course course = live_through(day);
        BOOST_TEST(course.most_gas_m3 + course.most_steam_m3 > 0.0);
    }
}

BOOST_AUTO_TEST_SUITE_END()
