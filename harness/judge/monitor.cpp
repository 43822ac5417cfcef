// SPDX-License-Identifier: MIT
#include "monitor.hpp"

#include "compile.hpp"
#include "graph.hpp"

#include "harness/bench/clock.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace noonbench::harness {
namespace {

/// So many rows are turned into columns at once; they stay in the nearest cache.
constexpr std::size_t rows_at_once = 32;
static_assert(block_ticks % rows_at_once == 0);

struct ClassRoots {
    MarginClass margin_class;
    Root root;
    std::optional<Root> behind;  // shift: the other direction
};

struct Watched {
    AtEnd at_end = AtEnd::unknown;
    std::vector<ClassRoots> classes;
    Root truth;                 // only where there is no class
    std::optional<Root> asked;  // never_asked()
};

Watched watched(const Requirement& requirement, Compiler& compiler) {
    const Formula& formula = *requirement.formula;
    Watched watched;
    watched.at_end = requirement.at_end;
    using Kind = Reading::Kind;
    for (const MarginClass& c : requirement.classes) {
        const Reading reading{c.shift ? Kind::ahead : Kind::measure, c.measure};
        ClassRoots roots{c, compiler.root(formula, reading, Side::with), std::nullopt};
        if (c.shift) roots.behind = compiler.root(formula, {Kind::behind, {}}, Side::with);
        watched.classes.push_back(std::move(roots));
    }
    if (watched.classes.empty()) watched.truth = compiler.root(formula, {}, Side::with);
    if (const FormulaPtr asked = never_asked(formula)) {
        watched.asked = compiler.root(*asked, {}, Side::with);
    }
    return watched;
}

/// Of the two directions of a shift the nearer one. Both agree about the truth, so that the lesser
/// of the magnitudes at either end of the interval is that end of the nearer shift.
Decided nearer(const Decided& ahead, const Decided& behind) {
    return std::abs(behind.margin) < std::abs(ahead.margin) ? behind : ahead;
}

Decided decided(const ClassRoots& roots, const std::vector<Watch>& watches) {
    const Decided ahead = decided(roots.root, watches);
    return roots.behind ? nearer(ahead, decided(*roots.behind, watches)) : ahead;
}

/// What was found under one ending: each class, the truth (a margin of any class).
struct Found {
    std::vector<Decided> classes;
    double truth = 0.0;
    bool asked = true;
};

Found found(const Watched& watched, const std::vector<Watch>& watches) {
    Found found;
    for (const ClassRoots& roots : watched.classes) {
        found.classes.push_back(decided(roots, watches));
    }
    found.truth = found.classes.empty() ? decided(watched.truth, watches).margin
                                        : found.classes.front().margin;
    found.asked = !watched.asked || decided(*watched.asked, watches).margin < 0.0;
    return found;
}

/// The stand-in for a margin of nothing, given out as nothing.
double given_out(double margin) {
    return std::abs(margin) <= barely ? 0.0 : margin;
}

/// A node whose value at one slot is wanted.
struct Wanted {
    StreamNode* node = nullptr;
    std::int64_t slot = 0;
};

Outcome outcome(const Watched& watched, const Found& low, const Found& high, const RunState& run) {
    Outcome outcome;
    if (low.truth > 0.0) outcome.truth = Truth::held;
    if (high.truth < 0.0) outcome.truth = Truth::not_held;
    bool all_endless = !watched.classes.empty();
    for (std::size_t i = 0; i < watched.classes.size(); ++i) {
        const Decided& lo = low.classes[i];
        const Decided& hi = high.classes[i];
        const std::int64_t slot = outcome.truth == Truth::not_held ? hi.slot : lo.slot;
        all_endless = all_endless && lo.margin == endless_margin;
        outcome.margins.push_back({watched.classes[i].margin_class, given_out(lo.margin),
                                   given_out(hi.margin),
                                   run.civil(slot < 0 ? run.first_slot : slot)});
    }
    outcome.put_to_the_test = outcome.truth != Truth::held || (low.asked && !all_endless);
    return outcome;
}

}  // namespace

struct Monitor::Parts {
    RunState run;
    Graph graph{run};
    std::vector<Watched> watched;
    std::vector<Wanted> wanted;
    std::vector<double> numbers;  // of `wanted`
    std::vector<std::size_t> signals;
    std::vector<SignalNode*> signal_nodes;
    std::vector<double*> columns;  // of the block that is being filled
    std::vector<double> rows;
    std::size_t row = 0;      // of `rows`
    std::int64_t slot = 0;    // of the next tick
    bool block_full = false;  // but not yet looked at: who knows whether it is the last

    explicit Parts(std::int64_t start_s);
    void columns_from_rows();
    void block_complete();
    void read_numbers(std::int64_t block);
    void end_run();
};

Monitor::Parts::Parts(std::int64_t start_s) {
    run.first_slot = second_of_day(start_s) % block_ticks;
    run.origin_s = start_s - run.first_slot;
    slot = run.first_slot;
}

/// Moves the gathered rows to their place in the block; they end before slot `slot`.
void Monitor::Parts::columns_from_rows() {
    const std::size_t width = signals.size();
    const std::size_t at = place_of(slot - static_cast<std::int64_t>(row));
    const std::int64_t block = block_of(slot - 1);
    if (row == 0) return;
    for (std::size_t i = 0; i < width; ++i) {
        if (columns[i] == nullptr) columns[i] = signal_nodes[i]->begin_block(block);
        double* column = columns[i] + at;
        const double* from = rows.data() + i;
        for (std::size_t j = 0; j < row; ++j) column[j] = from[j * width];
    }
    row = 0;
}

/// Slots of a block outside the run repeat the nearest tick, so that they do not widen its bounds.
void Monitor::Parts::block_complete() {
    const std::int64_t block = block_of(slot - 1);
    for (std::size_t i = 0; i < signals.size(); ++i) {
        double* column = columns[i];
        if (block == 0) {
            const std::size_t first = place_of(run.first_slot);
            std::fill_n(column, first, column[first]);
        }
        const std::size_t last = place_of(slot - 1);
        std::fill(column + last + 1, column + block_ticks, column[last]);
        signal_nodes[i]->end_block(block);
        columns[i] = nullptr;
    }
    graph.carry(block);
    read_numbers(block);
    block_full = false;
}

void Monitor::Parts::read_numbers(std::int64_t block) {
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::int64_t at = wanted[i].slot;
        if (block_of(at) != block || at < run.first_slot || at >= slot) continue;
        numbers[i] = wanted[i].node->values(block)[place_of(at)];
    }
}

void Monitor::Parts::end_run() {
    columns_from_rows();
    run.end_slot = slot;
    if (block_full || (slot > run.first_slot && slot % block_ticks != 0)) {
        block_complete();
    }
}

Monitor::Monitor(std::span<const Requirement> requirements, std::int64_t start_s,
                 std::span<const NumberAt> numbers)
    : parts_(std::make_unique<Parts>(start_s)) {
    Parts& parts = *parts_;
    Compiler compiler(parts.graph, parts.run);
    for (const Requirement& requirement : requirements) {
        parts.watched.push_back(watched(requirement, compiler));
    }
    parts.wanted.reserve(numbers.size());
    for (const NumberAt& each : numbers) {
        StreamNode& node =
            each.number ? compiler.number(*each.number) : compiler.bit(*each.condition);
        parts.wanted.push_back({&node, each.at_s - parts.run.origin_s});
    }
    parts.numbers.resize(numbers.size(), no_number);
    parts.graph.make_room();
    for (const auto& [index, node] : parts.graph.signals()) {
        parts.signals.push_back(index);
        parts.signal_nodes.push_back(node);
    }
    parts.columns.resize(parts.signals.size(), nullptr);
    parts.rows.resize(std::max<std::size_t>(1, parts.signals.size() * rows_at_once));
}

Monitor::~Monitor() = default;
Monitor::Monitor(Monitor&&) noexcept = default;
Monitor& Monitor::operator=(Monitor&&) noexcept = default;

const std::vector<std::size_t>& Monitor::signals() const {
    return parts_->signals;
}

double* Monitor::row() {
    return parts_->rows.data() + parts_->row * parts_->signals.size();
}

void Monitor::tick() {
    Parts& parts = *parts_;
    if (parts.block_full) {
        parts.block_complete();
        parts.graph.look_up_to(block_of(parts.slot - 1));
    }
    ++parts.row;
    ++parts.slot;
    const bool block_full = parts.slot % block_ticks == 0;
    if (parts.row < rows_at_once && !block_full) return;
    parts.columns_from_rows();
    parts.block_full = block_full;
}

const std::vector<double>& Monitor::numbers() const {
    return parts_->numbers;
}

std::size_t Monitor::buffered() const {
    return parts_->run.pool.blocks() * static_cast<std::size_t>(block_ticks);
}

std::vector<Outcome> Monitor::finish() {
    Parts& parts = *parts_;
    parts.end_run();
    const std::vector<Watch>& watches = parts.graph.watches();
    const auto look = [&](Ending ending, AtEnd at_end, std::vector<Found>& all) {
        parts.run.ending = ending;
        ++parts.run.epoch;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const Watched& one = parts.watched[i];
            if (one.at_end == at_end) all[i] = found(one, watches);
        }
    };
    std::vector<Found> low(parts.watched.size());
    look(Ending::cut, AtEnd::cut, low);
    std::vector<Found> high = low;  // what is cut is decided
    look(Ending::low, AtEnd::unknown, low);
    look(Ending::high, AtEnd::unknown, high);
    std::vector<Outcome> outcomes;
    for (std::size_t i = 0; i < low.size(); ++i) {
        outcomes.push_back(outcome(parts.watched[i], low[i], high[i], parts.run));
    }
    return outcomes;
}

}  // namespace noonbench::harness
