// SPDX-License-Identifier: MIT
#include "board.hpp"

namespace noonbench::harness {

void run_board(ControllerBoard& board, const firmware::Inputs& inputs, bool save_is_due) {
    if (!board.powered) {
        board.outputs = {};  // a dark display: nothing driven, nothing claimed
        board.was_powered = false;
        return;
    }
    if (!board.was_powered) {
        board.state = firmware::start(board.saved, inputs);
        board.was_powered = true;
    }
    board.outputs = firmware::tick(board.settings, inputs, board.state);
    const bool setting_changed = !(board.saved.settings == board.settings);
    if (setting_changed || save_is_due) {
        board.saved = firmware::to_save(board.settings, board.state, inputs);
    }
}

bool acts_alike(const firmware::Outputs& a, const firmware::Outputs& b) {
    return a.pump_relay == b.pump_relay && a.backup_relay == b.backup_relay &&
           a.drive_level_pct == b.drive_level_pct && a.speed_signal_pct == b.speed_signal_pct &&
           a.pump_reason == b.pump_reason && a.backup_reason == b.backup_reason &&
           a.advice == b.advice;
}

}  // namespace noonbench::harness
