// SPDX-License-Identifier: MIT
#include "period_nodes.hpp"

#include "bit_nodes.hpp"
#include "kernels.hpp"

#include <algorithm>
#include <cmath>
#include <concepts>

namespace noonbench::harness {
namespace {

bool period_begins(const RunState& run, Period::Kind kind, std::int64_t block) {
    if (block == 0) return true;
    if (kind == Period::Kind::since_start) return false;
    const std::int64_t at = run.civil(block * block_ticks);
    return at % 86400 == 0 && period_start(kind, at) == at;
}

/// Where the run's ticks begin in a block.
std::size_t first_place(const RunState& run, std::int64_t block) {
    return block == 0 ? place_of(run.first_slot) : 0;
}

template <class Combine>
bool beats(double challenger, double value) {
    return Combine::of(value, challenger) != value;
}

}  // namespace

RunningSum::RunningSum(RunState& run, StreamNode& of, Period::Kind kind, bool starts)
    : CarryingNode(run), of_(of), kind_(kind), starts_(starts) {}

void RunningSum::carry(std::int64_t block) {
    const Carried before =
        period_begins(run(), kind_, block) ? Carried{} : passages_[block - 1].after;
    Passage<Carried>& passage = passages_[block];
    passage = {before, before};
    const Bounds& bounds = of_.bounds(block);
    if (bounds.lo == 0.0 && bounds.hi == 0.0) return;
    const double* x = of_.values(block);
    double sum = before.sum;
    std::int64_t last = -1;
    for (std::size_t i = first_place(run(), block); i < block_size; ++i) {
        sum += x[i];
        last = x[i] != 0.0 ? static_cast<std::int64_t>(i) : last;
    }
    passage.after.sum = sum;
    if (last >= 0) passage.after.last_addition = block * block_ticks + last;
}

Bounds RunningSum::find_bounds(std::int64_t block) {
    const Bounds& bounds = of_.bounds(block);
    const Passage<Carried>& passage = passages_[block];
    if (bounds.lo >= 0.0) return {passage.before.sum, passage.after.sum, false};
    return bounds.hi <= 0.0 ? Bounds{passage.after.sum, passage.before.sum, false} : Bounds{};
}

void RunningSum::fill(std::int64_t block, double* out) {
    const double* x = of_.values(block);
    double sum = passages_[block].before.sum;
    const std::size_t first = first_place(run(), block);
    std::fill_n(out, first, sum);
    for (std::size_t i = first; i < block_size; ++i) out[i] = sum += x[i];
}

std::int64_t RunningSum::decided_at(std::int64_t slot) {
    if (!starts_) return slot;
    const std::int64_t block = block_of(slot);
    const double* x = of_.values(block);
    const auto first = static_cast<std::int64_t>(first_place(run(), block));
    for (std::int64_t i = slot - block * block_ticks; i >= first; --i) {
        if (x[i] != 0.0) return block * block_ticks + i;
    }
    const std::int64_t last = passages_[block].before.last_addition;
    return last >= 0 ? last : slot;
}

template <class Combine>
RunningExtremum<Combine>::RunningExtremum(RunState& run, StreamNode& of, Period::Kind kind)
    : CarryingNode(run), of_(of), kind_(kind) {}

template <class Combine>
void RunningExtremum<Combine>::carry(std::int64_t block) {
    const Carried before = period_begins(run(), kind_, block) ? Carried{Combine::neutral, -1}
                                                              : passages_[block - 1].after;
    Passage<Carried>& passage = passages_[block];
    passage = {before, before};
    const Bounds& bounds = of_.bounds(block);
    const double best = std::same_as<Combine, Least> ? bounds.lo : bounds.hi;
    if (!beats<Combine>(best, before.value)) return;
    const double* x = of_.values(block);
    for (std::size_t i = first_place(run(), block); i < block_size; ++i) {
        if (!beats<Combine>(x[i], passage.after.value)) continue;
        passage.after = {x[i], block * block_ticks + static_cast<std::int64_t>(i)};
    }
}

template <class Combine>
Bounds RunningExtremum<Combine>::find_bounds(std::int64_t block) {
    const double from = passages_[block].before.value;
    const double to = passages_[block].after.value;
    if (to == Combine::neutral) return Bounds::nothing();
    if (from != Combine::neutral) return {std::min(from, to), std::max(from, to), false};
    // Without a number so far, the first one may be any of this block.
    const Bounds& of = of_.bounds(block);
    const double any = std::same_as<Combine, Least> ? of.hi : of.lo;
    return {std::min(any, to), std::max(any, to), true};
}

template <class Combine>
void RunningExtremum<Combine>::fill(std::int64_t block, double* out) {
    const double* x = of_.values(block);
    double value = passages_[block].before.value;
    const std::size_t first = first_place(run(), block);
    std::fill_n(out, first, no_number);
    for (std::size_t i = first; i < block_size; ++i) {
        value = Combine::of(value, x[i]);
        out[i] = value == Combine::neutral ? no_number : value;
    }
}

template <class Combine>
std::int64_t RunningExtremum<Combine>::decided_at(std::int64_t slot) {
    const std::int64_t block = block_of(slot);
    const double* x = of_.values(block);
    Carried at = passages_[block].before;
    for (std::int64_t s = std::max(block * block_ticks, run().first_slot); s <= slot; ++s) {
        const double challenger = x[s - block * block_ticks];
        if (beats<Combine>(challenger, at.value)) at = {challenger, s};
    }
    return at.slot >= 0 ? at.slot : slot;
}

template class RunningExtremum<Least>;
template class RunningExtremum<Most>;

PeriodStartNode::PeriodStartNode(RunState& run, StreamNode& of, Period::Kind kind)
    : CarryingNode(run), of_(of), kind_(kind) {}

void PeriodStartNode::carry(std::int64_t block) {
    if (period_begins(run(), kind_, block)) {
        within_[block] = of_.values(block)[first_place(run(), block)];
    } else {
        within_[block] = within_[block - 1];
    }
}

Bounds PeriodStartNode::find_bounds(std::int64_t block) {
    const double value = within_[block];
    return std::isnan(value) ? Bounds::nothing() : Bounds::exactly(value);
}

void PeriodStartNode::fill(std::int64_t block, double* out) {
    std::fill_n(out, block_size, within_[block]);
}

}  // namespace noonbench::harness
