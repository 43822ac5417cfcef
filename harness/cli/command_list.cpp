// SPDX-License-Identifier: MIT
// noonbench list | schema | init: what is on the shelf, and how to begin
#include "command.hpp"
#include "screen.hpp"

#include "firmware-model/priority.hpp"
#include "plant/levers.hpp"
#include "traces/file.hpp"

#include "harness/language/phrases.hpp"
#include "harness/prove/read_proving.hpp"
#include "harness/scenario/describe.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::cli {
namespace {

std::vector<std::filesystem::path> yaml_files(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    if (!std::filesystem::is_directory(folder)) return files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

void list_title(const std::filesystem::path& file, const std::string& title) {
    std::cout << fmt::format("{:<56}{}\n", file.string(), title);
}

void refuse_all_but_a_folder(const std::filesystem::path& shelf) {
    if (std::filesystem::is_directory(shelf)) return;
    throw harness::InputRefused(
        {{shelf.string(), 0, 0, "is no folder", "a folder of scenarios (--shelf)"}});
}

/// Nothing at all where the shelf has no such part.
void list_part(const std::filesystem::path& part, std::string_view heading) {
    const auto files = yaml_files(part);
    if (!files.empty()) std::cout << '\n' << heading << '\n';
    for (const auto& file : files) list_title(file, harness::read_scenario(file).title);
}

/// Each fault with the words in which a customer reports it.
void list_faults(const std::filesystem::path& shelf) {
    refuse_all_but_a_folder(shelf);
    for (const auto& file : yaml_files(shelf / "faults")) {
        const harness::Scenario scenario = harness::read_scenario(file);
        std::cout << scenario.name << "\n    " << scenario.title << '\n';
        if (scenario.fault) {
            for (const auto& line : wrapped("Says: " + scenario.fault->customer_says, 96))
                std::cout << "    " << line << '\n';
        }
        std::cout << '\n';
    }
    std::cout << fmt::format(
        "To see one:          noonbench run {0}/faults/NAME.yaml\n"
        "Without the fault:   noonbench run {0}/faults/NAME.yaml --healthy\n"
        "For others to find:  noonbench run {0}/faults/NAME.yaml --sealed\n",
        shelf.string());
}

/// What can be run, what can be laid over a run, and what a controller can be put through.
void list_scenarios(const std::filesystem::path& shelf) {
    refuse_all_but_a_folder(shelf);
    for (const char* part : {"days", "years"}) {
        for (const auto& file : yaml_files(shelf / part)) {
            list_title(file, harness::read_scenario(file).title);
        }
    }
    list_part(shelf / "faults", "With a fault (noonbench list faults tells more):");
    list_part(shelf / "commissioning", "The day of commissioning, and each act left out:");
    std::cout << "\nFor noonbench judge, --check:\n";
    for (const auto& file : yaml_files(shelf / "checks")) {
        list_title(file, harness::read_checks(file).title);
    }
    std::cout << "\nFor noonbench judge --hunt, --bands:\n";
    for (const auto& file : yaml_files(shelf / "bands")) {
        list_title(file, harness::read_bands(file).title);
    }
    std::cout << "\nFor noonbench prove:\n";
    for (const auto& file : yaml_files(shelf / "proving")) {
        list_title(file, harness::read_proving(file).title);
    }
}

void list_levers() {
    std::cout << fmt::format("{:<34}{:<10}{:>8}{:>8}{:>9}  {}\n", "name", "unit", "least", "most",
                             "healthy", "meaning");
    for (const auto& lever : plant::lever_table) {
        std::cout << fmt::format("{:<34}{:<10}{:>8g}{:>8g}{:>9g}  {}\n", lever.name, lever.unit,
                                 lever.least, lever.most, lever.healthy, lever.meaning);
    }
}

const char* word(firmware::Forces forces) {
    return forces == firmware::Forces::on ? "on" : "off";
}

// In words, in the order of firmware::PumpClaim and firmware::BackupClaim.
constexpr std::array<const char*, firmware::pump_claim_count> pump_conditions{
    "a store sensor is at the ceiling",
    "a store sensor is lost",
    "set on by hand",
    "set off by hand",
    "the collector sensor is lost",
    "collector too hot, not yet released",
    "the frost guard asks",
    "day shedding asks",
    "night shedding or holiday mode asks",
    "the store limit is reached",
    "the difference is there",
    "a sampling run is due",
    "an exercise run is due",
    "nothing of all this"};
constexpr std::array<const char*, firmware::backup_claim_count> backup_conditions{
    "a store sensor is at the ceiling",
    "a store sensor is lost",
    "set on by hand",
    "set off by hand",
    "heating against legionella, still too cool",
    "heating against legionella, hot enough",
    "clock unset and below the minimum",
    "in a window, but the sun is heating",
    "in a window and too cool",
    "in a window and warm enough",
    "nothing of all this"};

/// Made from the very tables that arbitrate.
void list_priority() {
    std::cout << "The pump: the first row whose condition holds decides. A run may end before its\n"
                 "least time, and a rest before its own, only where the row says so.\n"
              << fmt::format("{:<38}{:<8}{:<20}{:<10}{}\n", "condition", "forces", "reason shown",
                             "ends run", "ends rest");
    for (const auto& row : firmware::pump_priority) {
        std::cout << fmt::format("{:<38}{:<8}{:<20}{:<10}{}\n",
                                 pump_conditions[static_cast<std::size_t>(row.who)],
                                 word(row.forces), name_of(row.reason),
                                 row.least_run == firmware::LeastRun::broken ? "yes" : "-",
                                 row.least_rest == firmware::LeastRest::broken ? "yes" : "-");
    }
    std::cout << "\nThe backup heat:\n";
    for (const auto& row : firmware::backup_priority) {
        std::cout << fmt::format("{:<44}{:<8}{}\n",
                                 backup_conditions[static_cast<std::size_t>(row.who)],
                                 word(row.forces), name_of(row.reason));
    }
}

struct ListOptions {
    std::string what = "scenarios";
    std::string shelf = "scenarios";
};

}  // namespace

void add_list(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ListOptions>();
    CLI::App* list = app.add_subcommand(
        "list",
        "What is on the shelf: scenarios, faults, settings, keys, levers, priority, phrases");
    list->add_option("WHAT", options->what,
                     "scenarios, faults, settings, keys, levers, priority or phrases")
        ->check(CLI::IsMember(
            {"scenarios", "faults", "settings", "keys", "levers", "priority", "phrases"}))
        ->capture_default_str();
    list->add_option("--shelf", options->shelf, "folder of the scenarios")->capture_default_str();
    list->footer("Example:  noonbench list settings");
    list->callback([options, &exit_code] {
        if (options->what == "scenarios") list_scenarios(options->shelf);
        if (options->what == "faults") list_faults(options->shelf);
        if (options->what == "settings") std::cout << harness::settings_text();
        if (options->what == "keys") std::cout << harness::keys_text();
        if (options->what == "levers") list_levers();
        if (options->what == "priority") list_priority();
        if (options->what == "phrases") std::cout << harness::phrases_text();
        exit_code = exit_done;
    });
}

void add_schema(CLI::App& app, int& exit_code) {
    CLI::App* schema = app.add_subcommand("schema", "JSON Schema of a scenario, for your editor");
    schema->footer("Example:  noonbench schema > scenario.schema.json");
    schema->callback([&exit_code] {
        std::cout << harness::schema_text();
        exit_code = exit_done;
    });
}

void add_init(CLI::App& app, int& exit_code) {
    auto file = std::make_shared<std::string>();
    CLI::App* init = app.add_subcommand("init", "Write a commented starter scenario");
    init->add_option("FILE", *file, "new file; never overwritten")->required();
    init->footer("Example:  noonbench init my_roof.yaml");
    init->callback([file, &exit_code] {
        if (std::filesystem::exists(*file)) {
            throw harness::InputRefused(
                {{*file, 0, 0, "is there already", "the name of a new file"}});
        }
        traces::write_whole(*file, harness::starter_text());
        std::cout << "Written: " << *file << "\nNext:    noonbench run " << *file << '\n';
        exit_code = exit_done;
    });
}

}  // namespace noonbench::cli
