// SPDX-License-Identifier: MIT
// The controller's board: the firmware with its power and the memory that outlives a power cut.
#pragma once
#include "firmware-model/controller.hpp"

namespace noonbench::harness {

struct ControllerBoard {
    firmware::Settings settings{};
    firmware::State state{};
    firmware::Outputs outputs{};
    firmware::Persistent saved{};
    bool powered = true;      // mains reaches the board
    bool was_powered = true;  // at the tick before
};

/// One second of the board. The memory is written when it is due and whenever a setting was
/// changed; power that comes back finds what was written last.
void run_board(ControllerBoard& board, const firmware::Inputs& inputs, bool save_is_due);

/// Whether the controller drives, reasons and advises alike; readings and counters do not matter.
[[nodiscard]] bool acts_alike(const firmware::Outputs& a, const firmware::Outputs& b);

}  // namespace noonbench::harness
