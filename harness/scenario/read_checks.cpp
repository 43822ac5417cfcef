// SPDX-License-Identifier: MIT
#include "read_checks.hpp"

#include "compose.hpp"
#include "read_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <string_view>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

/// The rows of title, about and one more.
std::vector<Key> keys_with(std::string_view path) {
    const std::array<std::string_view, 3> allowed = {"title", "about", path};
    std::vector<Key> some;
    std::copy_if(all_keys().begin(), all_keys().end(), std::back_inserter(some),
                 [&](const Key& key) {
                     return std::find(allowed.begin(), allowed.end(), key.path) != allowed.end();
                 });
    return some;
}

Scenario read_only(const std::vector<Key>& keys, const std::filesystem::path& file,
                   std::string_view wanted) {
    const Node root = compose_file(file);
    if (root.kind != Node::Kind::map) {
        throw InputRefused(
            {{file.string(), root.place.line, root.place.column,
              fmt::format("{} stands where {} are wanted", kind_text(root.kind), wanted),
              fmt::format("title, about and {}", keys.back().path)}});
    }
    Draft draft;
    Findings findings;
    read_map(keys, root, "", draft, findings);
    findings.refuse_if_any(file.string());
    return std::move(draft.scenario);
}

}  // namespace

Checks read_checks(const std::filesystem::path& file) {
    static const std::vector<Key> keys = keys_with("require");
    Scenario read = read_only(keys, file, "checks");
    return {std::move(read.title), std::move(read.about), std::move(read.require)};
}

Bands read_bands(const std::filesystem::path& file) {
    static const std::vector<Key> keys = keys_with("uncertain");
    Scenario read = read_only(keys, file, "bands");
    return {std::move(read.title), std::move(read.about), std::move(read.uncertain)};
}

}  // namespace noonbench::harness
