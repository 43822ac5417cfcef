// SPDX-License-Identifier: MIT
#include "hand_move.hpp"

#include "messages.hpp"

#include "harness/scenario/move_text.hpp"

namespace noonbench::harness {

HandMoveText move_text(const boost::json::object& body) {
    return {0, word_in(body, "kind"), word_in(body, "name"), word_in(body, "to"),
            static_cast<std::int32_t>(whole_in(body, "over_s"))};
}

Move understood_move(const HandMoveText& text, const Scenario& scenario) {
    MoveDraft draft;
    draft.at_s = text.at_s;
    draft.over_s = text.over_s;
    Raw* raw = text.kind == "setting" ? &draft.setting
               : text.kind == "lever" ? &draft.lever
               : text.kind == "hand"  ? &draft.hand
                                      : &draft.wire;
    *raw = {text.name, {}, true};
    draft.to = {text.to, {}, true};
    const Parsed<Move> move = understood(draft, scenario);
    if (!move.value) throw WishRefused(move.what + "; allowed: " + move.allowed);
    return *move.value;
}

}  // namespace noonbench::harness
