// SPDX-License-Identifier: MIT
// Coils in the store. The solar coil holds fluid: one cell for each layer it reaches, fed from the
// top, so that a standing coil takes the store's temperature and gives it back at the next start.
#pragma once
#include "parameters.hpp"

#include <vector>

namespace noonbench::plant {

struct LayerShare {
    int layer = 0;
    double share = 0.0;
};

/// Layers reached between two heights (shares of the store's), from the bottom up, with the share
/// of the coil in each. A sliver of less than a quarter of a layer goes to the others, since it
/// would only make a small, fast cell.
[[nodiscard]] std::vector<LayerShare> layers_between(double from_height, double to_height,
                                                     int layers);

/// Effectiveness of an exchanger with one isothermal side: 1 - exp(-UA/(m cp)).
[[nodiscard]] double isothermal_effectiveness(double ua_w_k, double flow_w_k);
/// Counterflow, ratio = least / most capacity flow.
[[nodiscard]] double counterflow_effectiveness(double transfer_units, double ratio);
/// Parallel flow.
[[nodiscard]] double parallel_effectiveness(double transfer_units, double ratio);

/// Conductance between a stirred cell of fluid and its layer, W/K, which gives the steady outlet of
/// isothermal_effectiveness for up to 3 transfer units in the one cell (0.95 from there on), and
/// never less than the standing coil's `ua_w_k`.
[[nodiscard]] double cell_conductance_w_k(double ua_w_k, double flow_w_k);

}  // namespace noonbench::plant
