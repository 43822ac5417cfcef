// SPDX-License-Identifier: MIT
#include "event_notes.hpp"

#include "seal.hpp"
#include "words.hpp"

#include "harness/scenario/wire_names.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace noonbench::harness {
namespace {

using firmware::AdviceKind;

const char* word(bool on) {
    return on ? "on" : "off";
}

std::string target_text(const MoveOf& what) {
    if (const auto* m = std::get_if<SettingMove>(&what)) return setting_text(m->setting, m->to);
    if (const auto* m = std::get_if<LeverMove>(&what)) return fmt::format("{:g}", m->to);
    if (const auto* m = std::get_if<WireMove>(&what)) {
        const auto words = wire_fields()[static_cast<std::size_t>(m->field)].words;
        return words.empty() ? fmt::format("{:g}", m->to)
                             : std::string(words[static_cast<std::size_t>(m->to)]);
    }
    if (const auto* m = std::get_if<OtherWireMove>(&what)) {
        return m->connected ? "connected" : "cut";
    }
    constexpr std::array words{"none", "automatic", "on", "off"};
    return words[static_cast<std::size_t>(std::get<HandMove>(what).to)];
}

std::string span_text(std::int32_t seconds) {
    if (seconds % 86400 == 0) return fmt::format("{} days", seconds / 86400);
    return seconds % 60 == 0 ? fmt::format("{} min", seconds / 60) : fmt::format("{} s", seconds);
}

/// A dark controller has no reason at all.
template <typename Reason>
std::string reason_word(Reason reason, bool powered) {
    return powered ? firmware::name_of(reason) : "no_mains";
}

/// The sentence for a change of reason; in the dark there is none to give.
template <typename Reason>
std::string because_of(Reason reason, const Bench& bench) {
    if (!bench.controller_powered()) return "No mains: the controller is dark, nothing is driven.";
    return filled(sentence_template(reason, bench.settings()), bench.outputs());
}

const char* kind_of(const MoveOf& what) {
    constexpr std::array kinds{"setting", "lever", "hand", "wire", "wire"};
    return kinds[what.index()];
}

}  // namespace

void EventNotes::note(const Bench& bench, std::string what, std::string name, std::string from,
                      std::string to, std::string because) {
    events_.push_back({bench.now(), std::move(what), std::move(name), std::move(from),
                       std::move(to), std::move(because)});
}

/// A slide is told twice: where it sets out and where it has arrived. Of what a sealed run hides
/// nothing is told.
void EventNotes::note_moves(const Bench& bench) {
    const bool is_sealed = bench.scenario().record.sealed;
    for (const std::size_t index : bench.slid_home()) {
        const Move& move = bench.scenario().moves[index];
        if (is_sealed && tells_fault(move)) continue;
        note(bench, kind_of(move.what), move.name, "sliding", target_text(move.what), move.fault);
    }
    for (const std::size_t index : bench.moved()) {
        const Move& move = bench.scenario().moves[index];
        if (is_sealed && tells_fault(move)) continue;
        std::string to = target_text(move.what);
        if (move.over_s > 0) to = fmt::format("sliding to {} over {}", to, span_text(move.over_s));
        note(bench, kind_of(move.what), move.name, "", std::move(to), move.fault);
    }
}

void EventNotes::note_advice(const Bench& bench) {
    const firmware::Advice advice = bench.outputs().advice;
    if (!first_ && advice == before_.advice) return;
    for (std::size_t i = 0; i < firmware::advice_count; ++i) {
        const auto kind = static_cast<AdviceKind>(i);
        const bool was = !first_ && before_.advice.has(kind);
        if (advice.has(kind) == was) continue;
        note(bench, "advice", name_of(kind), word(was), word(!was), text_of(kind));
    }
}

void EventNotes::note_relay(const Bench& bench, const char* name, bool before, bool now) {
    if (!first_ && before == now) return;
    note(bench, "relay", name, first_ ? "" : word(before), word(now));
}

/// Reasons come before relays, so that a chain of events reads as cause and effect.
std::vector<traces::Event> EventNotes::after_decision(const Bench& bench) {
    events_.clear();
    const firmware::Outputs& out = bench.outputs();
    note_moves(bench);
    const bool powered = bench.controller_powered();
    const bool power_changed = powered != was_powered_;
    if (first_ || power_changed || out.pump_reason != before_.pump_reason) {
        note(bench, "reason", "pump_reason",
             first_ ? "" : reason_word(before_.pump_reason, was_powered_),
             reason_word(out.pump_reason, powered), because_of(out.pump_reason, bench));
    }
    note_relay(bench, "pump_relay", before_.pump_relay, out.pump_relay);
    if (first_ || power_changed || out.backup_reason != before_.backup_reason) {
        note(bench, "reason", "backup_reason",
             first_ ? "" : reason_word(before_.backup_reason, was_powered_),
             reason_word(out.backup_reason, powered), because_of(out.backup_reason, bench));
    }
    note_relay(bench, "backup_relay", before_.backup_relay, out.backup_relay);
    was_powered_ = powered;
    note_advice(bench);
    const bool tripped = bench.plant().modes.high_limit_tripped;
    if (tripped != tripped_) {
        note(bench, "mode", "high_limit_stat", tripped_ ? "open" : "closed",
             tripped ? "open" : "closed",
             "hard-wired safety stat of the store; it does not reset by itself");
        tripped_ = tripped;
    }
    before_ = out;
    first_ = false;
    return std::move(events_);
}

}  // namespace noonbench::harness
