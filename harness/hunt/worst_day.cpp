// SPDX-License-Identifier: MIT
// What a hunt leaves: a scenario file and a table.
#include "hunt.hpp"

#include "traces/file.hpp"

#include "harness/scenario/compose.hpp"
#include "harness/scenario/read.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace noonbench::harness {

namespace {

std::string percent(double share) {
    return fmt::format("{:.0f} %", 100.0 * share);
}

bool is_moved(const HuntResult& result, std::size_t i) {
    return result.texts[i] != result.dimensions[i].usual_text;
}

std::string found_words(const HuntResult& result) {
    return fmt::format("\"{}\": {}", result.requirement.name, verdict_words(result.found));
}

/// "12 runs until it broke, 140 in all, seed 1", "400 runs, seed 1".
std::string effort_words(const HuntResult& result) {
    const SearchResult& search = result.search;
    std::string words = search.broken ? fmt::format("broken at run {}, {} runs in all",
                                                    search.runs_to_break, search.runs)
                                      : fmt::format("not broken in {} runs", search.runs);
    words += fmt::format(", seed {}", result.request.seed);
    if (result.refused > 0)
        words +=
            fmt::format("; {} of them made no scenario ({})", result.refused, result.first_refusal);
    return words;
}

/// How far from the usual site: the farthest side, and all sides together.
std::string mildness_words(const HuntResult& result) {
    const std::vector<double> nominal = nominal_point(result.dimensions);
    return fmt::format("farthest from usual: {} of its band; root mean square of all: {}",
                       percent(greatest_move(result.search.point, nominal)),
                       percent(mean_move(result.search.point, nominal)));
}

std::string about_text(const HuntResult& result) {
    std::string about = found_words(result) + ".\n";
    about += fmt::format("With the usual values: {}.\n", verdict_words(result.usual));
    about += effort_words(result) + ".\n" + mildness_words(result) + ".\n";
    about += fmt::format("Found from {}. Varied, from usual to found:\n",
                         result.request.scenario.filename().string());
    for (std::size_t i = 0; i < result.dimensions.size(); ++i) {
        const Dimension& each = result.dimensions[i];
        about += fmt::format("- {}: {}{} (band {} to {})\n", name_of(each), each.usual_text,
                             is_moved(result, i) ? " to " + result.texts[i] : ", kept",
                             each.band.least_text, each.band.most_text);
    }
    return about;
}

/// The first line of the file, whatever stood under that key.
void put_first(Node& root, std::string_view key, std::string text) {
    Node node;
    node.kind = Node::Kind::scalar;
    node.text = std::move(text);
    std::erase_if(root.entries, [&](const Entry& entry) { return entry.key == key; });
    root.entries.insert(root.entries.begin(), {std::string(key), {}, std::move(node)});
}

}  // namespace

std::string worst_day_name(const std::filesystem::path& scenario) {
    return scenario.stem().string() + "_worst_day";
}

void write_worst_day(const HuntResult& result, const std::filesystem::path& file) {
    Node tree = result.tree;
    const char* kind = result.search.broken ? "Worst day found" : "Tightest day found";
    put_first(tree, "about", about_text(result));
    put_first(tree, "title", fmt::format("{}: {}", kind, result.title));
    const std::filesystem::path folder = file.parent_path();
    move_to_folder(tree, folder);
    if (!folder.empty()) std::filesystem::create_directories(folder);
    traces::write_whole(file, yaml_text(tree));
}

std::string hunt_text(const HuntResult& result) {
    std::size_t widest = 8;
    std::size_t usual = 5;
    std::size_t found = 5;
    for (std::size_t i = 0; i < result.dimensions.size(); ++i) {
        widest = std::max(widest, name_of(result.dimensions[i]).size());
        usual = std::max(usual, result.dimensions[i].usual_text.size());
        found = std::max(found, result.texts[i].size());
    }
    std::string out = fmt::format("{}\n", result.title);
    out += fmt::format("  {}\n", found_words(result));
    out += fmt::format("  with the usual values: {}\n", verdict_words(result.usual));
    out += fmt::format("  {}\n  {}\n\n", effort_words(result), mildness_words(result));
    out += fmt::format("  {:{}}  {:{}}  {:{}}  band\n", "quantity", widest, "usual", usual, "found",
                       found);
    for (std::size_t i = 0; i < result.dimensions.size(); ++i) {
        const Dimension& each = result.dimensions[i];
        out += fmt::format("  {:{}}  {:{}}  {:{}}  {} to {}\n", name_of(each), widest,
                           each.usual_text, usual, is_moved(result, i) ? result.texts[i] : "=",
                           found, each.band.least_text, each.band.most_text);
    }
    return out;
}

}  // namespace noonbench::harness
