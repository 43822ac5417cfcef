// SPDX-License-Identifier: MIT
// What happens when: faults are named sets of moves, plain moves are what a hand did.
#include "key_making.hpp"
#include "move_text.hpp"

#include <fmt/format.h>

namespace noonbench::harness {

namespace {

std::vector<Objection> take_move(Draft& d) {
    const Parsed<Move> move = understood(d.move, d.scenario);
    if (!move.value) return {{move.what, move.allowed, place_of(d.move)}};
    d.scenario.moves.push_back(*move.value);
    d.scenario.moves.back().fault = d.fault.name;
    return {};
}

/// Without a name its moves would pass for those of a hand.
std::vector<Objection> take_fault_name(Draft& d) {
    if (!d.fault.name.empty()) return {};
    return {{"the fault has no name", "a few words", {}}};
}

std::vector<Key> move_items() {
    std::vector<Key> items;
    items.push_back(key_of(Form::moment, "at", "when; left out: from the start",
                           [](Draft& d) { return &d.move.at_s; }));
    items.push_back(key_of(Form::raw, "setting", "a setting of the controller",
                           [](Draft& d) { return &d.move.setting; }));
    items.push_back(
        key_of(Form::raw, "lever", "a lever of the plant", [](Draft& d) { return &d.move.lever; }));
    items.push_back(key_of(Form::raw, "hand", "pump or backup, to: on, off or automatic",
                           [](Draft& d) { return &d.move.hand; }));
    items.push_back(key_of(Form::raw, "wire", "a wire, such as collector.state",
                           [](Draft& d) { return &d.move.wire; }));
    items.push_back(required(key_of(Form::raw, "to", "the new value, written as its key wants it",
                                    [](Draft& d) { return &d.move.to; })));
    items.push_back(number_key("over", {"min", 0, 3650.0 * 1440},
                               "slides there over this time (levers and numbers on wires)",
                               [](Draft& d) { return &d.move.over_s; }));
    return items;
}

Key moves_key(std::string path, std::string meaning) {
    Key key = list_key(std::move(path), {"", 0, 10000}, std::move(meaning), move_items());
    key.begin = [](Draft& d) {
        d.move = {};
        d.move.at_s = d.scenario.start_s;
    };
    key.take = take_move;
    return key;
}

}  // namespace

void add_move_keys(std::vector<Key>& keys) {
    std::vector<Key> items;
    items.push_back(required(
        taken(key_of(Form::line, "name", "of the fault", [](Draft& d) { return &d.fault.name; }),
              take_fault_name)));
    items.push_back(key_of(Form::line, "about", "what it is, in a few sentences",
                           [](Draft& d) { return &d.fault.about; }));
    items.push_back(moves_key("moves", "what it moves, when"));
    Key faults = list_key("faults", {"", 0, 50}, "named sets of moves", std::move(items));
    faults.open = [](Draft& d) { d.fault = {}; };
    faults.begin = [](Draft& d) { d.fault = {}; };
    faults.take = [](Draft&) { return std::vector<Objection>{}; };
    keys.push_back(std::move(faults));
    Key moves = moves_key("moves", "what a hand did, at which second");
    moves.open = [](Draft& d) { d.fault = {}; };
    keys.push_back(std::move(moves));
}

}  // namespace noonbench::harness
