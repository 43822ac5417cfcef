// SPDX-License-Identifier: MIT
#include "read.hpp"

#include "complete.hpp"
#include "compose.hpp"
#include "read_map.hpp"

namespace noonbench::harness {

namespace {

void refuse_all_but_a_map(const Node& root, const std::string& file) {
    if (root.kind == Node::Kind::map) return;
    throw InputRefused({{file, root.place.line, root.place.column,
                         std::string(kind_text(root.kind)) + " stands where a scenario is wanted",
                         "keys and values as `key: value`"}});
}

void apply_sets(Node& root, std::span<const std::string> sets) {
    std::vector<Problem> problems;
    for (const std::string& set : sets) {
        try {
            apply_set(root, set);
        } catch (const InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (!problems.empty()) throw InputRefused(std::move(problems));
}

}  // namespace

Node composed_tree(const std::filesystem::path& file, std::span<const std::string> sets) {
    Node root = compose_file(file);
    refuse_all_but_a_map(root, file.string());
    apply_sets(root, sets);
    return root;
}

Scenario read_scenario_tree(const Node& root, const std::filesystem::path& file) {
    Draft draft;
    draft.scenario.name = file.stem().string();
    Findings findings;
    const Given given = read_map(all_keys(), root, "", draft, findings);
    complete(draft, given, file.string(), findings);
    findings.refuse_if_any(file.string());
    return std::move(draft.scenario);
}

Scenario read_scenario(const std::filesystem::path& file, std::span<const std::string> sets) {
    return read_scenario_tree(composed_tree(file, sets), file);
}

Scenario read_scenario_text(std::string_view yaml, const std::string& name,
                            std::span<const std::string> sets) {
    Node root = compose_text(yaml, name);
    refuse_all_but_a_map(root, name);
    apply_sets(root, sets);
    return read_scenario_tree(root, name);
}

void move_to_folder(Node& root, const std::filesystem::path& folder) {
    Node* sky = find(root, "sky");
    Node* weather = sky == nullptr ? nullptr : find(*sky, "weather");
    Node* file = weather == nullptr ? nullptr : find(*weather, "file");
    if (file == nullptr || file->kind != Node::Kind::scalar) return;
    file->text = std::filesystem::proximate(path_seen_from(file->place, file->text), folder)
                     .generic_string();
}

}  // namespace noonbench::harness
