// SPDX-License-Identifier: MIT
#include "solver.hpp"

#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

using Vector = std::array<double, most_amounts>;

struct Stepper {
    const Circuit& circuit;
    const SecondDrive& drive;
    std::size_t total;

    void rates_at(double at_s, const double* amount, double* rate) const {
        const Outside outside = outside_at(drive.weather, circuit, drive.now, at_s);
        rates(circuit, drive.tick, outside, amount, rate);
    }

    // stage = amount + step x rate
    void shifted(const double* amount, double step_s, const double* rate, double* stage) const {
        for (std::size_t i = 0; i < total; ++i) stage[i] = amount[i] + step_s * rate[i];
    }

    void midpoint(double at_s, double step_s, double* amount) const {
        Vector first;
        Vector stage;
        Vector middle;
        rates_at(at_s, amount, first.data());
        shifted(amount, 0.5 * step_s, first.data(), stage.data());
        rates_at(at_s + 0.5 * step_s, stage.data(), middle.data());
        shifted(amount, step_s, middle.data(), amount);
    }

    void runge_kutta(double at_s, double step_s, double* amount) const {
        Vector k1;
        Vector k2;
        Vector k3;
        Vector k4;
        Vector stage;
        rates_at(at_s, amount, k1.data());
        shifted(amount, 0.5 * step_s, k1.data(), stage.data());
        rates_at(at_s + 0.5 * step_s, stage.data(), k2.data());
        shifted(amount, 0.5 * step_s, k2.data(), stage.data());
        rates_at(at_s + 0.5 * step_s, stage.data(), k3.data());
        shifted(amount, step_s, k3.data(), stage.data());
        rates_at(at_s + step_s, stage.data(), k4.data());
        for (std::size_t i = 0; i < total; ++i) {
            amount[i] += step_s / 6.0 * (k1[i] + 2.0 * (k2[i] + k3[i]) + k4[i]);
        }
    }
};

}  // namespace

int substeps_needed(const Circuit& circuit, const Tick& tick) {
    return static_cast<int>(std::ceil(std::fmax(stiffest_rate_per_s(circuit, tick), 1e-9)));
}

EdgeAmounts integrate_second(const Circuit& circuit, const SecondDrive& drive, Method method,
                             int substeps, Amounts& amounts) {
    const auto total = static_cast<std::size_t>(circuit.layout.total);
    const auto edges = static_cast<std::size_t>(circuit.layout.edges_first);
    for (std::size_t i = edges; i < total; ++i) amounts[i] = 0.0;
    const Stepper stepper{circuit, drive, total};
    const double step_s = 1.0 / substeps;
    for (int n = 0; n < substeps; ++n) {
        if (method == Method::everyday) {
            stepper.midpoint(n * step_s, step_s, amounts.data());
        } else {
            stepper.runge_kutta(n * step_s, step_s, amounts.data());
        }
    }
    EdgeAmounts booked{};
    for (std::size_t i = 0; i < booked.size(); ++i) booked[i] = amounts[edges + i];
    return booked;
}

}  // namespace noonbench::plant
