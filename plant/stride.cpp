// SPDX-License-Identifier: MIT
#include "stride.hpp"

#include "advance.hpp"
#include "circuit.hpp"
#include "rhs.hpp"
#include "tick.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

constexpr int stages = 7;
constexpr double least_factor = 0.2;
constexpr double most_factor = 5.0;
constexpr double safety = 0.9;
constexpr double longest_stride_s = 3600.0;

// Dormand and Prince 5(4), the usual tableau; the last row is the fifth-order result.
constexpr std::array<double, stages> node{0.0, 0.2, 0.3, 0.8, 8.0 / 9.0, 1.0, 1.0};
constexpr std::array<std::array<double, 6>, stages> weight{{
    {},
    {1.0 / 5.0},
    {3.0 / 40.0, 9.0 / 40.0},
    {44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0},
    {19372.0 / 6561.0, -25360.0 / 2187.0, 64448.0 / 6561.0, -212.0 / 729.0},
    {9017.0 / 3168.0, -355.0 / 33.0, 46732.0 / 5247.0, 49.0 / 176.0, -5103.0 / 18656.0},
    {35.0 / 384.0, 0.0, 500.0 / 1113.0, 125.0 / 192.0, -2187.0 / 6784.0, 11.0 / 84.0},
}};
// Fifth order less fourth.
constexpr std::array<double, stages> difference{
    71.0 / 57600.0,      0.0,          -71.0 / 16695.0, 71.0 / 1920.0,
    -17253.0 / 339200.0, 22.0 / 525.0, -1.0 / 40.0};

Readings sensors_of(const Layout& at, const Amounts& amounts) {
    const auto value = [&](int i) { return amounts[static_cast<std::size_t>(i)]; };
    return {value(at.row_sensor),          value(at.row_sensor + (at.rows > 1 ? 1 : 0)),
            value(at.store_bottom_sensor), value(at.store_top_sensor),
            value(at.station_hot_sensor),  value(at.station_cold_sensor)};
}

struct Try {
    const Circuit& circuit;
    const Levers& levers;
    const WeatherSpan& weather;
    CivilSeconds now;
    Tick at_start;
    Tick tick;
    std::size_t total;
    std::array<Amounts, stages> rate;
    Amounts end;
    int evaluations = 0;

    Try(Plant& plant, const WeatherSpan& span, CivilSeconds from, const Actions& actions)
        : circuit(*plant.circuit),
          levers(plant.levers),
          weather(span),
          now(from),
          at_start(make_tick(circuit, levers, plant.modes, {from, actions, 0.0}, plant.amounts)),
          tick(at_start),
          total(static_cast<std::size_t>(circuit.layout.total)) {
        for (auto i = static_cast<std::size_t>(circuit.layout.edges_first); i < total; ++i) {
            plant.amounts[i] = 0.0;
        }
        evaluate(0, 0.0, plant.amounts);
    }

    void evaluate(std::size_t stage, double at_s, const Amounts& amounts) {
        renew_flow(circuit, levers, amounts, tick);
        rates(circuit, tick, outside_at(weather, circuit, now, at_s), amounts.data(),
              rate[stage].data());
        ++evaluations;
    }

    void step(const Amounts& from, double seconds) {
        for (std::size_t stage = 1; stage < stages; ++stage) {
            end = from;
            for (std::size_t k = 0; k < stage; ++k) {
                const double share_s = seconds * weight[stage][k];
                for (std::size_t i = 0; i < total; ++i) end[i] += share_s * rate[k][i];
            }
            evaluate(stage, node[stage] * seconds, end);
        }
    }

    // Largest estimated error of a temperature, in tolerances. Edges are sums of the same rates.
    [[nodiscard]] double error(double seconds) const {
        const auto energies = static_cast<std::size_t>(circuit.layout.vessel);
        const auto sensors = static_cast<std::size_t>(circuit.layout.row_sensor);
        const auto sensors_end = static_cast<std::size_t>(circuit.layout.row_kg_first);
        const auto of = [&](std::size_t i, double capacity_j_k) {
            double sum = 0.0;
            for (std::size_t k = 0; k < stages; ++k) sum += difference[k] * rate[k][i];
            return std::abs(sum) * seconds / (capacity_j_k * stride_tolerance_k);
        };
        double worst = 0.0;
        for (std::size_t i = 0; i < energies; ++i) worst = std::max(worst, of(i, circuit.b_j_k[i]));
        for (std::size_t i = sensors; i < sensors_end; ++i) worst = std::max(worst, of(i, 1.0));
        return worst;
    }

    [[nodiscard]] StrideReport report(const Amounts& from, int seconds) const {
        const Layout& at = circuit.layout;
        StrideReport report;
        report.seconds = seconds;
        report.evaluations = evaluations;
        report.sensors = {static_cast<double>(seconds), sensors_of(at, from), sensors_of(at, end),
                          sensors_of(at, rate.front()), sensors_of(at, rate.back())};
        StepReport& step = report.step;
        step.pump = at_start.pump;
        step.flow_m3_s = tick.flow_kg_s / circuit.loop_density_kg_m3;
        step.backup_on = at_start.backup_on;
        step.circulation_on = at_start.circulation_kg_s > 0.0;
        for (std::size_t e = 0; e < step.edges.size(); ++e) {
            step.edges[e] = end[static_cast<std::size_t>(at.edges_first) + e];
        }
        return report;
    }
};

double scaled(double seconds, double error) {
    const double factor = error > 0.0 ? safety * std::pow(error, -0.2) : most_factor;
    return seconds * std::clamp(factor, least_factor, most_factor);
}

// A loop that is not calm, or whose next look is due at once, goes by single seconds; so does a
// store whose cold side drips, which is counted second by second.
int longest(const Plant& plant, int most_seconds) {
    if (!is_set(plant.levers.potable_vessel_healthy)) return 1;
    const LoopMemory& loop = plant.modes.loop;
    if (plant.circuit->parameters.loop.hydraulics == Hydraulics::given) return most_seconds;
    if (loop.regime != LoopRegime::calm) return 1;
    return std::clamp(loop.next_s - loop.calm_s, 1, most_seconds);
}

StrideReport single(Plant& plant, const Begun& begun, const WeatherSpan& weather, CivilSeconds now,
                    const Actions& actions) {
    StrideReport report;
    report.sensors.at_start = sensors_of(plant.circuit->layout, plant.amounts);
    report.step = one_second(plant, begun, weather, now, actions, 0.0);
    report.sensors.at_end = sensors_of(plant.circuit->layout, plant.amounts);
    report.evaluations = (plant.method == Method::everyday ? 2 : 4) * report.step.substeps;
    return report;
}

}  // namespace

Readings SensorCourse::at(double s) const {
    const double x = s / seconds;
    const double to_end = x * x * (3.0 - 2.0 * x);
    const double rise = x * (1.0 - x) * (1.0 - x) * seconds;
    const double fall = -x * x * (1.0 - x) * seconds;
    Readings shown;
    for (const auto member : {&Readings::collector_sensor_c, &Readings::second_collector_sensor_c,
                              &Readings::store_bottom_sensor_c, &Readings::store_top_sensor_c,
                              &Readings::station_hot_c, &Readings::station_cold_c}) {
        shown.*member = at_start.*member + to_end * (at_end.*member - at_start.*member) +
                        rise * slope_at_start.*member + fall * slope_at_end.*member;
    }
    return shown;
}

StrideReport stride(Plant& plant, const WeatherSpan& weather, CivilSeconds now,
                    const Actions& actions, int most_seconds) {
    const Begun begun = begin_stretch(plant, now);
    const int most = longest(plant, most_seconds);
    if (most == 1) return single(plant, begun, weather, now, actions);
    Try attempt(plant, weather, now, actions);
    int seconds = std::clamp(static_cast<int>(plant.stride_s), 1, most);
    double error = 0.0;
    for (;;) {
        attempt.step(plant.amounts, seconds);
        error = attempt.error(seconds);
        if (error <= 1.0) break;
        if (seconds == 1) {  // too stiff for one step: by substeps, which are counted for it
            plant.stride_s = 1.0;
            return single(plant, begun, weather, now, actions);
        }
        seconds = std::clamp(static_cast<int>(scaled(seconds, error)), 1, seconds - 1);
    }
    plant.stride_s = std::clamp(scaled(seconds, error), 1.0, longest_stride_s);
    StrideReport report = attempt.report(plant.amounts, seconds);
    plant.amounts = attempt.end;
    plant.modes.loop.calm_s += seconds - 1;
    end_stretch(plant, begun, seconds, report.step);
    plant.last = report.step;
    for (double& edge : plant.last.edges) edge /= seconds;  // watts in the mean, as always
    return report;
}

}  // namespace noonbench::plant
