// SPDX-License-Identifier: MIT
#include "key_lookup.hpp"

#include "quantity_text.hpp"
#include "value.hpp"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

/// The first word of a path and what follows its dot.
std::pair<std::string_view, std::string_view> first_word(std::string_view path) {
    const std::size_t dot = path.find('.');
    if (dot == std::string_view::npos) return {path, {}};
    return {path.substr(0, dot), path.substr(dot + 1)};
}

std::optional<std::size_t> item_number(std::string_view word) {
    std::size_t number = 0;
    const auto result = std::from_chars(word.data(), word.data() + word.size(), number);
    if (result.ec != std::errc() || result.ptr != word.data() + word.size()) return std::nullopt;
    return number;
}

KeyFound find_in(const std::vector<Key>& keys, std::string_view path, const Key* list) {
    for (const Key& key : keys) {
        if (key.form != Form::list) {
            if (key.path == path) return {&key, list};
            continue;
        }
        if (!path.starts_with(key.path) || path.size() <= key.path.size() ||
            path[key.path.size()] != '.')
            continue;
        std::string_view below = path.substr(key.path.size() + 1);
        const auto [word, rest] = first_word(below);
        if (item_number(word)) below = rest;
        return find_in(key.items, below, &key);
    }
    return {};
}

void add_paths(std::vector<std::string>& paths, const std::vector<Key>& keys,
               const std::string& label) {
    for (const Key& key : keys) {
        if (key.form == Form::list)
            add_paths(paths, key.items, label + key.path + ".");
        else
            paths.push_back(label + key.path);
    }
}

std::string without_numbers(std::string_view path) {
    std::string out;
    while (!path.empty()) {
        const auto [word, rest] = first_word(path);
        if (!item_number(word)) out += (out.empty() ? "" : ".") + std::string(word);
        path = rest;
    }
    return out;
}

}  // namespace

KeyFound find_key(std::string_view path) {
    return find_in(all_keys(), path, nullptr);
}

std::string nearest_path(std::string_view path) {
    std::vector<std::string> paths;
    add_paths(paths, all_keys(), "");
    const std::vector<std::string_view> words(paths.begin(), paths.end());
    const std::string wanted = without_numbers(path);
    const std::string_view nearest = nearest_word(wanted, words);
    if (!nearest.empty()) return std::string(nearest);
    return std::string(path_ending_in(wanted.substr(wanted.rfind('.') + 1), words));
}

std::string_view path_ending_in(std::string_view word, std::span<const std::string_view> paths) {
    const std::string ending = "." + std::string(word);
    const auto depth = [](std::string_view p) { return std::count(p.begin(), p.end(), '.'); };
    std::string_view found;
    for (const std::string_view path : paths) {
        if (path.ends_with(ending) && (found.empty() || depth(path) < depth(found))) found = path;
    }
    return found;
}

const Node* node_at(const Node& root, std::string_view path) {
    const Node* at = &root;
    while (at != nullptr && !path.empty()) {
        const auto [word, rest] = first_word(path);
        path = rest;
        const std::optional<std::size_t> number = item_number(word);
        if (!number)
            at = find(*at, word);
        else if (at->kind == Node::Kind::list)
            at = *number < at->items.size() ? &at->items[*number] : nullptr;
        else if (at->kind != Node::Kind::map || *number != 0)
            at = nullptr;
    }
    return at;
}

std::string held_text(std::string_view path, const Node& root, const Scenario& scenario) {
    const KeyFound found = find_key(path);
    if (found.key == nullptr) return {};
    const Node* node = node_at(root, path);
    if (node != nullptr && node->kind == Node::Kind::scalar) return node->text;
    Draft draft;
    draft.scenario = scenario;
    if (found.list != nullptr) {
        const std::size_t depth = path.size() - found.key->path.size() - 1;
        if (node_at(root, path.substr(0, depth)) == nullptr) return {};
        if (found.list->begin) found.list->begin(draft);
    }
    return written_value(*found.key, draft);
}

}  // namespace noonbench::harness
