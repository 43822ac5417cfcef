// SPDX-License-Identifier: MIT
// What monitors are made of: a node is a number at every tick, worked out by blocks of ticks and
// only when somebody asks. Cheap bounds come first, the values themselves only where the bounds do
// not settle the matter; that is why fifty requirements cost little.
//
// Ticks are counted in slots: slot 0 is a multiple of block_ticks after midnight, at or before the
// first tick, so that a civil day always begins with a block.
#pragma once
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <vector>

namespace noonbench::harness {

inline constexpr std::int64_t block_ticks = 480;
static_assert(86400 % block_ticks == 0);
inline constexpr double endless_margin = std::numeric_limits<double>::infinity();
inline constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
/// A margin of zero that holds (or, negated, does not): carries the truth through min and max.
inline constexpr double barely = std::numeric_limits<double>::denorm_min();

/// The block a slot lies in, and where in it; slots may be negative.
constexpr std::int64_t block_of(std::int64_t slot) {
    return slot >= 0 ? slot / block_ticks : -((block_ticks - 1 - slot) / block_ticks);
}
constexpr std::size_t place_of(std::int64_t slot) {
    return static_cast<std::size_t>(slot - block_of(slot) * block_ticks);
}
/// Whole blocks that hold so many ticks.
constexpr std::int64_t blocks_for(std::int64_t ticks) {
    return (ticks + block_ticks - 1) / block_ticks;
}

/// Between which values a node lies throughout a block; need not be tight.
struct Bounds {
    double lo = -endless_margin;
    double hi = endless_margin;
    bool gaps = false;  // there may be NaNs

    [[nodiscard]] bool no_numbers() const { return lo > hi; }
    [[nodiscard]] bool constant() const { return (lo == hi && !gaps) || no_numbers(); }
    [[nodiscard]] double constant_value() const { return no_numbers() ? no_number : lo; }
    /// Everywhere NaN.
    [[nodiscard]] static constexpr Bounds nothing() {
        return {endless_margin, -endless_margin, true};
    }
    [[nodiscard]] static constexpr Bounds exactly(double value) { return {value, value, false}; }
};

/// What stands for the ticks after the last one. Nothing does while the run goes on: nobody asks
/// for blocks that reach so far.
enum class Ending : std::uint8_t {
    open,
    cut,   // windows end with the run
    low,   // atoms turn out as badly as they can for the requirement
    high,  // as well as they can
};

/// Room for one block's values, used again and again.
class BlockPool {
  public:
    [[nodiscard]] double* take();
    void give_back(double* block) { free_.push_back(block); }
    [[nodiscard]] std::size_t blocks() const { return all_.size(); }

  private:
    std::vector<std::unique_ptr<double[]>> all_;
    std::vector<double*> free_;
};

/// What all nodes know of the run.
struct RunState {
    std::int64_t origin_s = 0;                                         // civil seconds of slot 0
    std::int64_t first_slot = 0;                                       // slot of the first tick
    std::int64_t end_slot = std::numeric_limits<std::int64_t>::max();  // after the last tick
    Ending ending = Ending::open;
    std::uint32_t epoch = 0;  // counts the changes of ending
    BlockPool pool;

    [[nodiscard]] std::int64_t civil(std::int64_t slot) const { return origin_s + slot; }
};

class StreamNode {
  public:
    /// follows_end: its values depend on RunState::ending and are forgotten when that changes.
    StreamNode(RunState& run, bool follows_end) : run_(run), follows_end_(follows_end) {}
    StreamNode(const StreamNode&) = delete;
    StreamNode& operator=(const StreamNode&) = delete;
    virtual ~StreamNode() = default;

    [[nodiscard]] const Bounds& bounds(std::int64_t block) {
        Memo& memo = memo_of(block);
        if (!memo.bounded) {
            const Bounds found = find_bounds(block);
            memo.bounds = found;
            memo.bounded = true;
        }
        return memo.bounds;
    }
    /// block_ticks values; good until as many other blocks were asked for as were announced. At
    /// slots outside the run they mean nothing.
    [[nodiscard]] const double* values(std::int64_t block);

    /// The slot that made the value at `slot` what it is: where the extremum of a period lies,
    /// when the last start was. `slot` itself for most.
    [[nodiscard]] virtual std::int64_t decided_at(std::int64_t slot) { return slot; }

    /// Announces how many blocks behind the newest somebody will still ask for.
    void need(std::int64_t blocks_back) {
        if (blocks_back > keep_) keep_ = blocks_back;
    }
    /// Announces to the nodes below what this one will ask for.
    virtual void pass_need_on() {}
    /// After all announcements, before the first value.
    void make_room();

    [[nodiscard]] bool follows_end() const { return follows_end_; }
    /// How many whole blocks ahead must be there before a block can be asked for.
    [[nodiscard]] std::int64_t ahead() const { return ahead_; }
    [[nodiscard]] std::size_t id() const { return id_; }
    void set_id(std::size_t id) { id_ = id; }

  protected:
    virtual Bounds find_bounds(std::int64_t block) = 0;
    virtual void fill(std::int64_t block, double* out) = 0;
    virtual void prepare() {}

    [[nodiscard]] RunState& run() const { return run_; }
    [[nodiscard]] std::int64_t keep() const { return keep_; }
    void look_ahead(std::int64_t blocks) {
        if (blocks > ahead_) ahead_ = blocks;
    }
    /// For nodes whose values come from outside.
    double* open(std::int64_t block);
    void close(std::int64_t block, const Bounds& bounds);

  private:
    struct Memo {
        std::int64_t block = -1;
        std::uint32_t epoch = 0;
        bool bounded = false;
        bool filled = false;
        Bounds bounds;
        double* values = nullptr;
    };
    Memo& memo_of(std::int64_t block) {
        Memo& memo = memos_[static_cast<std::size_t>(block) & mask_];
        const std::uint32_t epoch = follows_end_ ? run_.epoch : 0;
        if (memo.block != block || memo.epoch != epoch) forget(memo, block, epoch);
        return memo;
    }
    void forget(Memo& memo, std::int64_t block, std::uint32_t epoch);

    RunState& run_;
    std::vector<Memo> memos_;
    std::size_t mask_ = 0;
    std::int64_t keep_ = 0;
    std::int64_t ahead_ = 0;
    std::size_t id_ = 0;
    bool follows_end_;
};

/// A node that must see every block in order, since it carries something on.
class CarryingNode : public StreamNode {
  public:
    explicit CarryingNode(RunState& run) : StreamNode(run, false) {}
    /// The newest block is complete; blocks come in order.
    virtual void carry(std::int64_t block) = 0;
};

/// The power of two that holds so many.
[[nodiscard]] std::size_t ring_size(std::int64_t at_least);

/// What is known of each of the newest blocks.
template <class Item>
class Ring {
  public:
    void make_room(std::int64_t blocks) { items_.resize(ring_size(blocks)); }
    Item& operator[](std::int64_t block) {
        return items_[static_cast<std::size_t>(block) & (items_.size() - 1)];
    }

  private:
    std::vector<Item> items_;
};

/// Slots from..until (until excluded) of a node, one after another; where they lie outside
/// [first, end), `neutral`.
struct Stretch {
    std::int64_t from = 0;
    std::int64_t until = 0;
    std::int64_t first = 0;
    std::int64_t end = std::numeric_limits<std::int64_t>::max();
};
void gather(StreamNode& node, const Stretch& stretch, double neutral, double* out);

}  // namespace noonbench::harness
