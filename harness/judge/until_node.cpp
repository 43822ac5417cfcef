// SPDX-License-Identifier: MIT
#include "until_node.hpp"

#include "kernels.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace noonbench::harness {
namespace {

/// From the last value to the first: u = max(goal, min(before, u after it)); u is left in `goal`.
void run_backwards(double* goal, const double* before, std::size_t count, double after) {
    for (std::size_t i = count; i-- > 0;) {
        after = Most::of(goal[i], Least::of(before[i], after));
        goal[i] = after;
    }
}

}  // namespace

UntilNode::UntilNode(RunState& run, const Parts& parts, Reach reach)
    : StreamNode(run, parts.before.follows_end() || parts.goal.follows_end()),
      of_(parts),
      reach_(reach) {
    const std::int64_t window = blocks_for(reach.until);
    look_ahead(std::max(parts.before.ahead(), parts.goal.ahead()) + window);
}

void UntilNode::pass_need_on() {
    of_.before.need(keep());
    of_.goal.need(keep());
    of_.goal_ahead.need(keep());
    if (of_.wait != nullptr) of_.wait->need(keep());
}

void UntilNode::prepare() {
    passings_.make_room(blocks_for(reach_.until) + 2);
}

std::int64_t UntilNode::cut_slot() const {
    return run().ending == Ending::cut ? run().end_slot : std::numeric_limits<std::int64_t>::max();
}

Bounds UntilNode::find_bounds(std::int64_t block) {
    Bounds bounds = of_.goal_ahead.bounds(block);
    if (bounds.hi == -endless_margin) return bounds;
    if ((block + 1) * block_ticks + reach_.until > cut_slot()) return {};
    if (of_.wait != nullptr) bounds.hi = std::min(bounds.hi, of_.wait->bounds(block).hi);
    for (std::int64_t b = block; b <= block + blocks_for(reach_.until); ++b) {
        if (bounds.lo == -endless_margin) break;
        bounds.lo = std::min(bounds.lo, of_.before.bounds(b).lo);
    }
    if (reach_.from == 0) bounds.lo = std::max(bounds.lo, of_.goal.bounds(block).lo);
    return bounds;
}

void UntilNode::fetch(std::int64_t from, std::int64_t until, double* goal, double* before) {
    gather(of_.goal, {from, until, 0, cut_slot()}, -endless_margin, goal);
    gather(of_.before, {from, until, 0, cut_slot()}, endless_margin, before);
}

const UntilNode::Passing& UntilNode::passing(std::int64_t block) {
    Passing& known = passings_[block];
    if (known.block == block && known.epoch == run().epoch) return known;
    std::array<double, block_size> goal;
    std::array<double, block_size> before;
    fetch(block * block_ticks, (block + 1) * block_ticks, goal.data(), before.data());
    const double hold = folded<Least>(before.data(), block_size);
    run_backwards(goal.data(), before.data(), block_size, -endless_margin);
    known = {block, run().epoch, goal[0], hold};
    return known;
}

void UntilNode::fill(std::int64_t block, double* out) {
    const std::int64_t from = block * block_ticks + reach_.from;
    const std::int64_t last = from + block_ticks - 1;
    const std::int64_t here = block_of(last);
    double after = -endless_margin;
    for (std::int64_t b = block_of(last + reach_.until - reach_.from); b > here; --b) {
        const Passing& through = passing(b);
        after = Most::of(through.goal, Least::of(through.hold, after));
    }
    std::array<double, 2 * block_size> goal;
    std::array<double, 2 * block_size> before;
    const std::int64_t until = (here + 1) * block_ticks;
    fetch(from, until, goal.data(), before.data());
    run_backwards(goal.data(), before.data(), static_cast<std::size_t>(until - from), after);
    each(goal.data(), of_.goal_ahead.values(block), out, Least::of);
    if (of_.wait != nullptr) each(out, of_.wait->values(block), out, Least::of);
}

}  // namespace noonbench::harness
