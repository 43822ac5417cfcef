// SPDX-License-Identifier: MIT
#include "block.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace noonbench::harness {
namespace {

/// Within the run; bounds that do not bound would let a watch pass over the tick that decides.
[[maybe_unused]] bool bounds_hold(const RunState& run, std::int64_t block, const Bounds& bounds,
                                  const double* values) {
    const std::int64_t start = block * block_ticks;
    const std::int64_t from = std::max(start, run.first_slot);
    const std::int64_t to = std::min(start + block_ticks, run.end_slot);
    return std::all_of(
        values + (from - start), values + (std::max(from, to) - start),
        [&](double x) { return std::isnan(x) ? bounds.gaps : x >= bounds.lo && x <= bounds.hi; });
}

}  // namespace

double* BlockPool::take() {
    if (free_.empty()) {
        all_.push_back(std::make_unique<double[]>(static_cast<std::size_t>(block_ticks)));
        return all_.back().get();
    }
    double* block = free_.back();
    free_.pop_back();
    return block;
}

const double* StreamNode::values(std::int64_t block) {
    const Bounds known = bounds(block);
    Memo& memo = memo_of(block);
    if (memo.filled) return memo.values;
    double* room = run_.pool.take();
    if (known.constant()) {
        std::fill_n(room, block_ticks, known.constant_value());
    } else {
        fill(block, room);
        assert(bounds_hold(run_, block, known, room));
    }
    memo.values = room;
    memo.filled = true;
    return room;
}

double* StreamNode::open(std::int64_t block) {
    Memo& memo = memo_of(block);
    if (memo.values == nullptr) memo.values = run_.pool.take();
    return memo.values;
}

void StreamNode::close(std::int64_t block, const Bounds& bounds) {
    Memo& memo = memo_of(block);
    memo.bounds = bounds;
    memo.bounded = true;
    memo.filled = true;
}

void StreamNode::forget(Memo& memo, std::int64_t block, std::uint32_t epoch) {
    if (memo.values != nullptr) run_.pool.give_back(memo.values);
    memo.values = nullptr;
    memo.bounded = false;
    memo.filled = false;
    memo.block = block;
    memo.epoch = epoch;
}

void StreamNode::make_room() {
    memos_.resize(ring_size(keep_ + 1));
    mask_ = memos_.size() - 1;
    prepare();
}

std::size_t ring_size(std::int64_t at_least) {
    std::size_t size = 1;
    while (size < static_cast<std::size_t>(at_least)) size *= 2;
    return size;
}

void gather(StreamNode& node, const Stretch& stretch, double neutral, double* out) {
    std::int64_t slot = stretch.from;
    while (slot < stretch.until) {
        if (slot < stretch.first || slot >= stretch.end) {
            const std::int64_t stop =
                slot < stretch.first ? std::min(stretch.first, stretch.until) : stretch.until;
            out = std::fill_n(out, stop - slot, neutral);
            slot = stop;
            continue;
        }
        const std::int64_t block = block_of(slot);
        const std::int64_t stop = std::min({stretch.until, stretch.end, (block + 1) * block_ticks});
        const Bounds& bounds = node.bounds(block);
        if (bounds.constant()) {
            out = std::fill_n(out, stop - slot, bounds.constant_value());
        } else {
            out = std::copy_n(node.values(block) + place_of(slot), stop - slot, out);
        }
        slot = stop;
    }
}

}  // namespace noonbench::harness
