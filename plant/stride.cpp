// SPDX-License-Identifier: MIT
#include "stride.hpp"

#include "advance.hpp"
#include "calendar.hpp"
#include "circuit.hpp"
#include "linear.hpp"
#include "rhs.hpp"
#include "rosenbrock.hpp"
#include "tick.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

constexpr double least_factor = 0.2;
constexpr double most_factor = 3.0;
constexpr double after_switching_s = 3.0;
constexpr double safety = 0.85;
constexpr double longest_stride_s = 3600.0;
constexpr int never_s = 86400;

/// The cubic through values and slopes at both ends, `x` of the way.
struct Hermite {
    double to_end;
    double rise;
    double fall;

    Hermite(double x, double seconds)
        : to_end(x * x * (3.0 - 2.0 * x)),
          rise(x * (1.0 - x) * (1.0 - x) * seconds),
          fall(-x * x * (1.0 - x) * seconds) {}

    [[nodiscard]] double between(double start, double end, double start_slope,
                                 double end_slope) const {
        return start + to_end * (end - start) + rise * start_slope + fall * end_slope;
    }
};

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

/// One step of the method from where the plant stands, of any length, taken as often as it takes.
class Attempt {
  public:
    Attempt(Plant& plant, const WeatherSpan& weather, CivilSeconds now, const Actions& actions,
            double tap_flow_kg_s)
        : circuit_(*plant.circuit),
          levers_(plant.levers),
          weather_(weather),
          now_(now),
          at_start_(make_tick(circuit_, levers_, plant.modes, {now, actions, tap_flow_kg_s},
                              plant.amounts)),
          tick_(at_start_),
          total_(static_cast<std::size_t>(circuit_.layout.total)) {
        for (auto i = static_cast<std::size_t>(circuit_.layout.edges_first); i < total_; ++i) {
            plant.amounts[i] = 0.0;
        }
        const Outside outside = outside_at(weather_, circuit_, now_, 0.0);
        rates(circuit_, at_start_, outside, plant.amounts.data(), first_rate_.data());
        linearise(circuit_, at_start_, outside, plant.amounts, linear_);
        drive_rates(circuit_, at_start_, weather_, linear_, drive_.data());
    }

    void step(const Amounts& from, double seconds) {
        const StepEquations equations(circuit_, at_start_, linear_, rosenbrock::diagonal * seconds);
        solve_stage<0>(equations, first_rate_, seconds);
        solve_stage<1>(equations, rate_at<1>(from, seconds), seconds);
        solve_stage<2>(equations, rate_at<2>(from, seconds), seconds);
        solve_stage<3>(equations, rate_at<3>(from, seconds), seconds);
        const double* __restrict last_sum = sum_.back().data();
        for (std::size_t i = 0; i < total_; ++i) end_[i] += last_sum[i];
    }

    /// Largest estimated error of a temperature, in tolerances. Edges are sums of the same rates.
    [[nodiscard]] double error() const {
        constexpr rosenbrock::Row weight = rosenbrock::in_sums::error;
        const auto cells = static_cast<std::size_t>(circuit_.layout.bodies);
        const auto sensors = static_cast<std::size_t>(circuit_.layout.row_sensor);
        const auto sensors_end = static_cast<std::size_t>(circuit_.layout.row_kg_first);
        Amounts off;
        for (std::size_t i = 0; i < sensors_end; ++i) {
            off[i] = weight[0] * sum_[0][i] + weight[1] * sum_[1][i] + weight[2] * sum_[2][i] +
                     weight[3] * sum_[3][i];
        }
        for (std::size_t i = 0; i < cells; ++i) off[i] /= circuit_.b_j_k[i];
        double worst_k = 0.0;
        for (std::size_t i = 0; i < cells; ++i) worst_k = std::max(worst_k, std::abs(off[i]));
        for (std::size_t i = sensors; i < sensors_end; ++i) {
            worst_k = std::max(worst_k, std::abs(off[i]));
        }
        return worst_k / stride_tolerance_k;
    }

    /// The cubics' own error at the sensors, in tolerances: half-way the curve of each sensor is
    /// held against its equation with the curve of its body. A long stride may be exact at its end
    /// and yet have passed over a bend.
    [[nodiscard]] double defect(const Amounts& from, double seconds) {
        std::copy_n(evaluate(end_, seconds).begin(), total_, last_rate_.begin());
        const auto slope_k_s = [&](const Amounts& rate, const LayerPoint& body) {
            const auto k = static_cast<std::size_t>(body.lower);
            const double lower = rate[k] / linear_.capacity_j_k[k];
            if (body.upper_share == 0.0) return lower;
            return lower + body.upper_share * (rate[k + 1] / linear_.capacity_j_k[k + 1] - lower);
        };
        double worst = 0.0;
        each_sensor(
            circuit_, tick_, [&](int sensor, const LayerPoint& body, double contact, double lag_s) {
                const auto i = static_cast<std::size_t>(sensor);
                const double rise = first_rate_[i] - last_rate_[i];
                const double middle_c = 0.5 * (from[i] + end_[i]) + 0.125 * seconds * rise;
                const double felt_c =
                    0.5 * (from[i] + end_[i] + lag_s * (first_rate_[i] + last_rate_[i])) +
                    0.125 * seconds * contact *
                        (slope_k_s(first_rate_, body) - slope_k_s(last_rate_, body));
                const double climbs_k_s =
                    1.5 * (end_[i] - from[i]) / seconds - 0.25 * (first_rate_[i] + last_rate_[i]);
                const double defect_k_s = climbs_k_s - (felt_c - middle_c) / lag_s;
                worst = std::max(worst, std::abs(defect_k_s) * std::min(lag_s, 0.125 * seconds));
            });
        return worst / sensor_tolerance_k;
    }

    [[nodiscard]] bool backup_on() const { return at_start_.backup_on; }
    void carry_to_end(Amounts& amounts) const {
        std::copy_n(end_.begin(), total_, amounts.begin());
    }

    /// Whether something was switched since the second before: what follows is quick.
    [[nodiscard]] bool is_driven_otherwise(const StepReport& last) const {
        return last.pump.turning != at_start_.pump.turning ||
               last.backup_on != at_start_.backup_on ||
               last.tap_flow_kg_s != at_start_.tap_flow_kg_s;
    }

    void tell(const Amounts& from, int seconds, StrideReport& report) const {
        const Layout& at = circuit_.layout;
        report.seconds = seconds;
        report.evaluations = evaluations_;
        report.cold_j_kg = at_start_.cold_j_kg;
        report.sensors = {static_cast<double>(seconds), sensors_of(at, from), sensors_of(at, end_),
                          sensors_of(at, first_rate_), sensors_of(at, last_rate_)};
        std::copy_n(from.begin(), total_, report.all.at_start.begin());
        std::copy_n(end_.begin(), total_, report.all.at_end.begin());
        std::copy_n(first_rate_.begin(), total_, report.all.slope_at_start.begin());
        std::copy_n(last_rate_.begin(), total_, report.all.slope_at_end.begin());
        report.all.flow_at_start_m3_s = at_start_.flow_kg_s / circuit_.loop_density_kg_m3;
        report.all.flow_at_end_m3_s = tick_.flow_kg_s / circuit_.loop_density_kg_m3;
        StepReport& step = report.step;
        step.pump = at_start_.pump;
        step.flow_m3_s = report.all.flow_at_end_m3_s;
        step.backup_on = at_start_.backup_on;
        step.circulation_on = at_start_.circulation_kg_s > 0.0;
        for (std::size_t e = 0; e < step.edges.size(); ++e) {
            step.edges[e] = end_[static_cast<std::size_t>(at.edges_first) + e];
        }
        step.tap_flow_kg_s = at_start_.tap_flow_kg_s;
    }

  private:
    [[nodiscard]] const Amounts& evaluate(const Amounts& amounts, double at_s) {
        renew_flow(circuit_, levers_, amounts, tick_);
        rates(circuit_, tick_, outside_at(weather_, circuit_, now_, at_s), amounts.data(),
              rate_.data());
        ++evaluations_;
        return rate_;
    }

    template <std::size_t stage>
    [[nodiscard]] const Amounts& rate_at(const Amounts& from, double seconds) {
        const double* __restrict start = from.data();
        double* __restrict point = end_.data();
        for (std::size_t i = 0; i < total_; ++i) {
            double sum = start[i];
            for (std::size_t k = 0; k < stage; ++k) {
                sum += rosenbrock::in_sums::point[stage][k] * sum_[k][i];
            }
            point[i] = sum;
        }
        return evaluate(end_, rosenbrock::in_sums::when[stage] * seconds);
    }

    template <std::size_t stage>
    void solve_stage(const StepEquations& equations, const Amounts& rate, double seconds) {
        const double of_time_s = rosenbrock::in_sums::of_time[stage] * seconds;
        rosenbrock::Row carried_1_s;
        for (std::size_t k = 0; k < stage; ++k) {
            carried_1_s[k] = rosenbrock::in_sums::carried[stage][k] / seconds;
        }
        Amounts right_side;
        double* __restrict right = right_side.data();
        for (std::size_t i = 0; i < total_; ++i) {
            double sum = rate[i] + of_time_s * drive_[i];
            for (std::size_t k = 0; k < stage; ++k) sum += carried_1_s[k] * sum_[k][i];
            right[i] = sum;
        }
        solve_to_sum(equations, right_side, rosenbrock::diagonal * seconds, sum_[stage]);
    }

    /// Of a body its temperature times its capacity; what has no equation is its rate times the
    /// time, for edges with the linear answer of the bodies.
    void solve_to_sum(const StepEquations& equations, Amounts& right, double step_s, Amounts& sum) {
        const Layout& at = circuit_.layout;
        Amounts y_k;
        equations.solve(right.data(), y_k.data());
        add_linear_edges(circuit_, linear_, y_k.data(), right.data() + at.edges_first);
        const auto upto = [](int i) { return static_cast<std::size_t>(i); };
        std::size_t i = 0;
        for (; i <= upto(at.vessel); ++i) sum[i] = linear_.capacity_j_k[i] * y_k[i];
        for (; i < upto(at.row_sensor); ++i) sum[i] = step_s * right[i];
        for (; i < upto(at.row_kg_first); ++i) sum[i] = y_k[i];
        for (; i < total_; ++i) sum[i] = step_s * right[i];
    }

    const Circuit& circuit_;
    const Levers& levers_;
    const WeatherSpan& weather_;
    CivilSeconds now_;
    Tick at_start_;
    Tick tick_;
    std::size_t total_;
    Linear linear_;
    Amounts first_rate_;
    Amounts rate_;
    Amounts last_rate_;  // at the end, once its defect is known
    Amounts drive_;
    Amounts end_;
    std::array<Amounts, rosenbrock::stages> sum_;  // each stage's, see rosenbrock.hpp
    int evaluations_ = 1;
};

double scaled(double seconds, double error, double growth) {
    const double factor = error > 0.0 ? safety / std::cbrt(error) : growth;
    return seconds * std::clamp(factor, least_factor, growth);
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

// A look at the loop that would cut the coming stride is better taken before it.
void look_early(Plant& plant, int most_seconds) {
    LoopMemory& loop = plant.modes.loop;
    const bool is_calm = loop.regime == LoopRegime::calm;
    if (is_calm && loop.next_s - loop.calm_s < std::min<double>(plant.stride_s, most_seconds)) {
        loop.next_s = 0;
    }
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
int longest_of_store(const Plant& plant, CivilSeconds now, double tap_flow_kg_s, bool backup_on) {
    constexpr double sun_w_m2 = 3000.0;     // more than sky and a collector that cools down give
    constexpr double stirring_k_s = 0.005;  // layers that mix on their own
    constexpr double steepest_k = 60.0;     // from one layer to the next, while a draw moves them
    const Circuit& c = *plant.circuit;
    const Parameters& p = c.parameters;
    double heat_w = backup_on ? p.backup.power_w : 0.0;
    for (int r = 0; r < c.layout.rows; ++r) {
        const RowCoefficients& row = c.rows[static_cast<std::size_t>(r)];
        heat_w += sun_w_m2 * row.cell_area_m2 * row.cells;
    }
    const double quickest_k_s =
        heat_w / c.store.layer_j_k + stirring_k_s + steepest_k * tap_flow_kg_s / c.store.layer_kg;
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
                    const Actions& actions, double tap_flow_kg_s) {
    StrideReport report;
    report.sensors.at_start = sensors_of(plant.circuit->layout, plant.amounts);
    report.step = one_second(plant, begun, weather, now, actions, tap_flow_kg_s);
    report.sensors.at_end = sensors_of(plant.circuit->layout, plant.amounts);
    report.evaluations = (plant.method == Method::everyday ? 2 : 4) * report.step.substeps;
    return report;
}

}  // namespace

Readings SensorCourse::at(double s) const {
    const Hermite cubic(s / seconds, seconds);
    Readings shown;
    for (const auto member : sensor_members) {
        shown.*member = cubic.between(at_start.*member, at_end.*member, slope_at_start.*member,
                                      slope_at_end.*member);
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
                    const Actions& actions, double tap_flow_kg_s, int most_seconds) {
    const bool was_tripped = plant.modes.high_limit_tripped;
    look_early(plant, most_seconds);
    const Begun begun = begin_stretch(plant, now);
    int most = std::min(most_seconds, longest_of_loop(plant));
    if (plant.modes.high_limit_tripped != was_tripped) most = 1;  // shown on its tick
    if (most == 1) return single(plant, begun, weather, now, actions, tap_flow_kg_s);
    Attempt attempt(plant, weather, now, actions, tap_flow_kg_s);
    most = std::min(most, longest_of_store(plant, now, tap_flow_kg_s, attempt.backup_on()));
    if (most == 1) return single(plant, begun, weather, now, actions, tap_flow_kg_s);
    if (attempt.is_driven_otherwise(plant.last)) {
        plant.stride_s = std::min(plant.stride_s, after_switching_s);
    }
    const double wanted_s = plant.stride_s;
    int seconds = std::clamp(static_cast<int>(wanted_s), 1, most);
    double error = 0.0;
    double growth = most_factor;
    for (;;) {
        attempt.step(plant.amounts, seconds);
        error = attempt.error();
        if (error <= 1.0) error = std::max(error, attempt.defect(plant.amounts, seconds));
        if (error <= 1.0) break;
        if (seconds == 1) {  // too stiff for one step: by substeps, which are counted for it
            plant.stride_s = 1.0;
            return single(plant, begun, weather, now, actions, tap_flow_kg_s);
        }
        growth = 1.0;
        seconds = std::clamp(static_cast<int>(scaled(seconds, error, growth)), 1, seconds - 1);
    }
    double next_s = scaled(seconds, error, growth);
    // A stride that had to end early says little of how far the next may reach.
    if (growth > 1.0 && seconds < static_cast<int>(wanted_s)) next_s = std::max(next_s, wanted_s);
    plant.stride_s = std::clamp(next_s, 1.0, longest_stride_s);
    StrideReport report;
    attempt.tell(plant.amounts, seconds, report);
    attempt.carry_to_end(plant.amounts);
    plant.modes.loop.calm_s += seconds - 1;
    end_stretch(plant, begun, seconds, report.step);
    plant.last = report.step;
    for (double& edge : plant.last.edges) edge /= seconds;  // watts in the mean, as always
    report_delivery(report.cold_j_kg, plant.last);
    return report;
}

namespace {

double amount_within(const PlantCourse& all, std::size_t i, const Hermite& cubic) {
    return cubic.between(all.at_start[i], all.at_end[i], all.slope_at_start[i],
                         all.slope_at_end[i]);
}

}  // namespace

StepReport second_within(const Plant& plant, const StrideReport& report, int second) {
    if (report.seconds == 1) return plant.last;
    const PlantCourse& all = report.all;
    const double seconds = report.seconds;
    const Hermite until(second / seconds, seconds);
    const Hermite from((second - 1) / seconds, seconds);
    StepReport step = report.step;
    const auto edges = static_cast<std::size_t>(plant.circuit->layout.edges_first);
    for (std::size_t e = 0; e < step.edges.size(); ++e) {
        step.edges[e] = amount_within(all, edges + e, until) - amount_within(all, edges + e, from);
    }
    step.flow_m3_s = all.flow_at_start_m3_s +
                     (second - 0.5) / seconds * (all.flow_at_end_m3_s - all.flow_at_start_m3_s);
    report_delivery(report.cold_j_kg, step);
    return step;
}

void show_within(Plant& plant, const StrideReport& report, int second) {
    const auto edges = static_cast<std::size_t>(plant.circuit->layout.edges_first);
    const double seconds = report.seconds;
    const Hermite cubic(second / seconds, seconds);
    for (std::size_t i = 0; i < edges; ++i) {
        plant.amounts[i] = amount_within(report.all, i, cubic);
    }
    plant.last = second_within(plant, report, second);
}

}  // namespace noonbench::plant
