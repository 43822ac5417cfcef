// SPDX-License-Identifier: MIT
// noonbench prove [PATH...]
#include "command.hpp"

#include "harness/prove/data_sheet.hpp"
#include "harness/prove/firmware_device.hpp"
#include "harness/prove/prove.hpp"
#include "harness/prove/proving_keys.hpp"
#include "harness/prove/read_proving.hpp"
#include "harness/scenario/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

namespace noonbench::cli {
namespace {

struct ProveOptions {
    std::vector<std::string> paths{"scenarios/proving"};
    std::string into = "out/proving";
    bool json = false;
    bool quiet = false;
    bool keys = false;
};

/// A folder stands for its files, in order of their names.
std::vector<std::filesystem::path> files_of(const std::vector<std::string>& paths) {
    std::vector<std::filesystem::path> files;
    for (const std::string& path : paths) {
        if (!std::filesystem::is_directory(path)) {
            files.emplace_back(path);
            continue;
        }
        std::vector<std::filesystem::path> here;
        for (const auto& entry : std::filesystem::directory_iterator(path)) {
            if (entry.path().extension() == ".yaml") here.push_back(entry.path());
        }
        if (here.empty()) {
            throw harness::InputRefused({{path, 0, 0, "holds no proving file", "*.yaml"}});
        }
        std::sort(here.begin(), here.end());
        files.insert(files.end(), here.begin(), here.end());
    }
    return files;
}

/// All files are read before the first test: a typing error in the last one costs nothing.
std::vector<harness::ProvingTest> read_all(const std::vector<std::string>& paths) {
    std::vector<harness::ProvingTest> tests;
    std::vector<harness::Problem> problems;
    for (const auto& file : files_of(paths)) {
        try {
            tests.push_back(harness::read_proving(file));
        } catch (const harness::InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (!problems.empty()) throw harness::InputRefused(problems);
    std::stable_sort(tests.begin(), tests.end(), [](const auto& a, const auto& b) {
        return a.what.index() < b.what.index();  // as a data sheet is read: differences first
    });
    return tests;
}

/// Blanks up to a width in characters: a sign of two bytes stands in one place.
std::string padded(const std::string& text, std::size_t width, bool to_the_right = false) {
    const auto characters =
        static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
            return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        }));
    const std::string blanks(width > characters ? width - characters : 0, ' ');
    return to_the_right ? blanks + text : text + blanks;
}

std::string table_text(const harness::TestResult& result) {
    const harness::Count count = harness::count_of(result);
    std::string text =
        fmt::format("{}: {} within, {} outside, {} not observed\n", result.test.title, count.within,
                    count.outside, count.not_observed);
    for (const harness::MeasuredLine& line : harness::lines_of(result.measurements)) {
        const harness::Measurement& m = line.first();
        fmt::format_to(
            std::back_inserter(text), "  {} {} {} {}  {}\n", padded(m.name + ", " + m.where, 66),
            padded(harness::value_text(m, m.set), 10, true), padded(line.measured_text(), 18, true),
            padded(harness::allowed_text(m), 10, true), harness::words_of(line.standing()));
    }
    return text;
}

std::string proof_text(const std::vector<harness::TestResult>& results,
                       const std::filesystem::path& folder) {
    std::string text =
        fmt::format("  {} {} {} {}  {}\n", padded("measurement", 66), padded("set", 10, true),
                    padded("measured", 18, true), padded("allowed", 10, true), "verdict");
    for (const harness::TestResult& result : results) text += table_text(result);
    const harness::Count all = harness::count_of(results);
    text += fmt::format("In all: {} within, {} outside, {} not observed.\n", all.within,
                        all.outside, all.not_observed);
    text += "Not a certificate of conformity with any standard.\n";
    return text + "data sheet  " + (folder / "data_sheet.html").string() + "\n";
}

int prove_files(const ProveOptions& options) {
    std::vector<harness::TestResult> results;
    for (const harness::ProvingTest& test : read_all(options.paths)) {
        results.push_back(harness::prove(test, harness::make_firmware_device));
    }
    harness::write_data_sheet(results, options.into);
    if (options.json) {
        std::cout << harness::data_sheet_json(results);
    } else if (!options.quiet) {
        std::cout << proof_text(results, options.into);
    }
    return harness::count_of(results).all_within() ? exit_done : exit_not_held;
}

}  // namespace

void add_prove(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ProveOptions>();
    CLI::App* prove = app.add_subcommand(
        "prove",
        "Put the controller through laboratory tests at its terminals; leave a data sheet");
    prove->add_option("PATH", options->paths, "proving files (YAML) or folders of them")
        ->capture_default_str();
    prove->add_option("--into", options->into, "folder for the data sheet")->capture_default_str();
    prove->add_flag("--quiet", options->quiet, "print nothing but errors");
    prove->add_flag("--keys", options->keys, "print the kinds of test and their keys, and end");
    prove->add_flag("--json", options->json, "print the data sheet as JSON and nothing else");
    prove->footer(
        "Exit code 1 when something lies outside what is allowed or was not observed.\n"
        "Example:  noonbench prove scenarios/proving/difference.yaml");
    prove->callback([options, &exit_code] {
        if (options->keys) {
            std::cout << harness::kinds_text();
            exit_code = exit_done;
        } else {
            exit_code = prove_files(*options);
        }
    });
}

}  // namespace noonbench::cli
