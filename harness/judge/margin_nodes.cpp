// SPDX-License-Identifier: MIT
#include "margin_nodes.hpp"

#include "kernels.hpp"
#include "monitor.hpp"

#include <algorithm>
#include <cmath>
#include <concepts>
#include <utility>

namespace noonbench::harness {
namespace {

bool any_follows_end(const std::vector<StreamNode*>& nodes) {
    return std::any_of(nodes.begin(), nodes.end(),
                       [](const StreamNode* n) { return n->follows_end(); });
}

}  // namespace

double AtomNode::after_the_end() const {
    const double sign = run().ending == Ending::high ? 1.0 : -1.0;
    return side_ == Side::against ? -sign * endless_margin : sign * endless_margin;
}

Bounds AtomNode::find_bounds(std::int64_t block) {
    const std::int64_t end = run().end_slot;
    if (side_ == Side::fact || (block + 1) * block_ticks <= end) return atom_bounds(block);
    const double after = after_the_end();
    const bool no_ticks = end == run().first_slot;
    if (no_ticks || block * block_ticks >= end) return Bounds::exactly(after);
    const Bounds bounds = atom_bounds(block);
    return {std::min(bounds.lo, after), std::max(bounds.hi, after), false};
}

void AtomNode::fill(std::int64_t block, double* out) {
    fill_atom(block, out);
    const std::int64_t end = run().end_slot;
    if (side_ == Side::fact || (block + 1) * block_ticks <= end) return;
    std::fill(out + place_of(end), out + block_size, after_the_end());
}

TruthNode::TruthNode(RunState& run, Side side, StreamNode& bit) : AtomNode(run, side), bit_(bit) {}

Bounds TruthNode::atom_bounds(std::int64_t block) {
    const Bounds& bit = bit_.bounds(block);
    if (!bit.constant()) return {};
    return Bounds::exactly(bit.lo > 0.0 ? endless_margin : -endless_margin);
}

void TruthNode::fill_atom(std::int64_t block, double* out) {
    each(bit_.values(block), out,
         [](double bit) { return bit > 0.0 ? endless_margin : -endless_margin; });
}

ShiftNode::ShiftNode(RunState& run, Side side, StreamNode& bit, bool ahead)
    : AtomNode(run, side), bit_(bit), ahead_(ahead) {
    if (ahead) look_ahead(blocks_for(longest_shift_s));
}

void ShiftNode::pass_need_on() {
    bit_.need(keep() + (ahead_ ? 0 : blocks_for(longest_shift_s)));
}

std::int64_t ShiftNode::change_beyond(std::int64_t block, double value) {
    const std::int64_t step = ahead_ ? 1 : -1;
    const std::int64_t none = ahead_ ? std::numeric_limits<std::int64_t>::max() / 2
                                     : std::numeric_limits<std::int64_t>::min() / 2;
    for (std::int64_t i = 1; i <= blocks_for(longest_shift_s); ++i) {
        const std::int64_t b = block + i * step;
        if (b < 0 || b * block_ticks >= run().end_slot) return none;
        const Bounds bounds = bit_.bounds(b);
        if (bounds.constant() && bounds.lo == value) continue;
        const double* bit = bit_.values(b);
        for (std::int64_t j = 0; j < block_ticks; ++j) {
            const std::int64_t at = ahead_ ? j : block_ticks - 1 - j;
            const std::int64_t slot = b * block_ticks + at;
            if (slot < run().first_slot || slot >= run().end_slot) break;
            if (bit[at] != value) return slot;
        }
    }
    return none;
}

Bounds ShiftNode::atom_bounds(std::int64_t block) {
    constexpr auto longest = static_cast<double>(longest_shift_s);
    const Bounds bit = bit_.bounds(block);
    if (!bit.constant()) return {-longest, longest, false};
    const std::int64_t change = change_beyond(block, bit.lo);
    const std::int64_t start = block * block_ticks;
    const std::int64_t nearest = ahead_ ? change - (start + block_ticks - 1) : start - change;
    const auto least = static_cast<double>(std::min(nearest, longest_shift_s));
    const double most = std::min(least + static_cast<double>(block_ticks - 1), longest);
    if (bit.lo > 0.0) return {least, most, false};
    return {-most, -least, false};
}

void ShiftNode::fill_atom(std::int64_t block, double* out) {
    const double* bit = bit_.values(block);
    const std::int64_t start = block * block_ticks;
    const std::int64_t from = std::max(start, run().first_slot) - start;
    const std::int64_t to = std::min(start + block_ticks, run().end_slot) - 1 - start;
    std::fill_n(out, block_size, -endless_margin);
    std::int64_t at = ahead_ ? to : from;
    const std::int64_t last = ahead_ ? from : to;
    const std::int64_t step = ahead_ ? -1 : 1;
    double value = bit[at];
    std::int64_t change = change_beyond(block, value) - start;
    for (;; at += step) {
        if (bit[at] != value) {
            change = at - step;
            value = bit[at];
        }
        const std::int64_t far = std::min(ahead_ ? change - at : at - change, longest_shift_s);
        out[at] = value > 0.0 ? static_cast<double>(far) : -static_cast<double>(far);
        if (at == last) return;
    }
}

NegationNode::NegationNode(RunState& run, StreamNode& of)
    : StreamNode(run, of.follows_end()), of_(of) {
    look_ahead(of.ahead());
}

Bounds NegationNode::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    return {-of.hi, -of.lo, false};
}

void NegationNode::fill(std::int64_t block, double* out) {
    each(of_.values(block), out, [](double x) { return -x; });
}

template <class Combine>
JunctionNode<Combine>::JunctionNode(RunState& run, std::vector<StreamNode*> of)
    : StreamNode(run, any_follows_end(of)), of_(std::move(of)) {
    for (const StreamNode* part : of_) look_ahead(part->ahead());
}

template <class Combine>
void JunctionNode<Combine>::pass_need_on() {
    for (StreamNode* part : of_) part->need(keep());
}

/// Stops where nothing can change the result any more: a part without look at the others.
template <class Combine>
Bounds JunctionNode<Combine>::find_bounds(std::int64_t block) {
    Bounds all = Bounds::exactly(Combine::neutral);
    for (StreamNode* part : of_) {
        const Bounds& bounds = part->bounds(block);
        all = {Combine::of(all.lo, bounds.lo), Combine::of(all.hi, bounds.hi), false};
        if (all.lo == -Combine::neutral && all.hi == -Combine::neutral) break;
    }
    return all;
}

template <class Combine>
void JunctionNode<Combine>::fill(std::int64_t block, double* out) {
    constexpr bool least = std::same_as<Combine, Least>;
    const Bounds all = bounds(block);
    std::fill_n(out, block_size, least ? all.hi : all.lo);
    bool begun = false;
    for (StreamNode* part : of_) {
        // A part that is nowhere beyond what another one reaches everywhere does not show.
        const Bounds& own = part->bounds(block);
        if (least ? own.lo >= all.hi : own.hi <= all.lo) continue;
        const double* x = part->values(block);
        if (begun) {
            each(out, x, out, Combine::of);
        } else {
            each(x, out,
                 [limit = least ? all.hi : all.lo](double v) { return Combine::of(v, limit); });
        }
        begun = true;
    }
}

template <class Combine>
std::int64_t JunctionNode<Combine>::decided_at(std::int64_t slot) {
    const std::int64_t block = block_of(slot);
    const double value = values(block)[place_of(slot)];
    for (StreamNode* part : of_) {
        if (part->values(block)[place_of(slot)] == value) return part->decided_at(slot);
    }
    return slot;
}

template class JunctionNode<Least>;
template class JunctionNode<Most>;

}  // namespace noonbench::harness
