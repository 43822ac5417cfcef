// SPDX-License-Identifier: MIT
#include "compose.hpp"

#include "key.hpp"
#include "quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <system_error>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

constexpr std::string_view base_key = "based_on";

[[noreturn]] void refuse(const Place& place, std::string what, std::string allowed) {
    throw InputRefused(
        {{place.file, place.line, place.column, std::move(what), std::move(allowed)}});
}

std::string joined_path(std::string_view path, std::string_view key) {
    return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
}

void erase(Node& map, std::string_view key) {
    std::erase_if(map.entries, [&](const Entry& entry) { return entry.key == key; });
}

/// Where only one of several keys may stand, the one that is laid over drops its rivals below.
void drop_rivals(Node& below, std::string_view path, std::string_view key) {
    for (const Rivals& rivals : all_rivals()) {
        if (rivals.path != path) continue;
        if (std::find(rivals.keys.begin(), rivals.keys.end(), key) == rivals.keys.end()) continue;
        for (const std::string_view rival : rivals.keys)
            if (rival != key) erase(below, rival);
    }
}

void lay_over(Node& below, Node above, const std::string& path) {
    if (below.kind != Node::Kind::map || above.kind != Node::Kind::map) {
        below = std::move(above);
        return;
    }
    below.place = above.place;
    for (Entry& entry : above.entries) drop_rivals(below, path, entry.key);
    for (Entry& entry : above.entries) {
        if (Node* there = find(below, entry.key))
            lay_over(*there, std::move(entry.value), joined_path(path, entry.key));
        else
            below.entries.push_back(std::move(entry));
    }
}

class Composer {
  public:
    Node load(const std::filesystem::path& file, const std::string& path) {
        if (++files_ > most_files_in_all)
            refuse({file.string(), 0, 0}, "too many files are based on each other",
                   fmt::format("at most {} in all", most_files_in_all));
        chain_.push_back(identity(file));
        Node node = parse_yaml_file(file);
        resolve(node, file.parent_path(), path);
        chain_.pop_back();
        return node;
    }

    /// Replaces every `based_on` in the node by what it stands for.
    void resolve(Node& node, const std::filesystem::path& folder, const std::string& path) {
        for (Node& item : node.items) resolve(item, folder, path);
        for (Entry& entry : node.entries)
            resolve(entry.value, folder, joined_path(path, entry.key));
        const Node* base = find(node, base_key);
        if (base == nullptr) return;
        Node below = load_base(*base, folder, path);
        erase(node, base_key);
        lay_over(below, std::move(node), path);
        node = std::move(below);
    }

  private:
    static std::filesystem::path identity(const std::filesystem::path& file) {
        std::error_code error;
        std::filesystem::path same = std::filesystem::weakly_canonical(file, error);
        return error ? file.lexically_normal() : same;
    }

    Node load_base(const Node& base, const std::filesystem::path& folder, const std::string& path) {
        if (base.kind != Node::Kind::scalar || base.text.empty())
            refuse(base.place, fmt::format("based_on is {}", kind_text(base.kind)),
                   "the path of one file, seen from this one");
        const std::filesystem::path file = (folder / base.text).lexically_normal();
        refuse_bad_chain(base, file);
        Node below = load(file, path);
        if (below.kind != Node::Kind::map)
            refuse(base.place, fmt::format("{} holds {}", file.string(), kind_text(below.kind)),
                   "a file that holds a map (keys with values)");
        return below;
    }

    void refuse_bad_chain(const Node& base, const std::filesystem::path& file) const {
        if (std::find(chain_.begin(), chain_.end(), identity(file)) != chain_.end())
            refuse(
                base.place,
                fmt::format("based_on goes in a circle: {} is being read already", file.string()),
                "a file that does not lead back here");
        if (chain_.size() >= most_files_in_a_chain)
            refuse(base.place, "the chain of based_on is too long",
                   fmt::format("at most {} files, one upon the other", most_files_in_a_chain));
        std::error_code error;
        if (!std::filesystem::is_regular_file(file, error))
            refuse(base.place, fmt::format("based_on: there is no file {}", file.string()),
                   "the path of one file, seen from this one");
    }

    std::vector<std::filesystem::path> chain_;
    int files_ = 0;
};

void put_everywhere(Node& node, const Place& place) {
    node.place = place;
    for (Node& item : node.items) put_everywhere(item, place);
    for (Entry& entry : node.entries) {
        entry.place = place;
        put_everywhere(entry.value, place);
    }
}

/// As it is written on the command line, or in a file.
std::string override_form(const Place& place) {
    return place.line == 0 ? "--set path.to.key=VALUE" : "path.to.key=VALUE";
}

Node* item_of(Node& list, std::string_view word, const Place& place) {
    std::size_t index = 0;
    const auto result = std::from_chars(word.data(), word.data() + word.size(), index);
    const bool whole = result.ec == std::errc() && result.ptr == word.data() + word.size();
    if (!whole || index >= list.items.size())
        refuse(place,
               fmt::format("{} picks no item of a list of {}", in_quotes(word), list.items.size()),
               list.items.empty() ? "the whole list, as [..]"
                                  : fmt::format("0 to {}", list.items.size() - 1));
    return &list.items[index];
}

/// One step down the path; makes what is not there yet.
Node* step(Node& at, std::string_view word, const std::string& path, const Place& place) {
    if (at.kind == Node::Kind::list) return item_of(at, word, place);
    if (at.kind == Node::Kind::scalar)
        refuse(place, fmt::format("{} is a single value and has no key {}", path, in_quotes(word)),
               "a path to one value");
    at.kind = Node::Kind::map;
    drop_rivals(at, path, word);
    if (Node* there = find(at, word)) return there;
    at.entries.push_back({std::string(word), place, {}});
    at.entries.back().value.place = place;
    return &at.entries.back().value;
}

}  // namespace

Node compose_file(const std::filesystem::path& file) {
    return Composer().load(file, "");
}

Node compose_text(std::string_view yaml, const std::string& name) {
    Node node = parse_yaml(yaml, name);
    Composer().resolve(node, {}, "");
    return node;
}

void apply_set(Node& root, const std::string& set) {
    apply_set(root, set, {"--set " + set, 0, 0});
}

void apply_set(Node& root, const std::string& set, const Place& place) {
    const std::size_t equals = set.find('=');
    if (equals == std::string::npos || equals == 0)
        refuse(place, "there is no key or no =", override_form(place));
    const std::string text = set.substr(equals + 1);
    Node value;
    if (text.find_first_not_of(' ') != std::string::npos) {
        try {
            value = parse_yaml(text, place.file);
        } catch (const InputRefused& refused) {
            const Problem& first = refused.problems().front();
            refuse(place, first.what, first.allowed);
        }
    }
    put_everywhere(value, place);
    lay_at(root, std::string_view(set).substr(0, equals), std::move(value), place);
}

void lay_at(Node& root, std::string_view written_path, Node value, const Place& place) {
    Node* at = &root;
    std::string path;
    std::string_view rest = written_path;
    while (true) {
        const std::size_t dot = rest.find('.');
        const std::string_view word = rest.substr(0, dot);
        if (word.empty()) refuse(place, "a word of the path is empty", override_form(place));
        at = step(*at, word, path, place);
        path = joined_path(path, word);
        if (dot == std::string_view::npos) break;
        rest.remove_prefix(dot + 1);
    }
    *at = std::move(value);
}

}  // namespace noonbench::harness
