// SPDX-License-Identifier: MIT
#include "hunt_screen.hpp"

#include "command.hpp"

#include "harness/hunt/hunt.hpp"
#include "harness/scenario/read_checks.hpp"

#include <unistd.h>
#include <iostream>
#include <string>

namespace noonbench::cli {

namespace {

/// Rewrites one line on standard error, where somebody looks.
harness::HuntProgress progress_for(int budget) {
    if (isatty(STDERR_FILENO) != 1) return {};
    return [budget](int runs) {
        std::cerr << "\r  run " << runs << " of at most " << budget << std::flush;
    };
}

void clear_progress() {
    if (isatty(STDERR_FILENO) == 1) std::cerr << "\r" << std::string(40, ' ') << '\r';
}

}  // namespace

int hunt_worst_day(const HuntOptions& options) {
    harness::HuntRequest request;
    request.scenario = options.scenario;
    request.sets = options.sets;
    request.checks.assign(options.checks.begin(), options.checks.end());
    request.requirement = options.requirement;
    if (!options.bands.empty()) request.uncertain = harness::read_bands(options.bands).uncertain;
    request.budget = options.budget;
    request.seed = options.seed;
    const harness::HuntResult result = harness::hunt(request, progress_for(options.budget));
    clear_progress();
    const std::string name = harness::worst_day_name(options.scenario);
    const std::filesystem::path folder =
        options.into.empty() ? std::filesystem::path("out") / name : options.into;
    const std::filesystem::path file = folder / (name + ".yaml");
    harness::write_worst_day(result, file);
    std::cout << harness::hunt_text(result) << "\nWritten: " << file.string() << '\n';
    return result.search.broken ? exit_not_held : exit_done;
}

}  // namespace noonbench::cli
