// SPDX-License-Identifier: MIT
// The two legs between collector and station: copper tube with insulation, in cells along the flow.
// The first metres from the collector lie outdoors, the rest in the room.
#pragma once
#include "fluid.hpp"
#include "parameters.hpp"

#include <vector>

namespace noonbench::plant {

/// Linear transmittance of an insulated pipe in still surroundings, W/mK:
/// 1 / (ln(Da/Di)/(2 pi lambda) + 1/(h pi Da)), the form of ISO 12241.
[[nodiscard]] double linear_transmittance_w_mk(double outer_diameter_m, double insulation_m,
                                               double conductivity_w_mk, double surface_w_m2k);

/// Litres of fluid and joules per kelvin of copper in one metre.
[[nodiscard]] double pipe_content_m3_m(const PipeRun& run);
[[nodiscard]] double pipe_metal_j_mk(const PipeRun& run);

struct PipeCell {
    double fluid_kg = 0.0;
    double metal_j_k = 0.0;
    double to_air_w_k = 0.0;   // heat loss to the outside air
    double to_room_w_k = 0.0;  // and to the room
};
/// Cells of equal length, the first at the collector.
[[nodiscard]] std::vector<PipeCell> pipe_cells(const PipeRun& run, int cells,
                                               double fluid_density_kg_m3);

/// Exact answer of `cells` stirred cells in a row to a step at their inlet after a time of
/// `content_changes` (flow x time / content), 0..1: a Gamma distribution. Transit is not a plug.
[[nodiscard]] double transit_step_response(int cells, double content_changes);

}  // namespace noonbench::plant
