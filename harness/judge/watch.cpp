// SPDX-License-Identifier: MIT
#include "watch.hpp"

#include "kernels.hpp"

#include <algorithm>
#include <concepts>
#include <limits>

namespace noonbench::harness {
namespace {

constexpr std::int64_t no_stop = std::numeric_limits<std::int64_t>::max();

}  // namespace

Watch::Watch(const RunState& run, const WatchOrder& order) : run_(&run), order_(order) {
    lag_blocks_ = order.body->ahead();
    if (order.before != nullptr) lag_blocks_ = std::max(lag_blocks_, order.before->ahead());
    const Window& window = order.window;
    from_slot_ = run.first_slot + window.from_s;
    stop_slot_ = window.until_s == Window::endless ? no_stop : run.first_slot + window.until_s + 1;
    const bool always = order.op == Formula::Op::always;
    progress_.best.margin = always ? endless_margin : -endless_margin;
    progress_.held = endless_margin;
    // Only an until has business before its window: what must hold until then.
    if (order.op != Formula::Op::until) progress_.next_block = block_of(from_slot_);
}

void Watch::announce() const {
    order_.body->need(lag_blocks_);
    if (order_.before != nullptr) order_.before->need(lag_blocks_);
}

void Watch::look_up_to(std::int64_t newest_block) {
    while (progress_.next_block <= newest_block - lag_blocks_ &&
           progress_.next_block * block_ticks < stop_slot_) {
        look(progress_.next_block++, stop_slot_, progress_);
    }
}

Decided Watch::decided() const {
    Progress progress = progress_;
    std::int64_t stop = std::min(stop_slot_, run_->end_slot);
    // All ticks after the end are alike: one stands for them.
    const bool beyond = run_->ending == Ending::low || run_->ending == Ending::high;
    if (stop_slot_ != no_stop && beyond) {
        stop = std::min(stop_slot_, std::max(run_->end_slot, from_slot_) + 1);
    }
    if (beyond && order_.op != Formula::Op::until) {
        progress.next_block = std::max(progress.next_block, block_of(from_slot_));
    }
    while (progress.next_block * block_ticks < stop) look(progress.next_block++, stop, progress);
    return progress.best;
}

void Watch::look(std::int64_t block, std::int64_t stop, Progress& progress) const {
    const std::int64_t start = block * block_ticks;
    const std::int64_t first = order_.op == Formula::Op::until ? run_->first_slot : from_slot_;
    const Slots slots{std::max(start, first), std::min(start + block_ticks, stop)};
    if (slots.from >= slots.stop) return;
    switch (order_.op) {
        case Formula::Op::always:
            return look_for_extremum<Least>(block, slots, progress);
        case Formula::Op::sometime:
            return look_for_extremum<Most>(block, slots, progress);
        default:
            return look_for_goal(block, slots, progress);
    }
}

template <class Combine>
void Watch::look_for_extremum(std::int64_t block, Slots slots, Progress& progress) const {
    double& best = progress.best.margin;
    if (best == -Combine::neutral) return;
    const Bounds& bounds = order_.body->bounds(block);
    const double reach = std::same_as<Combine, Least> ? bounds.lo : bounds.hi;
    if (Combine::of(best, reach) == best) return;
    const double* x = order_.body->values(block) + place_of(slots.from);
    const auto count = static_cast<std::size_t>(slots.stop - slots.from);
    const double found = folded<Combine>(x, count);
    if (Combine::of(best, found) == best) return;
    best = found;
    progress.best.slot = decided_at(slots.from + (std::find(x, x + count, found) - x));
}

void Watch::look_for_goal(std::int64_t block, Slots slots, Progress& progress) const {
    double& best = progress.best.margin;
    if (progress.held <= best) return;
    const bool hopeless = std::min(order_.body->bounds(block).hi, progress.held) <= best;
    if (hopeless && order_.before->bounds(block).lo >= progress.held) return;
    const std::size_t offset = place_of(slots.from);
    const auto count = static_cast<std::size_t>(slots.stop - slots.from);
    if (hopeless) {
        const double* before = order_.before->values(block) + offset;
        progress.held = std::min(progress.held, folded<Least>(before, count));
        return;
    }
    const double* before = order_.before->values(block) + offset;
    const double* goal = order_.body->values(block) + offset;
    std::int64_t best_slot = -1;
    for (std::size_t i = 0; i < count; ++i) {
        const std::int64_t slot = slots.from + static_cast<std::int64_t>(i);
        const double margin = std::min(goal[i], progress.held);
        if (slot >= from_slot_ && margin > best) {
            best = margin;
            best_slot = slot;
        }
        progress.held = std::min(progress.held, before[i]);
    }
    if (best_slot >= 0) progress.best.slot = decided_at(best_slot);
}

std::int64_t Watch::decided_at(std::int64_t slot) const {
    return slot < run_->end_slot ? order_.body->decided_at(slot) : -1;
}

}  // namespace noonbench::harness
