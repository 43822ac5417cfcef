// SPDX-License-Identifier: MIT
#include "agreement.hpp"

#include <algorithm>
#include <cstdlib>

namespace noonbench::benchmarks {
namespace {

struct Pair {
    CivilSeconds apart_s;
    std::size_t found;
    std::size_t truth;
};

std::vector<Pair> possible_pairs(const std::vector<Switching>& found,
                                 const std::vector<Switching>& truth) {
    std::vector<Pair> pairs;
    pairs.reserve(2 * truth.size());
    std::size_t first = 0;
    for (std::size_t t = 0; t < truth.size(); ++t) {
        const CivilSeconds at = truth[t].at_s;
        while (first < found.size() && found[first].at_s < at - farthest_partner_s) ++first;
        for (std::size_t f = first; f < found.size() && found[f].at_s <= at + farthest_partner_s;
             ++f) {
            if (found[f].on == truth[t].on) pairs.push_back({std::abs(found[f].at_s - at), f, t});
        }
    }
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const Pair& a, const Pair& b) { return a.apart_s < b.apart_s; });
    return pairs;
}

}  // namespace

Agreement agreement_of(const std::vector<Switching>& found, const std::vector<Switching>& truth) {
    std::vector<bool> found_taken(found.size());
    std::vector<bool> truth_taken(truth.size());
    Agreement agreement;
    int near = 0;
    int matched = 0;
    for (const Pair& pair : possible_pairs(found, truth)) {
        if (found_taken[pair.found] || truth_taken[pair.truth]) continue;
        found_taken[pair.found] = true;
        truth_taken[pair.truth] = true;
        ++matched;
        near += pair.apart_s <= 1 ? 1 : 0;
        agreement.furthest_s = std::max(agreement.furthest_s, pair.apart_s);
    }
    agreement.unmatched = static_cast<int>(found.size() + truth.size()) - 2 * matched;
    if (!truth.empty()) agreement.within_1s_pct = 100.0 * near / static_cast<double>(truth.size());
    return agreement;
}

}  // namespace noonbench::benchmarks
