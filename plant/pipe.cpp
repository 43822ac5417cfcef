// SPDX-License-Identifier: MIT
#include "pipe.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::plant {

double linear_transmittance_w_mk(double outer_diameter_m, double insulation_m,
                                 double conductivity_w_mk_of_it, double surface_w_m2k) {
    const double around_m = outer_diameter_m + 2.0 * insulation_m;
    const double insulation_mk_w =
        std::log(around_m / outer_diameter_m) / (2.0 * std::numbers::pi * conductivity_w_mk_of_it);
    const double surface_mk_w = 1.0 / (surface_w_m2k * std::numbers::pi * around_m);
    return 1.0 / (insulation_mk_w + surface_mk_w);
}

double pipe_content_m3_m(const PipeRun& run) {
    const double bore_m = run.outer_diameter_m - 2.0 * run.wall_m;
    return std::numbers::pi / 4.0 * bore_m * bore_m;
}

double pipe_metal_j_mk(const PipeRun& run) {
    constexpr double copper_kg_m3 = 8940.0;  // EN 1057 tube, as in its mass tables
    constexpr double copper_j_kgk = 385.0;   // common handbook value
    const double section_m2 = std::numbers::pi * (run.outer_diameter_m - run.wall_m) * run.wall_m;
    return section_m2 * copper_kg_m3 * copper_j_kgk;
}

std::vector<PipeCell> pipe_cells(const PipeRun& run, int cells, double fluid_density_kg_m3) {
    const double length_m = run.length_m / cells;
    const double u_w_mk = linear_transmittance_w_mk(run.outer_diameter_m, run.insulation_m,
                                                    run.insulation_w_mk, run.surface_w_m2k);
    std::vector<PipeCell> result;
    for (int i = 0; i < cells; ++i) {
        PipeCell cell;
        cell.fluid_kg = pipe_content_m3_m(run) * length_m * fluid_density_kg_m3;
        cell.metal_j_k = pipe_metal_j_mk(run) * length_m;
        const double outdoor_m = std::clamp(run.outdoor_m - i * length_m, 0.0, length_m);
        cell.to_air_w_k = u_w_mk * outdoor_m;
        cell.to_room_w_k = u_w_mk * (length_m - outdoor_m);
        result.push_back(cell);
    }
    return result;
}

double transit_step_response(int cells, double content_changes) {
    const double x = cells * content_changes;
    double term = std::exp(-x);
    double not_yet = 0.0;
    for (int k = 0; k < cells; ++k) {
        not_yet += term;
        term *= x / (k + 1);
    }
    return 1.0 - not_yet;
}

}  // namespace noonbench::plant
