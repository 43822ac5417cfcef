// SPDX-License-Identifier: MIT
#include "balance.hpp"

#include <cmath>
#include <cstddef>
#include <limits>

namespace noonbench::plant {
namespace {

constexpr double boundary_share = 1e-9;
constexpr double rounding_share = 64.0 * std::numeric_limits<double>::epsilon();

double net_in(const EdgeAmounts& edges, Edge left_out) {
    double net = 0.0;
    for (std::size_t i = 0; i < edge_sign.size(); ++i) {
        if (i != static_cast<std::size_t>(left_out)) net += edge_sign[i] * edges[i];
    }
    return net;
}

double throughput(const EdgeAmounts& edges) {
    double sum = 0.0;
    for (std::size_t i = 0; i < edge_sign.size(); ++i) sum += std::abs(edges[i]);
    return sum;
}

}  // namespace

void Books::add(const EdgeAmounts& step) {
    for (std::size_t i = 0; i < step.size(); ++i) {
        const double sum = total[i] + step[i];
        const bool larger = std::abs(total[i]) >= std::abs(step[i]);
        carry[i] += larger ? (total[i] - sum) + step[i] : (step[i] - sum) + total[i];
        total[i] = sum;
    }
}

double Books::of(Edge edge) const {
    return at(total, edge) + at(carry, edge);
}

double Books::tapped_j() const {
    return of(Edge::hot_out) - of(Edge::cold_in);
}

double Books::net_in_j(Edge left_out) const {
    return net_in(total, left_out) + net_in(carry, left_out);
}

double Books::throughput_j() const {
    return throughput(total);
}

Stored stored(const Layout& layout, const Amounts& amounts) {
    Stored held;
    for (int i = 0; i < layout.cells; ++i) {
        const double energy_j = amounts[static_cast<std::size_t>(i)];
        held.sum_j += energy_j;
        held.absolute_j += std::abs(energy_j);
    }
    return held;
}

Residual step_residual(const Layout& layout, const Amounts& before, const Amounts& after,
                       const EdgeAmounts& step, Edge left_out) {
    // Four partial sums in a fixed order: the same bytes everywhere, and no chain of additions.
    constexpr std::size_t ways = 4;
    std::array<double, ways> change{};
    std::array<double, ways> held{};
    const auto cells = static_cast<std::size_t>(layout.cells);
    std::size_t i = 0;
    for (; i + ways <= cells; i += ways) {
        for (std::size_t w = 0; w < ways; ++w) {
            change[w] += after[i + w] - before[i + w];
            held[w] += std::abs(after[i + w]);
        }
    }
    for (; i < cells; ++i) {
        change[0] += after[i] - before[i];
        held[0] += std::abs(after[i]);
    }
    const double changed_j = (change[0] + change[1]) + (change[2] + change[3]);
    const double held_j = (held[0] + held[1]) + (held[2] + held[3]);
    return {changed_j - net_in(step, left_out),
            boundary_share * throughput(step) + rounding_share * held_j};
}

Residual run_residual(const Stored& now, const Balance& balance, const Books& books,
                      Edge left_out) {
    return {now.sum_j - balance.stored_at_start_j - books.net_in_j(left_out),
            boundary_share * books.throughput_j() + rounding_share * now.absolute_j};
}

}  // namespace noonbench::plant
