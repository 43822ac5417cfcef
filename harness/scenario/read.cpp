// SPDX-License-Identifier: MIT
#include "read.hpp"

#include "complete.hpp"
#include "compose.hpp"
#include "read_map.hpp"
#include "twin.hpp"

#include <algorithm>
#include <utility>

namespace noonbench::harness {

namespace {

void refuse_all_but_a_map(const Node& root, const std::string& file) {
    if (root.kind == Node::Kind::map) return;
    throw InputRefused({{file, root.place.line, root.place.column,
                         std::string(kind_text(root.kind)) + " stands where a scenario is wanted",
                         "keys and values as `key: value`"}});
}

/// Lays every override over the tree; all that are none are refused together.
template <class Sets, class Apply>
void apply_each(const Sets& sets, Apply apply) {
    std::vector<Problem> problems;
    for (const auto& set : sets) {
        try {
            apply(set);
        } catch (const InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (!problems.empty()) throw InputRefused(std::move(problems));
}

void apply_sets(Node& root, std::span<const std::string> sets) {
    apply_each(sets, [&](const std::string& set) { apply_set(root, set); });
}

Scenario understood(const Node& root, const std::filesystem::path& file) {
    Draft draft;
    draft.scenario.name = file.stem().string();
    Findings findings;
    const Given given = read_map(all_keys(), root, "", draft, findings);
    complete(draft, given, file.string(), findings);
    findings.refuse_if_any(file.string());
    return std::move(draft.scenario);
}

/// Where a requirement is known to fail in the twin, there must be one, and what makes it must be
/// overrides that this scenario takes.
void check_twin(const Node& root, const Scenario& scenario, const std::filesystem::path& file) {
    Findings findings;
    for (const RequirementText& r : scenario.require) {
        const bool needs_twin =
            std::find(r.fails_with.begin(), r.fails_with.end(), healthy_word) != r.fails_with.end();
        if (needs_twin && !has_twin(scenario))
            findings.add(r.fails_with_place,
                         "this scenario has no healthy twin in which something could fail",
                         "overrides path.to.key=VALUE; or faults: or fault.twin: beside it");
    }
    findings.refuse_if_any(file.string());
    if (scenario.fault && !scenario.fault->twin.empty())
        static_cast<void>(read_twin_tree(root, scenario.fault->twin, file));
}

}  // namespace

Node composed_tree(const std::filesystem::path& file, std::span<const std::string> sets) {
    Node root = compose_file(file);
    refuse_all_but_a_map(root, file.string());
    apply_sets(root, sets);
    return root;
}

Scenario read_scenario_tree(const Node& root, const std::filesystem::path& file) {
    Scenario scenario = understood(root, file);
    check_twin(root, scenario, file);
    return scenario;
}

Scenario read_twin_tree(Node root, std::span<const TwinSet> twin,
                        const std::filesystem::path& file) {
    std::erase_if(root.entries, [](const Entry& entry) { return entry.key == "fault"; });
    apply_each(twin, [&](const TwinSet& each) { apply_set(root, each.set, each.place); });
    return understood(root, file);
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
