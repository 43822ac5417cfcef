// SPDX-License-Identifier: MIT
#include "bit_nodes.hpp"

#include "kernels.hpp"

#include "harness/bench/clock.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

constexpr std::int64_t a_day = 86400;

Bounds never() {
    return Bounds::exactly(0.0);
}
Bounds throughout() {
    return Bounds::exactly(1.0);
}
Bounds now_and_then() {
    return {0.0, 1.0, false};
}
double bit(bool truth) {
    return truth ? 1.0 : 0.0;
}

}  // namespace

Bounds WordBit::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (of.no_numbers() || word_ < of.lo || word_ > of.hi) return never();
    return of.constant() ? throughout() : now_and_then();
}

void WordBit::fill(std::int64_t block, double* out) {
    each(of_.values(block), out, [word = word_](double x) { return bit(x == word); });
}

Bounds EdgeBit::find_bounds(std::int64_t block) {
    const Bounds now = of_.bounds(block);
    if (!now.constant()) return now_and_then();
    if (now.lo != to_ || block == 0) return never();
    const Bounds& before = of_.bounds(block - 1);
    return before.constant() && before.lo == to_ ? never() : now_and_then();
}

void EdgeBit::fill(std::int64_t block, double* out) {
    const double* of = of_.values(block);
    for (std::size_t i = 1; i < block_size; ++i) {
        out[i] = bit(of[i] == to_) * bit(of[i - 1] != to_);
    }
    const double now = of[0];
    const double before = block == 0 ? now : of_.values(block - 1)[block_size - 1];
    out[0] = bit(now == to_ && before != to_);
    if (block == block_of(run().first_slot)) out[place_of(run().first_slot)] = 0.0;
}

Bounds HasValueBit::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (of.no_numbers()) return never();
    return of.gaps ? now_and_then() : throughout();
}

void HasValueBit::fill(std::int64_t block, double* out) {
    each(of_.values(block), out, [](double x) { return bit(x == x); });
}

Bounds HoldsBit::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (of.hi < 0.0) return never();
    return of.lo > 0.0 ? throughout() : now_and_then();
}

void HoldsBit::fill(std::int64_t block, double* out) {
    each(of_.values(block), out, [](double x) { return bit(x > 0.0); });
}

bool ClockBit::within(std::int64_t clock_s) const {
    if (from_s_ <= until_s_) return clock_s >= from_s_ && clock_s < until_s_;
    return clock_s >= from_s_ || clock_s < until_s_;
}

Bounds ClockBit::find_bounds(std::int64_t block) {
    const std::int64_t from = second_of_day(run().civil(block * block_ticks));
    const auto turns_within = [&](std::int64_t s) { return s > from && s < from + block_ticks; };
    if (turns_within(from_s_) || turns_within(until_s_)) return now_and_then();
    return within(from) ? throughout() : never();
}

void ClockBit::fill(std::int64_t block, double* out) {
    std::int64_t clock_s = second_of_day(run().civil(block * block_ticks));
    for (std::size_t i = 0; i < block_size; ++i) out[i] = bit(within(clock_s++));
}

std::int64_t EndsBit::end_in(std::int64_t block) const {
    if (kind_ == Period::Kind::since_start) {
        const std::int64_t last = run().end_slot - 1;
        return block_of(last) == block ? last : -1;
    }
    const std::int64_t next_s = run().civil((block + 1) * block_ticks);
    if (next_s % a_day != 0 || period_start(kind_, next_s) != next_s) return -1;
    const std::int64_t start_s = run().civil(run().first_slot);
    return period_start(kind_, next_s - 1) >= start_s ? (block + 1) * block_ticks - 1 : -1;
}

Bounds EndsBit::find_bounds(std::int64_t block) {
    return end_in(block) < 0 ? never() : now_and_then();
}

void EndsBit::fill(std::int64_t block, double* out) {
    std::fill_n(out, block_size, 0.0);
    out[place_of(end_in(block))] = 1.0;
}

Bounds LastedBit::find_bounds(std::int64_t block) {
    const std::int64_t from = run().first_slot + ticks_ - 1;
    if (from <= block * block_ticks) return throughout();
    return from >= (block + 1) * block_ticks ? never() : now_and_then();
}

void LastedBit::fill(std::int64_t /*block*/, double* out) {
    const std::size_t from = place_of(run().first_slot + ticks_ - 1);
    std::fill_n(out, from, 0.0);
    std::fill(out + from, out + block_size, 1.0);
}

Bounds SlotWhereNode::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (of.hi == 0.0) return Bounds::exactly(otherwise_);
    const auto first = static_cast<double>(block * block_ticks);
    return {std::min(first, otherwise_), std::max(first + block_ticks - 1, otherwise_), false};
}

void SlotWhereNode::fill(std::int64_t block, double* out) {
    const double* of = of_.values(block);
    const auto first = static_cast<double>(block * block_ticks);
    for (std::size_t i = 0; i < block_size; ++i) {
        out[i] = of[i] > 0.0 ? first + static_cast<double>(i) : otherwise_;
    }
}

std::int64_t period_start(Period::Kind kind, std::int64_t at) {
    if (kind == Period::Kind::day) return day_start(at);
    CivilDate date = date_of(at);
    date.day = 1;
    if (kind == Period::Kind::year) date.month = 1;
    return midnight_of(date);
}

}  // namespace noonbench::harness
