// SPDX-License-Identifier: MIT
#include "read_proving.hpp"

#include "proving_keys.hpp"

#include "harness/scenario/compose.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/read_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

const KindInfo* kind_named(std::string_view word) {
    const auto& kinds = all_kinds();
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const KindInfo& kind) { return kind.word == word; });
    return found == kinds.end() ? nullptr : &*found;
}

std::vector<std::string_view> kind_words() {
    std::vector<std::string_view> words;
    for (const KindInfo& kind : all_kinds()) words.push_back(kind.word);
    return words;
}

/// Unknown keys at the top are complained of and left out; the kind of the test is chosen.
const KindInfo* sort_out_the_top(Node& root, Findings& findings) {
    std::vector<std::string_view> words = words_below(common_keys(), "");
    for (const std::string_view word : kind_words()) words.push_back(word);
    const KindInfo* kind = nullptr;
    std::erase_if(root.entries, [&](const Entry& entry) {
        if (std::find(words.begin(), words.end(), entry.key) == words.end()) {
            std::string what = in_quotes(entry.key) + " is not a key of a proving file";
            const std::string_view meant = nearest_word(entry.key, words);
            if (!meant.empty()) what += fmt::format(" (did you mean {}?)", meant);
            findings.add(entry.place, what, joined(words));
            return true;
        }
        const KindInfo* here = kind_named(entry.key);
        if (here == nullptr) return false;
        if (kind == nullptr) {
            kind = here;
            return false;
        }
        findings.add(entry.place, fmt::format("{} cannot stand beside {}", entry.key, kind->word),
                     "one test in a file");
        return true;
    });
    return kind;
}

void wrap_values(Node& node);

/// A bare value becomes a map of one key; a single one becomes a list of one.
void wrap_list(Node& list) {
    const auto wrap = [](Node& value) {
        Node map;
        map.kind = Node::Kind::map;
        map.place = value.place;
        const Place place = value.place;
        map.entries.push_back({std::string(wrapped_key), place, std::move(value)});
        value = std::move(map);
    };
    for (Node& item : list.items) {
        if (item.kind == Node::Kind::scalar) wrap(item);
    }
}

void wrap_values(Node& node) {
    for (Node& item : node.items) wrap_values(item);
    for (Entry& entry : node.entries) {
        const auto lists = lists_of_values();
        if (std::find(lists.begin(), lists.end(), entry.key) != lists.end()) {
            wrap_list(entry.value);
        } else {
            wrap_values(entry.value);
        }
    }
}

ProvingTest test_of(Node root, const std::string& file) {
    if (root.kind != Node::Kind::map) {
        throw InputRefused(
            {{file, root.place.line, root.place.column,
              std::string(kind_text(root.kind)) + " stands where a proving file is wanted",
              "keys and values as `key: value`"}});
    }
    ProvingDraft draft;
    draft.test.name = std::filesystem::path(file).stem().string();
    Findings findings;
    const KindInfo* kind = sort_out_the_top(root, findings);
    std::vector<Key> keys = common_keys();
    if (kind == nullptr) {
        findings.add(root.place, "no test stands here", "one of " + joined(kind_words()));
    } else {
        kind->choose(draft.test);
        keys.insert(keys.end(), kind->keys.begin(), kind->keys.end());
        wrap_values(root);
    }
    read_map(keys, root, "", draft, findings);
    findings.refuse_if_any(file);
    draft.test.settings = draft.scenario.controller.settings;
    if (draft.test.title.empty()) draft.test.title = draft.test.name;
    return std::move(draft.test);
}

}  // namespace

ProvingTest read_proving(const std::filesystem::path& file) {
    return test_of(compose_file(file), file.string());
}

ProvingTest read_proving_text(std::string_view yaml, const std::string& name) {
    return test_of(compose_text(yaml, name), name);
}

}  // namespace noonbench::harness
