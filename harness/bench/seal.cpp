// SPDX-License-Identifier: MIT
#include "seal.hpp"

#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

bool is_on_display(const Move& move) {
    if (std::holds_alternative<SettingMove>(move.what)) return true;
    const auto* wire = std::get_if<OtherWireMove>(&move.what);
    return wire != nullptr && wire->wire == OtherWire::mains_power;
}

}  // namespace

Scenario sealed(Scenario scenario) {
    scenario.name = "sealed";
    scenario.title = "Sealed: find the fault";
    scenario.about.clear();
    scenario.fault.reset();
    scenario.require.clear();
    scenario.uncertain.clear();
    scenario.record.sealed = true;
    return scenario;
}

/// `because` of a move's event is the name of its fault, see Recorder.
bool tells_fault(const traces::Event& event) {
    if (event.what == "lever") return true;
    const bool is_move = event.what == "setting" || event.what == "hand" || event.what == "wire";
    return is_move && !event.because.empty();
}

bool tells_fault(const Move& move) {
    return std::holds_alternative<LeverMove>(move.what) || !move.fault.empty();
}

std::vector<traces::Event> without_telling(std::vector<traces::Event> events) {
    std::erase_if(events, [](const traces::Event& event) { return tells_fault(event); });
    return events;
}

std::vector<Move> shown_moves(const std::vector<Move>& moves) {
    std::vector<Move> shown;
    for (const Move& move : moves) {
        if (!tells_fault(move)) {
            shown.push_back(move);
        } else if (is_on_display(move)) {
            shown.push_back({move.at_s, 0, move.what, {}, {}, {}});
        }
    }
    return shown;
}

}  // namespace noonbench::harness
