// SPDX-License-Identifier: MIT
#include "choose_twin_table.hpp"

#include "harness/choose/results_file.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/yaml_tree.hpp"
#include "traces/file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace noonbench::harness::testing {

namespace {

/// The two differences whole; of the others a few choices, by their words, beside the delivered
/// one. What a drive costs in electricity and brings in heat, and whether the boiler waits for the
/// sun at the price of comfort, are the bench's strongest answers to a setting.
struct KeptDimension {
    std::string_view name;
    std::vector<std::string_view> choices;  // empty: all
};

const std::vector<KeptDimension>& kept_dimensions() {
    static const std::vector<KeptDimension> kept{
        {"start difference", {}},
        {"stop difference", {}},
        {"pump drive", {"on and off", "speed for 15 K"}},
        {"solar first", {"off"}},
    };
    return kept;
}

SettingDimension part_of_dimension(const SettingDimension& whole, const KeptDimension& kept) {
    SettingDimension part{whole.name, whole.ground, {}, 0};
    for (std::size_t i = 0; i < whole.choices.size(); ++i) {
        const bool delivered = i == whole.as_delivered;
        const bool named = std::find(kept.choices.begin(), kept.choices.end(),
                                     whole.choices[i].text) != kept.choices.end();
        if (delivered) part.as_delivered = part.choices.size();
        if (delivered || named || kept.choices.empty()) part.choices.push_back(whole.choices[i]);
    }
    return part;
}

SearchSpace twin_space(const Scenario& site) {
    const SearchSpace whole = search_space(site);
    SearchSpace part;
    part.as_delivered = whole.as_delivered;
    for (const KeptDimension& kept : kept_dimensions()) {
        const auto found =
            std::find_if(whole.dimensions.begin(), whole.dimensions.end(),
                         [&](const SettingDimension& each) { return each.name == kept.name; });
        if (found == whole.dimensions.end())
            throw std::runtime_error("no dimension " + std::string(kept.name));
        part.dimensions.push_back(part_of_dimension(*found, kept));
    }
    return part;
}

std::string source_path(const char* of) {
    return std::string(NOONBENCH_SOURCE_DIR) + "/" + of;
}

constexpr std::string_view without_sun_mark = "without the sun";

std::string levels_text(const Grid& grid, std::size_t candidate) {
    return fmt::format("{}", fmt::join(grid.point_of(candidate), " "));
}

void write_row(std::ostream& out, std::size_t world, std::string_view levels,
               const YearFigures& figures) {
    out << world << ',' << levels;
    for (const FigureInfo& each : twin_figures())
        out << ',' << fmt::format("{:.3f}", figures.*each.value);
    out << '\n';
}

YearFigures figures_in(std::istream& cells) {
    YearFigures figures;
    std::string cell;
    for (const FigureInfo& each : twin_figures()) {
        if (!std::getline(cells, cell, ',')) throw std::runtime_error("twin: a row is too short");
        figures.*each.value = std::stod(cell);
    }
    return figures;
}

}  // namespace

std::filesystem::path twin_file() {
    return source_path("tests/harness/choose_twin.csv");
}

TwinGround::TwinGround()
    : site(read_scenario(source_path(twin_site), {})),
      space(twin_space(site)),
      grid(grid_of(space)),
      delivered(grid.candidate_of(delivered_point(space))) {}

TrialGround TwinGround::trials() const {
    TrialGround ground;
    ground.site = site;
    ground.settings_of = [this](std::size_t candidate) {
        return settings_at(space, grid.point_of(candidate));
    };
    ground.seed = twin_seed;
    return ground;
}

std::vector<FigureInfo> twin_figures() {
    constexpr std::array<std::string_view, 11> names{
        "backup_kwh",    "pump_kwh",        "tapped_kwh",       "missing_kwh",
        "tapped_l",      "cool_l",          "stagnation_h",     "most_starts_a_day",
        "tap_hottest_c", "days_without_60", "high_limit_trips",
    };
    std::vector<FigureInfo> figures;
    for (const FigureInfo& each : figure_table())
        if (std::find(names.begin(), names.end(), each.name) != names.end())
            figures.push_back(each);
    return figures;
}

std::vector<std::string> twin_heading(const TwinGround& ground) {
    std::vector<std::string> lines{
        "Each setting of a grid in each world of a pool: what the bench gave, told from four",
        "typical weeks. Made anew by the target renew_choose_twin.",
        fmt::format("site {}, worlds 0 to {} of seed {}", twin_site, twin_worlds - 1, twin_seed)};
    for (const SettingDimension& each : ground.space.dimensions) {
        std::string line = each.name + ":";
        for (std::size_t i = 0; i < each.choices.size(); ++i)
            line += fmt::format("{} {} = {}", i == 0 ? "" : ",", i, each.choices[i].text);
        lines.push_back(line);
    }
    return lines;
}

void write_twin(std::ostream& out, const TwinGround& ground, const TwinTable& table) {
    for (const std::string& line : table.heading) out << "# " << line << '\n';
    out << "world,choices";
    for (const FigureInfo& each : twin_figures()) out << ',' << each.name;
    out << '\n';
    for (std::size_t world = 0; world < table.candidate.size(); ++world) {
        write_row(out, world, without_sun_mark, table.without_sun[world]);
        for (const std::size_t candidate : ground.grid.possible())
            write_row(out, world, levels_text(ground.grid, candidate),
                      table.candidate[world][candidate]);
    }
}

TwinTable read_twin(std::istream& in, const TwinGround& ground) {
    TwinTable table;
    table.without_sun.resize(twin_worlds);
    table.candidate.assign(twin_worlds, std::vector<YearFigures>(ground.grid.size()));
    std::map<std::string, std::size_t> candidates;
    for (const std::size_t candidate : ground.grid.possible())
        candidates[levels_text(ground.grid, candidate)] = candidate;
    std::size_t rows = 0;
    std::string line;
    bool columns_seen = false;
    while (std::getline(in, line)) {
        if (line.starts_with("# ")) {
            table.heading.push_back(line.substr(2));
            continue;
        }
        if (!std::exchange(columns_seen, true)) continue;
        std::istringstream cells(line);
        std::string world;
        std::string levels;
        std::getline(cells, world, ',');
        std::getline(cells, levels, ',');
        YearFigures& place = levels == without_sun_mark
                                 ? table.without_sun.at(std::stoul(world))
                                 : table.candidate.at(std::stoul(world)).at(candidates.at(levels));
        place = figures_in(cells);
        ++rows;
    }
    if (rows != twin_worlds * (candidates.size() + 1))
        throw std::runtime_error(
            fmt::format("twin: {} rows, not one for each setting and world", rows));
    return table;
}

Score twin_score(const TwinGround& ground, const TwinTable& table, const Trial& trial) {
    const std::vector<YearFigures>& in_world = table.candidate.at(trial.world);
    return score_of({in_world.at(trial.candidate), in_world.at(ground.delivered),
                     table.without_sun.at(trial.world)},
                    Weights{});
}

void renew_twin(const std::filesystem::path& rows) {
    const TwinGround ground;
    SearchQuestion question;
    question.program = "choose twin";
    question.scenario = yaml_text(composed_tree(source_path(twin_site), {}));
    question.seed = twin_seed;
    ResultsFile file(rows, question);
    TrialRunner runner(ground.trials(), file, 1, [](const YearsUnderway& now) {
        if (now.done % 20 == 0 || now.done == now.expected)
            std::cerr << now.done << " of " << now.expected << " years\n";
    });
    TwinTable table;
    table.heading = twin_heading(ground);
    for (std::size_t world = 0; world < twin_worlds; ++world) {
        std::vector<Trial> trials;
        for (const std::size_t candidate : ground.grid.possible())
            trials.push_back({candidate, world});
        std::cerr << "world " << world << '\n';
        (void)runner.run(trials);
        table.without_sun.push_back(runner.figures_without_sun(world));
        table.candidate.emplace_back(ground.grid.size());
        for (const Trial& trial : trials)
            table.candidate[world][trial.candidate] = runner.figures_of_trial(trial);
    }
    std::ostringstream text;
    write_twin(text, ground, table);
    traces::write_whole(twin_file(), text.str());
}

}  // namespace noonbench::harness::testing
