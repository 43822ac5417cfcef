// SPDX-License-Identifier: MIT
#include "stride.hpp"

#include "advance.hpp"
#include "calendar.hpp"
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
constexpr int never_s = 86400;

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

constexpr std::array sensor_members{
    &Readings::collector_sensor_c,    &Readings::second_collector_sensor_c,
    &Readings::store_bottom_sensor_c, &Readings::store_top_sensor_c,
    &Readings::station_hot_c,         &Readings::station_cold_c};

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
        report.all = {from,
                      end,
                      rate.front(),
                      rate.back(),
                      at_start.flow_kg_s / circuit.loop_density_kg_m3,
                      tick.flow_kg_s / circuit.loop_density_kg_m3};
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
int longest_of_loop(const Plant& plant) {
    if (!is_set(plant.levers.potable_vessel_healthy)) return 1;
    const LoopMemory& loop = plant.modes.loop;
    if (plant.circuit->parameters.loop.hydraulics == Hydraulics::given) return never_s;
    if (loop.regime != LoopRegime::calm) return 1;
    return std::max(1, loop.next_s - loop.calm_s);
}

// Seconds of the day are left until one of the windows begins or ends.
int until_window_edge(const std::array<std::int32_t, 4>& windows_s, CivilSeconds now) {
    const auto of_day = static_cast<int>(now - midnight_before(now));
    int left = static_cast<int>(seconds_a_day) - of_day;
    for (const std::int32_t edge : windows_s) {
        if (edge > of_day) left = std::min(left, edge - of_day);
    }
    return left;
}

// No layer's temperature can reach what switches a stat or thermostat of the store sooner.
int longest_of_store(const Plant& plant, CivilSeconds now, bool backup_on) {
    constexpr double sun_w_m2 = 3000.0;     // more than sky and a collector that cools down give
    constexpr double stirring_k_s = 0.005;  // layers that mix on their own
    const Circuit& c = *plant.circuit;
    const Parameters& p = c.parameters;
    double heat_w = backup_on ? p.backup.power_w : 0.0;
    for (int r = 0; r < c.layout.rows; ++r) {
        const RowCoefficients& row = c.rows[static_cast<std::size_t>(r)];
        heat_w += sun_w_m2 * row.cell_area_m2 * row.cells;
    }
    const double quickest_k_s = heat_w / c.store.layer_j_k + stirring_k_s;
    const double margin_k = store_switching_margin_k(c, plant.amounts, plant.modes);
    int seconds = static_cast<int>(std::min(margin_k / quickest_k_s, longest_stride_s));
    if (!p.backup.by_controller && p.backup.kind != BackupKind::none) {
        seconds = std::min(seconds, until_window_edge(p.backup.own_windows_s, now));
    }
    if (p.circulation.fitted) {
        seconds = std::min(seconds, until_window_edge(p.circulation.running_s, now));
    }
    return std::max(1, seconds);
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
    for (const auto member : sensor_members) {
        shown.*member = at_start.*member + to_end * (at_end.*member - at_start.*member) +
                        rise * slope_at_start.*member + fall * slope_at_end.*member;
    }
    return shown;
}

SensorCourse SensorCourse::part(double from_s, double to_s) const {
    SensorCourse part;
    part.seconds = to_s - from_s;
    part.at_start = at(from_s);
    part.at_end = at(to_s);
    for (const auto member : sensor_members) {
        const double mean_slope = (at_end.*member - at_start.*member) / seconds;
        const auto slope = [&](double s) {  // of the cubic, by its derivative
            const double x = s / seconds;
            return 6.0 * x * (1.0 - x) * mean_slope +
                   (1.0 - x) * (1.0 - 3.0 * x) * (slope_at_start.*member) +
                   x * (3.0 * x - 2.0) * (slope_at_end.*member);
        };
        part.slope_at_start.*member = slope(from_s);
        part.slope_at_end.*member = slope(to_s);
    }
    return part;
}

StrideReport stride(Plant& plant, const WeatherSpan& weather, CivilSeconds now,
                    const Actions& actions, int most_seconds) {
    const Begun begun = begin_stretch(plant, now);
    int most = std::min(most_seconds, longest_of_loop(plant));
    if (most == 1) return single(plant, begun, weather, now, actions);
    Try attempt(plant, weather, now, actions);
    most = std::min(most, longest_of_store(plant, now, attempt.at_start.backup_on));
    if (most == 1) return single(plant, begun, weather, now, actions);
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

void show_within(Plant& plant, const StrideReport& report, int second) {
    const PlantCourse& all = report.all;
    const Layout& at = plant.circuit->layout;
    const double seconds = report.seconds;
    const auto at_second = [&](std::size_t i, double s) {
        const double x = s / seconds;
        const double to_end = x * x * (3.0 - 2.0 * x);
        const double rise = x * (1.0 - x) * (1.0 - x) * seconds;
        const double fall = -x * x * (1.0 - x) * seconds;
        return all.at_start[i] + to_end * (all.at_end[i] - all.at_start[i]) +
               rise * all.slope_at_start[i] + fall * all.slope_at_end[i];
    };
    const auto edges = static_cast<std::size_t>(at.edges_first);
    for (std::size_t i = 0; i < edges; ++i) plant.amounts[i] = at_second(i, second);
    for (std::size_t e = 0; e < plant.last.edges.size(); ++e) {
        plant.last.edges[e] = at_second(edges + e, second) - at_second(edges + e, second - 1.0);
    }
    plant.last.flow_m3_s =
        all.flow_at_start_m3_s +
        (second - 0.5) / seconds * (all.flow_at_end_m3_s - all.flow_at_start_m3_s);
}

}  // namespace noonbench::plant
