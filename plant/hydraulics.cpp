// SPDX-License-Identifier: MIT
#include "hydraulics.hpp"

#include "fluid.hpp"
#include "si.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::plant {
namespace {

// Common practice, no source, all three: a straight ball valve, a clean strainer and the body of an
// open check valve, on the pipe's own bore.
constexpr double loop_valve_zeta = 0.3;
constexpr double strainer_zeta = 3.0;
constexpr double check_valve_zeta = 8.0;

// Below it nothing moves, so that equal temperatures give exactly no flow.
constexpr double dead_band_pa = 0.01;

struct TubeNow {
    double reynolds_s_kg = 0.0;
    double friction_pa_s_kg = 0.0;
    double roughness_term = 0.0;
};

// One row: y = linear m + quadratic m^2 with y the head above its own threshold.
struct RowNow {
    double linear = 0.0;
    double quadratic = 0.0;
    double threshold_pa = 0.0;  // by how much the strongest row's buoyancy is ahead
    double share = 1.0;         // row_N_flow_factor
};

// The loop in one direction, all flows positive along it.
struct Path {
    std::array<TubeNow, 3> tubes{};
    double quadratic = 0.0;  // Pa/(kg/s)^2 of all that goes with the square
    double drive_pa = 0.0;   // at rest, check valve's opening taken off
    std::array<RowNow, most_rows> rows{};
    std::size_t row_count = 0;
};

struct Rise {
    double value = 0.0;
    double slope = 0.0;
};

Rise chain_drop_pa(const Path& path, double flow_kg_s) {
    Rise drop{path.quadratic * flow_kg_s * flow_kg_s, 2.0 * path.quadratic * flow_kg_s};
    for (const TubeNow& tube : path.tubes) {
        const double reynolds = tube.reynolds_s_kg * flow_kg_s;
        const FrictionProduct product = friction_product(reynolds, tube.roughness_term);
        drop.value += tube.friction_pa_s_kg * product.phi * flow_kg_s;
        drop.slope += tube.friction_pa_s_kg * (product.phi + product.slope * reynolds);
    }
    return drop;
}

// Flow of all rows under the head of the strongest one; closed form of each row's quadratic.
Rise rows_flow_kg_s(const Path& path, double head_pa, std::array<double, most_rows>& row_kg_s) {
    Rise sum;
    for (std::size_t r = 0; r < path.row_count; ++r) {
        const RowNow& row = path.rows[r];
        const double own_pa = head_pa - row.threshold_pa;
        row_kg_s[r] = 0.0;
        if (own_pa <= 0.0 || row.share <= 0.0) continue;
        const double root = std::sqrt(row.linear * row.linear + 4.0 * row.quadratic * own_pa);
        row_kg_s[r] = row.share * 2.0 * own_pa / (row.linear + root);
        sum.value += row_kg_s[r];
        sum.slope += row.share / root;
    }
    return sum;
}

// Head of the rows at the flow that all-laminar friction would give, as if all thresholds were
// zero: not below the root's by much, and worked out from the state alone.
double first_head_pa(const Path& path) {
    double per_linear = 0.0;
    double per_root = 0.0;
    for (std::size_t r = 0; r < path.row_count; ++r) {
        per_linear += path.rows[r].share / path.rows[r].linear;
        per_root += path.rows[r].share / std::sqrt(path.rows[r].quadratic);
    }
    const double rows_linear = 1.0 / per_linear;
    const double rows_quadratic = 1.0 / (per_root * per_root);
    double linear = rows_linear;
    for (const TubeNow& tube : path.tubes) linear += 64.0 * tube.friction_pa_s_kg;
    const double quadratic = path.quadratic + rows_quadratic;
    const double flow_kg_s =
        2.0 * path.drive_pa /
        (linear + std::sqrt(linear * linear + 4.0 * quadratic * path.drive_pa));
    return flow_kg_s * (rows_linear + rows_quadratic * flow_kg_s);
}

// drive = chain(m(head)) + head: the right side rises with the head, from 0 at 0 to more than
// drive at drive, so the root is unique and lies between.
LoopFlow solve_path(const Path& path) {
    constexpr int most_evaluations = 100;
    constexpr double last_newton_step = 1e-5;  // relative; what is left is about its square
    constexpr double last_halving = 1e-10;
    LoopFlow flow;
    double low_pa = 0.0;
    double high_pa = path.drive_pa;
    double head_pa = std::min(first_head_pa(path), high_pa);
    double step_pa = 2.0 * high_pa;  // the first may go anywhere
    while (flow.evaluations < most_evaluations) {
        ++flow.evaluations;
        const Rise rows = rows_flow_kg_s(path, head_pa, flow.row_kg_s);
        const Rise chain = chain_drop_pa(path, rows.value);
        const double miss_pa = path.drive_pa - chain.value - head_pa;
        (miss_pa > 0.0 ? low_pa : high_pa) = head_pa;
        double next_pa = head_pa + miss_pa / (chain.slope * rows.slope + 1.0);
        // Where a row begins to flow the curve has a kink, over which Newton may jump for ever: a
        // step must stay inside and be no more than half of the last one.
        const bool good =
            next_pa >= low_pa && next_pa <= high_pa && std::abs(next_pa - head_pa) <= 0.5 * step_pa;
        if (!good) next_pa = 0.5 * (low_pa + high_pa);
        step_pa = std::abs(next_pa - head_pa);
        head_pa = next_pa;
        if (step_pa <= (good ? last_newton_step : last_halving) * head_pa) break;
    }
    flow.total_kg_s = rows_flow_kg_s(path, head_pa, flow.row_kg_s).value;
    return flow;
}

std::array<double, most_rows> row_shares(const Levers& levers) {
    return {levers.row_1_flow_factor, levers.row_2_flow_factor, levers.row_3_flow_factor,
            levers.row_4_flow_factor, levers.row_5_flow_factor};
}

// -g sum rho dz from the hot pipe's top to the cold pipe's top, in the pump's direction. Heights
// add up to nothing, so every density counts from the cold pipe's.
double chain_buoyancy_pa(const LoopHydraulics& h, const LoopFluids& f, bool coil_crossed) {
    const double reference = f.cold_pipe.density_kg_m3;
    const auto above = [reference](const FluidProperties& fluid) {
        return fluid.density_kg_m3 - reference;
    };
    const double enters_m = coil_crossed ? h.coil_bottom_m : h.coil_top_m;
    const double leaves_m = coil_crossed ? h.coil_top_m : h.coil_bottom_m;
    return standard_gravity_m_s2 *
           (above(f.hot_pipe) * h.height_m - above(f.station_hot) * enters_m +
            above(f.coil) * (enters_m - leaves_m) + above(f.station_cold) * leaves_m);
}

// Between the two pipes' tops: the row rises, and the branch to its lower end holds cold pipe's
// fluid. With the pipes crossed at the roof it falls, and the branch back up holds the hot pipe's.
double row_buoyancy_pa(const LoopHydraulics& h, const LoopFluids& f, std::size_t row,
                       bool pipes_crossed) {
    const double own = f.rows[row].density_kg_m3;
    const double lighter =
        pipes_crossed ? own - f.hot_pipe.density_kg_m3 : f.cold_pipe.density_kg_m3 - own;
    return standard_gravity_m_s2 * lighter * h.rows[row].rise_m;
}

struct Drive {
    double rest_pa = 0.0;  // with the strongest row
    double strongest_row_pa = 0.0;
    std::array<double, most_rows> row_pa{};
    bool open = false;  // some row lets fluid pass
};

Drive drive_of(const LoopHydraulics& h, const LoopFluids& f, double level, const Levers& levers) {
    Drive drive;
    const bool pipes_crossed = is_set(levers.collector_pipes_crossed);
    const std::array<double, most_rows> shares = row_shares(levers);
    for (std::size_t r = 0; r < h.row_count; ++r) {
        drive.row_pa[r] = row_buoyancy_pa(h, f, r, pipes_crossed);
        if (shares[r] <= 0.0) continue;
        drive.strongest_row_pa =
            drive.open ? std::max(drive.strongest_row_pa, drive.row_pa[r]) : drive.row_pa[r];
        drive.open = true;
    }
    const double pump_pa = f.station_cold.density_kg_m3 * h.shut_off_j_kg * level * level;
    drive.rest_pa = pump_pa + chain_buoyancy_pa(h, f, is_set(levers.coil_ports_crossed)) +
                    drive.strongest_row_pa;
    return drive;
}

TubeNow tube_now(const Tube& tube, const FluidProperties& fluid, double thickening) {
    const double viscosity = fluid.viscosity_pa_s * thickening;
    return {tube.reynolds_1_m / viscosity, tube.friction_1_m3 * viscosity / fluid.density_kg_m3,
            tube.roughness_term};
}

double squared(double x) {
    return x * x;
}

// `check_valve_open`: 1 = wide open, below it the leak's share of the opening.
Path path_of(const LoopHydraulics& h, const LoopFluids& f, const Levers& levers,
             double check_valve_open) {
    Path path;
    const double thick = levers.fluid_thickening;
    path.tubes = {tube_now(h.hot_pipe, f.hot_pipe, thick), tube_now(h.coil, f.coil, thick),
                  tube_now(h.cold_pipe, f.cold_pipe, thick)};
    const double zeta = h.fittings_zeta + h.setter_zeta +
                        check_valve_zeta / squared(check_valve_open) +
                        strainer_zeta / squared(1.0 - levers.strainer_clogging) +
                        loop_valve_zeta / squared(levers.loop_valve_opening);
    path.quadratic = (h.pump_1_m4 + zeta * h.zeta_1_m4) / f.station_cold.density_kg_m3;
    path.row_count = h.row_count;
    const std::array<double, most_rows> shares = row_shares(levers);
    for (std::size_t r = 0; r < h.row_count; ++r) {
        const FluidProperties& fluid = f.rows[r];
        path.rows[r] = {h.rows[r].laminar_1_m3 * fluid.viscosity_pa_s * thick / fluid.density_kg_m3,
                        h.rows[r].local_1_m4 / fluid.density_kg_m3, 0.0, shares[r]};
    }
    return path;
}

double without_missing_column_pa(double drive_pa, double missing_pa) {
    if (missing_pa <= 0.0) return drive_pa;
    return std::copysign(std::max(std::abs(drive_pa) - missing_pa, 0.0), drive_pa);
}

// Gas in a row holds back the rest of its flow: rough, and linear so that a row that runs dry
// carries no heat.
LoopFlow passing(LoopFlow flow, const LoopObstacles& obstacles) {
    double sum_kg_s = 0.0;
    for (std::size_t r = 0; r < flow.row_kg_s.size(); ++r) {
        flow.row_kg_s[r] *= obstacles.passable[r];
        sum_kg_s += flow.row_kg_s[r];
    }
    flow.total_kg_s = sum_kg_s;
    return flow;
}

}  // namespace

LoopFluids uniform_fluids(const LoopHydraulics& hydraulics, double t_c) {
    const FluidProperties fluid = hydraulics.fluid.at(t_c);
    LoopFluids fluids{fluid, fluid, fluid, fluid, fluid, {}};
    fluids.rows.fill(fluid);
    return fluids;
}

double drive_at_rest_pa(const LoopHydraulics& hydraulics, const LoopFluids& fluids, double level,
                        const Levers& levers) {
    return drive_of(hydraulics, fluids, level, levers).rest_pa;
}

LoopFlow solve_loop(const LoopHydraulics& hydraulics, const LoopFluids& fluids, double level,
                    const Levers& levers, const LoopObstacles& obstacles) {
    Drive drive = drive_of(hydraulics, fluids, level, levers);
    drive.rest_pa = without_missing_column_pa(drive.rest_pa, obstacles.missing_pa);
    if (!drive.open || levers.loop_valve_opening <= 0.0) return {};
    const bool held = is_set(levers.check_valve_held_open);
    const double opening_pa = held ? dead_band_pa : std::max(hydraulics.opening_pa, dead_band_pa);
    if (drive.rest_pa > opening_pa) {
        Path path = path_of(hydraulics, fluids, levers, 1.0);
        path.drive_pa = drive.rest_pa - opening_pa;
        for (std::size_t r = 0; r < path.row_count; ++r) {
            path.rows[r].threshold_pa = drive.strongest_row_pa - drive.row_pa[r];
        }
        return passing(solve_path(path), obstacles);
    }
    const double leak = held ? 1.0 : levers.check_valve_leak;
    if (!(drive.rest_pa < -dead_band_pa) || leak <= 0.0) return {};
    // Backward all rows count with the strongest one's buoyancy: so the flow starts from nothing
    // where the drive changes its sign.
    Path path = path_of(hydraulics, fluids, levers, leak);
    path.drive_pa = -drive.rest_pa - dead_band_pa;
    LoopFlow flow = passing(solve_path(path), obstacles);
    flow.total_kg_s = -flow.total_kg_s;
    for (double& row_kg_s : flow.row_kg_s) row_kg_s = -row_kg_s;
    return flow;
}

Tube make_tube(double length_m, double bore_m, double roughness_m) {
    const double section_m2 = std::numbers::pi / 4.0 * bore_m * bore_m;
    return {4.0 / (std::numbers::pi * bore_m), length_m / (2.0 * bore_m * bore_m * section_m2),
            haaland_roughness_term(roughness_m / bore_m)};
}

namespace {

RowTubes make_row(const Row& row) {
    const Absorber& absorber = row.collector.absorber;
    const double series = row.collectors_in_series;
    const Tube riser = make_tube(absorber.riser_length_m, absorber.riser_bore_m, 0.0);
    const double connection_m2 = std::numbers::pi / 4.0 * squared(absorber.connection_bore_m);
    return {series * 64.0 * riser.friction_1_m3 / absorber.risers,
            series * absorber.connection_zeta / (2.0 * squared(connection_m2)),
            absorber.riser_length_m * std::sin(row.slope_rad)};
}

// zeta of the flow setter that leaves exactly the full flow, negative when the pump is too weak.
double commissioned_setter_zeta(const LoopHydraulics& h, double full_kg_s) {
    constexpr double commissioning_c = 40.0;
    const LoopFluids fluids = uniform_fluids(h, commissioning_c);
    const Path path = path_of(h, fluids, Levers{}, 1.0);
    const double drive_pa =
        drive_of(h, fluids, 1.0, Levers{}).rest_pa - std::max(h.opening_pa, dead_band_pa);
    double low_pa = 0.0;
    double high_pa = std::max(drive_pa, 0.0);
    std::array<double, most_rows> row_kg_s{};
    for (int i = 0; i < 80; ++i) {
        const double middle_pa = 0.5 * (low_pa + high_pa);
        const bool too_little = rows_flow_kg_s(path, middle_pa, row_kg_s).value < full_kg_s;
        (too_little ? low_pa : high_pa) = middle_pa;
    }
    const double left_pa = drive_pa - high_pa - chain_drop_pa(path, full_kg_s).value;
    return left_pa * fluids.station_cold.density_kg_m3 / (h.zeta_1_m4 * squared(full_kg_s));
}

}  // namespace

LoopHydraulics make_hydraulics(const Parameters& parameters) {
    constexpr double copper_roughness_m = 1.5e-6;  // drawn tube, as on the Moody chart
    constexpr double steel_roughness_m = 45e-6;    // commercial steel, as on the Moody chart
    constexpr double station_above_floor_m = 1.5;  // common practice, no source
    const Loop& loop = parameters.loop;
    const Store& store = parameters.store;
    LoopHydraulics h;
    h.fluid = FluidTable(loop.glycol_mass_share);
    const auto bore = [](const PipeRun& run) { return run.outer_diameter_m - 2.0 * run.wall_m; };
    h.hot_pipe = make_tube(loop.hot_pipe.length_m, bore(loop.hot_pipe), copper_roughness_m);
    h.cold_pipe = make_tube(loop.cold_pipe.length_m, bore(loop.cold_pipe), copper_roughness_m);
    const Coil& coil = store.solar_coil;
    const double coil_m2 = std::numbers::pi / 4.0 * squared(coil.bore_m);
    h.coil = make_tube(coil.content_m3 / coil_m2, coil.bore_m, steel_roughness_m);
    h.row_count = parameters.rows.size();
    for (std::size_t r = 0; r < h.row_count; ++r) {
        h.rows[r] = make_row(parameters.rows[r]);
        h.rows[r].rise_m = std::min(h.rows[r].rise_m, loop.height_m);
    }
    h.height_m = loop.height_m;
    h.coil_top_m = coil.to_height * store.height_m - station_above_floor_m;
    h.coil_bottom_m = coil.from_height * store.height_m - station_above_floor_m;
    h.shut_off_j_kg = standard_gravity_m_s2 * loop.pump.shut_off_head_m;
    h.pump_1_m4 = h.shut_off_j_kg / squared(loop.pump.free_flow_m3_s);
    h.opening_pa = loop.check_valve_opening_pa;
    const double cold_m2 = std::numbers::pi / 4.0 * squared(bore(loop.cold_pipe));
    h.zeta_1_m4 = 1.0 / (2.0 * squared(cold_m2));
    h.fittings_zeta = loop.fittings_zeta;
    const double full_kg_s = loop.pump.full_flow_m3_s * density_kg_m3(loop.glycol_mass_share, 20.0);
    const double zeta = commissioned_setter_zeta(h, full_kg_s);
    h.full_flow_reached = zeta >= 0.0;
    h.setter_zeta = std::max(zeta, 0.0);
    return h;
}

}  // namespace noonbench::plant
