// SPDX-License-Identifier: MIT
#include "read.hpp"

#include "complete.hpp"
#include "compose.hpp"

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

Scenario scenario_of(Node root, const std::string& file, std::span<const std::string> sets) {
    refuse_all_but_a_map(root, file);
    apply_sets(root, sets);
    Draft draft;
    draft.scenario.name = std::filesystem::path(file).stem().string();
    Findings findings;
    const Given given = read_map(all_keys(), root, "", draft, findings);
    complete(draft, given, file, findings);
    findings.refuse_if_any(file);
    return std::move(draft.scenario);
}

}  // namespace

Scenario read_scenario(const std::filesystem::path& file, std::span<const std::string> sets) {
    return scenario_of(compose_file(file), file.string(), sets);
}

Scenario read_scenario_text(std::string_view yaml, const std::string& name,
                            std::span<const std::string> sets) {
    return scenario_of(compose_text(yaml, name), name, sets);
}

}  // namespace noonbench::harness
