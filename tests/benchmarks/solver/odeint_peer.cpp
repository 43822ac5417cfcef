// SPDX-License-Identifier: MIT
#include "odeint_peer.hpp"

#include "flat_plant.hpp"

#include <boost/numeric/odeint.hpp>

#include <utility>
#include <vector>

namespace noonbench::benchmarks {
namespace {

namespace odeint = boost::numeric::odeint;
using State = std::vector<double>;

class OdeintPeer {
  public:
    OdeintPeer(const Case& what, double tolerance_k)
        : end_s_(what.world.end_s()),
          flat_(what.parameters),
          kelvin_(flat_.kelvin()),
          world_(what.world),
          rule_{.regulated = what.regulated},
          stepper_(
              odeint::make_dense_output(tolerance_k, 0.0, odeint::runge_kutta_dopri5<State>())),
          now_k_(flat_.start()),
          shown_k_(now_k_.size()),
          amounts_(now_k_.size()) {
        // In kelvins, so that one absolute tolerance is the same for every cell.
        for (std::size_t i = 0; i < now_k_.size(); ++i) now_k_[i] /= kelvin_[i];
    }
    Solved solve(std::string name) {
        Solved solved{.name = std::move(name), .cpu_s = cpu_seconds()};
        for (CivilSeconds now = 0; now < end_s_;) {
            if (rule_.decide(sensors_at(now_k_), now)) solved.note(rule_, now);
            const Stretch stretch = world_.at(now);
            flat_.drive(stretch, now, rule_.order);
            stepper_.initialize(now_k_, static_cast<double>(now), std::min(step_s_, 60.0));
            now = go(now, stretch.until_s);
            stepper_.calc_state(static_cast<double>(now), now_k_);
        }
        solved.cpu_s = cpu_seconds() - solved.cpu_s;
        solved.heat_kwh = now_k_.back() * kelvin_.back() / 3.6e6;
        solved.evaluations = flat_.evaluations;
        return solved;
    }

  private:
    /// To `until`, or to where the rule decides anew.
    CivilSeconds go(CivilSeconds now, CivilSeconds until) {
        const auto system = [this](const State& x, State& dxdt, double t) { rate(x, dxdt, t); };
        while (now < until) {
            stepper_.do_step(system);
            step_s_ = stepper_.current_time_step();
            const auto reached =
                std::min(static_cast<CivilSeconds>(stepper_.current_time()), until);
            while (now < reached) {
                ++now;
                stepper_.calc_state(static_cast<double>(now), shown_k_);
                if (rule_.wants(sensors_at(shown_k_), now) != rule_.order) return now;
            }
        }
        return now;
    }
    void rate(const State& x, State& dxdt, double t) {
        for (std::size_t i = 0; i < x.size(); ++i) amounts_[i] = x[i] * kelvin_[i];
        flat_.rate(t, amounts_.data(), dxdt.data());
        for (std::size_t i = 0; i < x.size(); ++i) dxdt[i] /= kelvin_[i];
    }
    Readings sensors_at(const State& x) {
        for (std::size_t i = 0; i < x.size(); ++i) amounts_[i] = x[i] * kelvin_[i];
        return flat_.sensors(amounts_.data());
    }

    CivilSeconds end_s_;
    FlatPlant flat_;
    std::vector<double> kelvin_;
    WorldReader world_;
    Rule rule_;
    odeint::result_of::make_dense_output<odeint::runge_kutta_dopri5<State>>::type stepper_;
    State now_k_;
    State shown_k_;
    State amounts_;
    double step_s_ = 1.0;
};

}  // namespace

Solved solve_with_odeint(const Case& what, double tolerance_k, std::string name) {
    return OdeintPeer(what, tolerance_k).solve(std::move(name));
}

}  // namespace noonbench::benchmarks
