// SPDX-License-Identifier: MIT
// Boost.Odeint: Dormand-Prince 5 with dense output, started anew at each knot of the weather and
// each decision, the rule polled every second.
#pragma once
#include "peers.hpp"

#include <boost/numeric/odeint.hpp>

#include <cmath>

namespace noonbench::benchmarks {

/// Error per step in kelvin of each cell, as the state is scaled.
inline Solved solve_with_odeint(CivilSeconds days, CivilSeconds knot_s, double tolerance_k) {
    namespace odeint = boost::numeric::odeint;
    using State = std::vector<double>;
    Plant plant = demo_plant();
    FlatPlant flat(plant);
    const std::vector<double> kelvin = flat.kelvin();
    Solved solved{"Boost.Odeint dopri5, dense, polled", cpu_seconds(), 0.0, 0, 0};
    // In kelvins, so that one absolute tolerance is the same for every cell.
    State now_k = flat.start();
    for (std::size_t i = 0; i < now_k.size(); ++i) now_k[i] /= kelvin[i];
    State amounts(now_k.size());
    const auto system = [&](const State& x, State& dxdt, double t) {
        for (std::size_t i = 0; i < x.size(); ++i) amounts[i] = x[i] * kelvin[i];
        flat.rate(t, amounts.data(), dxdt.data());
        for (std::size_t i = 0; i < x.size(); ++i) dxdt[i] /= kelvin[i];
    };
    auto stepper = odeint::make_dense_output(tolerance_k, 0.0, odeint::runge_kutta_dopri5<State>());
    noonbench::plant::testing::DifferenceRule rule;
    State shown_k(now_k.size());
    const auto sensors_at = [&](const State& x) {
        for (std::size_t i = 0; i < x.size(); ++i) amounts[i] = x[i] * kelvin[i];
        return flat.sensors(amounts.data());
    };
    double step_s = 1.0;
    for (CivilSeconds now = 0; now < days * seconds_a_day;) {
        if (rule.decide(sensors_at(now_k), now)) {
            solved.starts += rule.on ? 1 : 0;
        }
        const WeatherSpan weather = noonbench::plant::testing::april_span(now, knot_s);
        flat.drive(weather, now, rule.on);
        stepper.initialize(now_k, static_cast<double>(now), std::min(step_s, 60.0));
        bool cut = false;
        while (!cut && now < weather.to.at_s) {
            stepper.do_step(system);
            step_s = stepper.current_time_step();
            const auto reached =
                std::min(static_cast<CivilSeconds>(stepper.current_time()), weather.to.at_s);
            while (now < reached && !cut) {
                ++now;
                stepper.calc_state(static_cast<double>(now), shown_k);
                cut = rule.wants(sensors_at(shown_k), now) != rule.on;
            }
        }
        stepper.calc_state(static_cast<double>(now), now_k);
    }
    solved.cpu_s = cpu_seconds() - solved.cpu_s;
    solved.heat_kwh = now_k.back() * kelvin.back() / 3.6e6;
    solved.evaluations = flat.evaluations;
    return solved;
}

}  // namespace noonbench::benchmarks
