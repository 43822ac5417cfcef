// SPDX-License-Identifier: MIT
#include "window_nodes.hpp"

#include "kernels.hpp"

#include <algorithm>
#include <concepts>

namespace noonbench::harness {
namespace {

constexpr std::int64_t no_end = std::numeric_limits<std::int64_t>::max();

/// Bounds of a sliding extremum. A block that every window touches, `touched`, binds one side.
template <class Combine>
Bounds bounds_of_extremum(StreamNode& of, std::int64_t block, Reach reach, bool whole_windows) {
    const std::int64_t from = std::max<std::int64_t>(0, block + block_of(reach.from));
    const std::int64_t to = block + block_of(reach.until + block_ticks - 1);
    const std::int64_t touched_from = block + block_of(reach.from + block_ticks - 1);
    const std::int64_t touched_to = whole_windows ? block + block_of(reach.until) : -1;
    Bounds all{endless_margin, -endless_margin, false};
    double binding = Combine::neutral;
    constexpr bool least = std::same_as<Combine, Least>;
    for (std::int64_t b = from; b <= to; ++b) {
        const Bounds& part = of.bounds(b);
        all.lo = std::min(all.lo, part.lo);
        all.hi = std::max(all.hi, part.hi);
        if (b < touched_from || b > touched_to) continue;
        binding = Combine::of(binding, least ? part.hi : part.lo);
    }
    if (least) {
        all.hi = std::min(all.hi, binding);
    } else {
        all.lo = std::max(all.lo, binding);
    }
    return all;
}

}  // namespace

template <class Combine>
AheadNode<Combine>::AheadNode(RunState& run, StreamNode& of, Reach reach)
    : StreamNode(run, of.follows_end()), of_(of), reach_(reach), sliding_(of, reach) {
    look_ahead(of.ahead() + blocks_for(reach.until));
}

template <class Combine>
std::int64_t AheadNode<Combine>::cut_slot() const {
    return run().ending == Ending::cut ? run().end_slot : no_end;
}

template <class Combine>
Bounds AheadNode<Combine>::find_bounds(std::int64_t block) {
    if ((block + 1) * block_ticks + reach_.until > cut_slot()) return {};
    return bounds_of_extremum<Combine>(of_, block, reach_, true);
}

template <class Combine>
void AheadNode<Combine>::fill(std::int64_t block, double* out) {
    sliding_.fill(block, 0, cut_slot(), run().epoch, out);
}

template <class Combine>
ExtremumNode<Combine>::ExtremumNode(RunState& run, StreamNode& of, std::int64_t ticks)
    : StreamNode(run, false), of_(of), ticks_(ticks), sliding_(of, {1 - ticks, 0}) {}

template <class Combine>
Bounds ExtremumNode<Combine>::find_bounds(std::int64_t block) {
    const Reach reach{1 - ticks_, 0};
    const bool whole_windows = block * block_ticks + reach.from >= run().first_slot;
    Bounds bounds = bounds_of_extremum<Combine>(of_, block, reach, whole_windows);
    const double none = Combine::neutral;
    if (bounds.lo == none && bounds.hi == none) return Bounds::nothing();
    bounds.gaps = bounds.lo == none || bounds.hi == none;
    return bounds;
}

template <class Combine>
void ExtremumNode<Combine>::fill(std::int64_t block, double* out) {
    sliding_.fill(block, run().first_slot, no_end, 0, out);
    each(out, out, [](double x) { return x == Combine::neutral ? no_number : x; });
}

template <class Combine>
std::int64_t ExtremumNode<Combine>::decided_at(std::int64_t slot) {
    const double value = values(block_of(slot))[place_of(slot)];
    const std::int64_t from = std::max(slot + 1 - ticks_, run().first_slot);
    for (std::int64_t b = block_of(from); b <= block_of(slot); ++b) {
        const Bounds part = of_.bounds(b);
        if (!(part.lo <= value && value <= part.hi)) continue;
        const double* x = of_.values(b);
        const std::int64_t start = b * block_ticks;
        const std::int64_t stop = std::min(slot + 1, start + block_ticks);
        for (std::int64_t s = std::max(from, start); s < stop; ++s) {
            if (x[s - start] == value) return s;
        }
    }
    return slot;
}

template class AheadNode<Least>;
template class AheadNode<Most>;
template class ExtremumNode<Least>;
template class ExtremumNode<Most>;

SumNode::SumNode(RunState& run, StreamNode& of, std::int64_t ticks, bool starts)
    : StreamNode(run, false),
      of_(of),
      ticks_(ticks),
      starts_(starts),
      sliding_(of, {1 - ticks, 0}) {}

/// Only for what is nowhere negative: not less than the blocks that lie in every window, not more
/// than all that lie in any. Rounding in another order is far below the allowance; whole numbers
/// below 2^53 have none and need none, but suffer it gladly unless they are zero.
Bounds SumNode::find_bounds(std::int64_t block) {
    constexpr double allowance = 1e-9;
    const std::int64_t from = std::max<std::int64_t>(0, block + block_of(1 - ticks_));
    const std::int64_t inner = block + block_of(-ticks_ + block_ticks - 1) + 1;
    const std::int64_t first = run().first_slot;
    sliding_.restrict_to(first, no_end, 0);
    double outer_sum = 0.0;
    double inner_sum = 0.0;
    for (std::int64_t b = from; b <= block; ++b) {
        if (of_.bounds(b).lo < 0.0) return {};
        const double part = sliding_.whole(b);
        outer_sum += part;
        if (b >= inner && b < block) inner_sum += part;
    }
    return {inner_sum * (1.0 - allowance), outer_sum * (1.0 + allowance), false};
}

void SumNode::fill(std::int64_t block, double* out) {
    sliding_.fill(block, run().first_slot, no_end, 0, out);
}

std::int64_t SumNode::decided_at(std::int64_t slot) {
    if (!starts_) return slot;
    const std::int64_t from = std::max(slot + 1 - ticks_, run().first_slot);
    for (std::int64_t s = slot; s >= from; --s) {
        const std::int64_t b = block_of(s);
        if (of_.bounds(b).constant() && of_.bounds(b).lo == 0.0) {
            s = b * block_ticks;
        } else if (of_.values(b)[place_of(s)] > 0.0) {
            return s;
        }
    }
    return slot;
}

}  // namespace noonbench::harness
