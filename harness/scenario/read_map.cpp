// SPDX-License-Identifier: MIT
#include "read_map.hpp"

#include "key_lookup.hpp"
#include "quantity_text.hpp"
#include "value.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace noonbench::harness {

namespace {

std::string joined_path(std::string_view path, std::string_view key) {
    if (path.empty()) return std::string(key);
    if (key.empty()) return std::string(path);
    return fmt::format("{}.{}", path, key);
}

struct Found {
    const Key* key;
    const Node* node;
};

class MapReader {
  public:
    MapReader(const std::vector<Key>& keys, const std::string& label, Draft& draft,
              Findings& findings)
        : keys_(keys), label_(label), draft_(draft), findings_(findings) {}

    Given read(const Node& map) {
        collect(map, "");
        // The table's order, not the file's: see all_keys().
        std::sort(found_.begin(), found_.end(),
                  [](const Found& a, const Found& b) { return a.key < b.key; });
        Given given;
        for (const Found& found : found_)
            if (apply(found)) given.emplace(found.key->path, found.node->place);
        return given;
    }

  private:
    [[nodiscard]] std::string label_of(std::string_view path) const {
        return joined_path(label_, path);
    }

    [[nodiscard]] const Key* key_at(std::string_view path) const {
        const auto found = std::find_if(keys_.begin(), keys_.end(),
                                        [&](const Key& key) { return key.path == path; });
        return found == keys_.end() ? nullptr : &*found;
    }

    void collect(const Node& map, const std::string& path) {
        choose_rival(map, path);
        require_keys(map, path);
        for (const Entry& entry : map.entries) {
            const std::string below = joined_path(path, entry.key);
            if (const Key* key = key_at(below))
                found_.push_back({key, &entry.value});
            else if (words_below(keys_, below).empty())
                complain_unknown(entry, path);
            else if (entry.value.kind == Node::Kind::map || entry.value.kind == Node::Kind::nothing)
                collect(entry.value, below);
            else
                findings_.add(entry.value.place,
                              fmt::format("{}: {} stands where {} is wanted", label_of(below),
                                          kind_text(entry.value.kind), kind_text(Node::Kind::map)),
                              "the keys " + joined(words_below(keys_, below)));
        }
    }

    void choose_rival(const Node& map, const std::string& path) {
        if (&keys_ != &all_keys()) return;
        for (const Rivals& rivals : all_rivals()) {
            if (rivals.path != path) continue;
            std::string_view first;
            for (const Entry& entry : map.entries) {
                const auto at = std::find(rivals.keys.begin(), rivals.keys.end(), entry.key);
                if (at == rivals.keys.end()) continue;
                if (!first.empty())
                    findings_.add(entry.place,
                                  fmt::format("{} cannot stand beside {}",
                                              label_of(joined_path(path, entry.key)), first),
                                  "one of " + joined(rivals.keys));
                first = *at;
                rivals.choose(draft_, static_cast<std::size_t>(at - rivals.keys.begin()));
            }
        }
    }

    void require_keys(const Node& map, const std::string& path) {
        for (const Key& key : keys_) {
            if (!key.required) continue;
            const std::size_t dot = key.path.rfind('.');
            const std::string_view above =
                dot == std::string::npos ? "" : std::string_view(key.path).substr(0, dot);
            const std::string_view word =
                dot == std::string::npos ? key.path : std::string_view(key.path).substr(dot + 1);
            if (above == path && find(map, word) == nullptr)
                findings_.add(map.place, label_of(key.path) + " is missing", allowed_for(key));
        }
    }

    void complain_unknown(const Entry& entry, const std::string& path) {
        const std::vector<std::string_view> words = words_below(keys_, path);
        std::string what = fmt::format("{} is not a key", in_quotes(entry.key));
        what += path.empty() && label_.empty() ? " of a scenario" : " of " + label_of(path);
        const std::string meant = meant_word(entry.key, words);
        if (!meant.empty()) what += fmt::format(" (did you mean {}?)", meant);
        findings_.add(entry.place, what, joined(words));
    }

    /// The nearest word here; else the whole path of a key that ends in this word.
    [[nodiscard]] std::string meant_word(std::string_view word,
                                         const std::vector<std::string_view>& words) const {
        const std::string_view nearest = nearest_word(word, words);
        if (!nearest.empty()) return std::string(nearest);
        std::vector<std::string_view> paths;
        for (const Key& key : all_keys()) paths.emplace_back(key.path);
        return std::string(path_ending_in(word, paths));
    }

    bool apply(const Found& found) {
        const std::string label = label_of(found.key->path);
        if (found.key->form == Form::list) return apply_list(*found.key, *found.node, label);
        if (!store_value(*found.key, *found.node, label, draft_, findings_)) return false;
        return take(*found.key, *found.node, label);
    }

    bool take(const Key& key, const Node& node, const std::string& label) {
        if (!key.take) return true;
        const std::vector<Objection> objections = key.take(draft_);
        for (const Objection& objection : objections) {
            const bool has_place = !objection.place.file.empty();
            findings_.add(has_place ? objection.place : node.place, label + ": " + objection.what,
                          objection.allowed);
        }
        return objections.empty();
    }

    bool apply_list(const Key& key, const Node& node, const std::string& label) {
        if (node.kind == Node::Kind::scalar) {
            findings_.add(node.place,
                          fmt::format("{}: {} stands where {} is wanted", label,
                                      kind_text(node.kind), kind_text(Node::Kind::list)),
                          allowed_for(key));
            return false;
        }
        const std::size_t count = node.kind == Node::Kind::map ? 1 : node.items.size();
        if (static_cast<double>(count) < key.least || static_cast<double>(count) > key.most) {
            findings_.add(node.place, fmt::format("{}: {} items stand here", label, count),
                          allowed_for(key));
            return false;
        }
        if (key.open) key.open(draft_);
        if (node.kind == Node::Kind::map) return apply_item(key, node, label);
        bool all_good = true;
        for (const Node& item : node.items) all_good = apply_item(key, item, label) && all_good;
        return all_good;
    }

    bool apply_item(const Key& key, const Node& item, const std::string& label) {
        if (item.kind != Node::Kind::map && item.kind != Node::Kind::nothing) {
            findings_.add(item.place,
                          fmt::format("{}: {} stands where {} is wanted", label,
                                      kind_text(item.kind), kind_text(Node::Kind::map)),
                          "the keys " + joined(words_below(key.items, "")));
            return false;
        }
        if (key.begin) key.begin(draft_);
        const std::size_t before = findings_.count();
        MapReader(key.items, label, draft_, findings_).read(item);
        // An item with a bad value would only raise more complaints that follow from it.
        return findings_.count() == before && take(key, item, label);
    }

    const std::vector<Key>& keys_;
    const std::string& label_;
    Draft& draft_;
    Findings& findings_;
    std::vector<Found> found_;
};

}  // namespace

Given read_map(const std::vector<Key>& keys, const Node& map, const std::string& label,
               Draft& draft, Findings& findings) {
    return MapReader(keys, label, draft, findings).read(map);
}

}  // namespace noonbench::harness
