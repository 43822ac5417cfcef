// SPDX-License-Identifier: MIT
// A window of fixed offsets that slides over a node, folded at every tick by min, max or sum.
// Up to a block wide it is folded by doubling; a wider one is the rest of one block, whole blocks,
// and the beginning of another, so that the cost does not grow with its width. Sums are only ever
// added to, never taken from: nothing cancels.
#pragma once
#include "block.hpp"
#include "kernels.hpp"

#include <array>
#include <concepts>
#include <cstddef>
#include <vector>

namespace noonbench::harness {

/// Offsets from the present tick, both included.
struct Reach {
    std::int64_t from = 0;
    std::int64_t until = 0;
    [[nodiscard]] std::int64_t width() const { return until - from + 1; }
};

template <class Combine>
class Sliding {
  public:
    Sliding(StreamNode& of, Reach reach) : of_(of), reach_(reach) {}

    void make_room() {
        wholes_.resize(
            ring_size(block_of(reach_.until + block_ticks - 1) - block_of(reach_.from) + 1));
    }

    /// Folds at each tick of the block; slots outside [first, end) count as nothing. `epoch` tells
    /// when what was known of whole blocks must be forgotten.
    void fill(std::int64_t block, std::int64_t first, std::int64_t end, std::uint32_t epoch,
              double* out) {
        first_ = first;
        end_ = end;
        epoch_ = epoch;
        const std::int64_t start = block * block_ticks + reach_.from;
        if (reach_.width() <= block_ticks) {
            fill_narrow(start, out);
        } else {
            fill_wide(start, out);
        }
    }

    /// One whole block folded, within [first, end) of the last fill() or restrict().
    double whole(std::int64_t block) {
        if (block < 0) return Combine::neutral;
        Whole& known = wholes_[static_cast<std::size_t>(block) & (wholes_.size() - 1)];
        if (known.block != block || known.epoch != epoch_) {
            known = {block, epoch_, folded_block(block)};
        }
        return known.value;
    }
    void restrict_to(std::int64_t first, std::int64_t end, std::uint32_t epoch) {
        first_ = first;
        end_ = end;
        epoch_ = epoch;
    }

  private:
    using Buffer = std::array<double, 2 * block_size>;
    struct Whole {
        std::int64_t block = -1;
        std::uint32_t epoch = 0;
        double value = 0.0;
    };

    void fetch(std::int64_t from, std::int64_t count, double* out) {
        gather(of_, {from, from + count, first_, end_}, Combine::neutral, out);
    }

    double folded_block(std::int64_t block) {
        const std::int64_t from = block * block_ticks;
        const Bounds& bounds = of_.bounds(block);
        const bool all_in = from >= first_ && from + block_ticks <= end_;
        if (all_in && bounds.constant()) {
            return std::same_as<Combine, Sum> ? bounds.lo * double{block_ticks} : bounds.lo;
        }
        if (all_in) return folded<Combine>(of_.values(block), block_size);
        Buffer buffer;
        fetch(from, block_ticks, buffer.data());
        return folded<Combine>(buffer.data(), block_size);
    }

    /// After the step with span s, x[i] folds s values from i on. The width is put together from
    /// spans: overlapping ones for min and max, disjoint ones for sums.
    void fill_narrow(std::int64_t start, double* out) {
        Buffer x;
        const auto width = static_cast<std::size_t>(reach_.width());
        std::size_t length = block_size + width - 1;
        fetch(start, static_cast<std::int64_t>(length), x.data());
        if constexpr (std::same_as<Combine, Sum>) std::fill_n(out, block_size, 0.0);
        std::size_t done = 0;
        std::size_t span = 1;
        for (;; span *= 2) {
            if constexpr (std::same_as<Combine, Sum>) {
                if ((width & span) != 0) {
                    for (std::size_t i = 0; i < block_size; ++i) out[i] += x[i + done];
                    done += span;
                }
            }
            if (span * 2 > width) break;
            length -= span;
            for (std::size_t i = 0; i < length; ++i) x[i] = Combine::of(x[i], x[i + span]);
        }
        if constexpr (!std::same_as<Combine, Sum>) {
            const double* late = x.data() + (width - span);
            for (std::size_t i = 0; i < block_size; ++i) out[i] = Combine::of(x[i], late[i]);
        }
    }

    void fill_wide(std::int64_t start, double* out) {
        Buffer edges;
        double* head = edges.data();               // x[i] folds from i to the end of its block
        double* tail = edges.data() + block_size;  // from the beginning of its block to i
        const std::int64_t stop = start + block_ticks;
        const std::int64_t span = reach_.width() - 1;
        std::int64_t head_block = block_of(start) - 1;
        std::int64_t tail_block = block_of(start + span) - 1;
        for (std::int64_t slot = start; slot < stop;) {
            if (block_of(slot) != head_block) make_head(head_block = block_of(slot), head);
            if (block_of(slot + span) != tail_block) {
                make_tail(tail_block = block_of(slot + span), tail);
            }
            double between = Combine::neutral;
            for (std::int64_t b = head_block + 1; b < tail_block; ++b) {
                between = Combine::of(between, whole(b));
            }
            const std::int64_t piece = std::min({stop, (head_block + 1) * block_ticks,
                                                 (tail_block + 1) * block_ticks - span}) -
                                       slot;
            const double* h = head + place_of(slot);
            const double* t = tail + place_of(slot + span);
            for (std::int64_t i = 0; i < piece; ++i) {
                out[i] = Combine::of(Combine::of(h[i], between), t[i]);
            }
            out += piece;
            slot += piece;
        }
    }

    void make_head(std::int64_t block, double* head) {
        fetch(block * block_ticks, block_ticks, head);
        for (std::size_t i = block_size - 1; i-- > 0;) head[i] = Combine::of(head[i], head[i + 1]);
    }
    void make_tail(std::int64_t block, double* tail) {
        fetch(block * block_ticks, block_ticks, tail);
        for (std::size_t i = 1; i < block_size; ++i) tail[i] = Combine::of(tail[i], tail[i - 1]);
    }

    StreamNode& of_;
    Reach reach_;
    std::vector<Whole> wholes_;
    std::int64_t first_ = 0;
    std::int64_t end_ = 0;
    std::uint32_t epoch_ = 0;
};

}  // namespace noonbench::harness
