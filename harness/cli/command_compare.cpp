// SPDX-License-Identifier: MIT
// noonbench compare A B
#include "command.hpp"
#include "read_files.hpp"

#include "traces/compare.hpp"
#include "traces/csv.hpp"

#include "harness/scenario/problem.hpp"

#include <fstream>
#include <iostream>
#include <memory>
#include <string>

namespace noonbench::cli {
namespace {

struct CompareOptions {
    std::string expected;
    std::string found;
    std::string tolerances;
};

traces::Tolerances tolerances_of(const std::string& file) {
    if (file.empty()) return {};
    std::ifstream in(file);
    if (!in) throw harness::InputRefused({{file, 0, 0, "cannot be read", "a tolerance file"}});
    try {
        return traces::read_tolerances(in);
    } catch (const traces::ReadError& error) {
        throw harness::InputRefused(
            {{file, static_cast<int>(error.line()), static_cast<int>(error.column()), error.what(),
              "lines of: column value seconds"}});
    }
}

int compare_runs(const CompareOptions& options) {
    const traces::Tolerances tolerances = tolerances_of(options.tolerances);
    auto differences = traces::find_differences(read_trace(options.expected),
                                                read_trace(options.found), tolerances);
    const auto of_events = traces::find_differences(read_events(options.expected),
                                                    read_events(options.found), tolerances);
    differences.insert(differences.end(), of_events.begin(), of_events.end());
    for (const auto& difference : differences) std::cout << traces::in_words(difference) << '\n';
    if (differences.empty()) std::cout << "They agree.\n";
    return differences.empty() ? exit_done : exit_not_held;
}

}  // namespace

void add_compare(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<CompareOptions>();
    CLI::App* compare =
        app.add_subcommand("compare", "Compare two runs, column by column and event by event");
    compare->add_option("A", options->expected, "folder of the run that is right")->required();
    compare->add_option("B", options->found, "folder of the other run")->required();
    compare->add_option("--tolerances", options->tolerances,
                        "file of lines: column value seconds; without one they must be equal");
    compare->footer(
        "Exit code 1 when they differ.\n"
        "Example:  noonbench compare out/monday out/tuesday --tolerances mine.txt");
    compare->callback([options, &exit_code] { exit_code = compare_runs(*options); });
}

}  // namespace noonbench::cli
