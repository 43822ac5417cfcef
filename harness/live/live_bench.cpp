// SPDX-License-Identifier: MIT
#include "live_bench.hpp"

#include <algorithm>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr CivilSeconds frame_every_s = 3600;
constexpr std::size_t most_frames = 48;
// No stride begins by reaching further. So the strides before that long ahead of a move are the
// same with and without it.
constexpr CivilSeconds longest_reach_s = 3600;

}  // namespace

LiveBench::LiveBench(Bench start)
    : columns_(columns_of(start.scenario())),
      frames_{start},
      frame_notes_{EventNotes{}},
      now_(std::move(start)) {
    play(now_.now());
}

CivilSeconds LiveBench::last_s() const {
    return scenario().start_s + scenario().length_s - 1;
}

SeenTick LiveBench::tick_of(const Bench& bench) const {
    SeenTick tick;
    tick.at_s = bench.now();
    tick.values.reserve(columns_.size());
    for (const Column& column : columns_) {
        tick.values.push_back(static_cast<float>(column.value(bench)));
    }
    tick.outputs = bench.outputs();
    tick.settings = bench.settings();
    tick.counts = bench.counts();
    tick.hands = bench.hands();
    tick.powered = bench.controller_powered();
    return tick;
}

void LiveBench::stride() {
    now_.decide();
    ahead_.push_back(tick_of(now_));
    ahead_.back().events = notes_.after_decision(now_);
    const InBetween between{1, [this](const Bench& bench) { ahead_.push_back(tick_of(bench)); },
                            Passing::skipping};
    now_.stride(last_s() + 1, between);
    keep_frame();
}

/// One an hour; of many only every second is kept, the oldest first.
void LiveBench::keep_frame() {
    if (now_.now() - frames_.back().now() < frame_every_s) return;
    frames_.push_back(now_);
    frame_notes_.push_back(notes_);
    if (frames_.size() <= most_frames) return;
    std::size_t thinnest = 1;  // the one whose neighbours are nearest to each other
    for (std::size_t i = 1; i + 1 < frames_.size(); ++i) {
        const auto gap = [&](std::size_t k) { return frames_[k + 1].now() - frames_[k - 1].now(); };
        if (gap(i) < gap(thinnest)) thinnest = i;
    }
    frames_.erase(frames_.begin() + static_cast<std::ptrdiff_t>(thinnest));
    frame_notes_.erase(frame_notes_.begin() + static_cast<std::ptrdiff_t>(thinnest));
}

void LiveBench::play(CivilSeconds to, const ShowTick& show) {
    const CivilSeconds end = std::min(to, last_s());
    for (;;) {
        if (ahead_.empty()) {
            if (now_.now() > end) return;
            stride();
        }
        if (ahead_.front().at_s > end) return;
        seen_ = std::move(ahead_.front());
        ahead_.pop_front();
        if (show) show(seen_);
    }
}

/// To the last frame at `to` or before it; what came later is dropped.
void LiveBench::go_back(CivilSeconds to) {
    while (frames_.size() > 1 && frames_.back().now() > to) {
        frames_.pop_back();
        frame_notes_.pop_back();
    }
    now_ = frames_.back();
    notes_ = frame_notes_.back();
    ahead_.clear();
}

void LiveBench::make(Move move) {
    const CivilSeconds shown = seen_.at_s;
    move.at_s = std::max(move.at_s, shown + 1);
    go_back(move.at_s - longest_reach_s);
    for (Bench& frame : frames_) frame.add(move);
    now_.add(move);
    play(shown);
}

void LiveBench::rewind(CivilSeconds to, Later later) {
    to = std::clamp(to, scenario().start_s, last_s());
    if (later == Later::kept) {
        go_back(to);
    } else {
        go_back(to - longest_reach_s);
        for (Bench& frame : frames_) frame.forget_added(to);
        now_.forget_added(to);
    }
    play(to);
}

void LiveBench::tell_again(std::int64_t every_s, const ShowTick& show) const {
    Bench again = frames_.front();
    EventNotes notes;
    const InBetween between{every_s,
                            [&](const Bench& bench) {
                                if (bench.now() <= seen_.at_s) show(tick_of(bench));
                            },
                            Passing::skipping};
    while (again.now() <= seen_.at_s) {
        again.decide();
        SeenTick tick = tick_of(again);
        tick.events = notes.after_decision(again);
        show(tick);
        again.stride(last_s() + 1, between);
    }
}

}  // namespace noonbench::harness
