// SPDX-License-Identifier: MIT
// The parts of the benchmark; each prints as it goes and adds to the results.
#pragma once
#include "house.hpp"
#include "results.hpp"

#include <filesystem>

namespace noonbench::benchmarks {

/// The short form: clear April days of the plant alone; judged by heat and starts.
void short_form(CivilSeconds days, Results& results);
/// The plant alone under a plain rule, all peers: minute clouds and hourly sky, on/off and
/// regulated.
void plant_part(const Span& span, Results& results);
/// The bench with the real controller.
void bench_part(const Span& span, Results& results);

struct BatchWishes {
    int variants = 24;
    std::uint64_t seed = 20240607;
};
/// Different variants of the house on all threads.
void batch_part(const Span& span, const BatchWishes& wishes, Results& results);
/// Whether variants leave the same bytes on one thread and on two.
[[nodiscard]] bool same_bytes_on_two_threads(const Span& span, const BatchWishes& wishes);

/// Cost against years, variants and cells.
void cost_part(const Span& span, Results& results);
/// SciPy on the same right-hand side, if python3 with SciPy is there; single days, scaled.
/// `beside` is the folder of this program.
void scipy_part(const std::filesystem::path& beside, Results& results);

}  // namespace noonbench::benchmarks
