// SPDX-License-Identifier: MIT
#include "lesson_map.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

void refuse_kind(const Node& node, std::string_view label, std::string_view wanted,
                 std::string_view allowed, Findings& findings) {
    findings.add(
        node.place,
        fmt::format("{}: {} stands where {} is wanted", label, kind_text(node.kind), wanted),
        std::string(allowed));
}

}  // namespace

LessonMap::LessonMap(const Node& node, std::string_view what,
                     std::span<const std::string_view> keys, Findings& findings)
    : node_(&node), what_(what), findings_(&findings) {
    if (node.kind != Node::Kind::map) {
        refuse_kind(node, what, kind_text(Node::Kind::map), "the keys " + joined(keys), findings);
        return;
    }
    for (const Entry& entry : node.entries) {
        if (std::find(keys.begin(), keys.end(), entry.key) != keys.end()) continue;
        const std::string_view nearest = nearest_word(entry.key, keys);
        findings.add(
            entry.place,
            fmt::format("{} is not a key of {}{}", in_quotes(entry.key), what,
                        nearest.empty() ? "" : fmt::format(" (did you mean {}?)", nearest)),
            joined(keys));
    }
}

std::string LessonMap::label(std::string_view key) const {
    return what_ + "." + std::string(key);
}

const Node* LessonMap::find(std::string_view key) const {
    if (node_->kind != Node::Kind::map) return nullptr;
    const Node* found = harness::find(*node_, key);
    return found == nullptr || found->kind == Node::Kind::nothing ? nullptr : found;
}

const Node* LessonMap::need(std::string_view key, std::string_view wanted) const {
    const Node* found = find(key);
    if (found == nullptr && node_->kind == Node::Kind::map)
        findings_->add(node_->place, label(key) + " is missing", std::string(wanted));
    return found;
}

LessonWord LessonMap::text(std::string_view key, std::string_view wanted) const {
    const Node* found = need(key, wanted);
    return found == nullptr ? LessonWord{{}, place()} : lesson_word(*found, label(key), *findings_);
}

LessonWord LessonMap::text_if(std::string_view key) const {
    const Node* found = find(key);
    return found == nullptr ? LessonWord{{}, place()} : lesson_word(*found, label(key), *findings_);
}

std::vector<LessonWord> LessonMap::texts(std::string_view key, std::string_view wanted) const {
    return need(key, wanted) == nullptr ? std::vector<LessonWord>{} : texts_if(key);
}

std::vector<LessonWord> LessonMap::texts_if(std::string_view key) const {
    const Node* found = find(key);
    if (found == nullptr) return {};
    std::vector<LessonWord> words;
    if (found->kind != Node::Kind::list) {
        LessonWord only = lesson_word(*found, label(key), *findings_);
        if (!only.text.empty()) words.push_back(std::move(only));
        return words;
    }
    words.reserve(found->items.size());
    for (const Node& item : found->items) {
        LessonWord word = lesson_word(item, label(key), *findings_);
        if (!word.text.empty()) words.push_back(std::move(word));
    }
    return words;
}

std::span<const Node> LessonMap::items(std::string_view key, std::string_view wanted) const {
    if (need(key, wanted) == nullptr) return {};
    const std::span<const Node> all = items_if(key);
    const Node* found = find(key);
    if (all.empty() && found->kind == Node::Kind::list)
        findings_->add(found->place, label(key) + " is an empty list", std::string(wanted));
    return all;
}

std::span<const Node> LessonMap::items_if(std::string_view key) const {
    const Node* found = find(key);
    if (found == nullptr) return {};
    if (found->kind == Node::Kind::list) return found->items;
    refuse_kind(*found, label(key), kind_text(Node::Kind::list), "items with a dash before each",
                *findings_);
    return {};
}

int LessonMap::count(std::string_view key, int least, int most) const {
    const LessonWord word = text(key, fmt::format("a whole number, {} to {}", least, most));
    if (word.text.empty()) return least;
    return lesson_count(word, label(key), least, most, *findings_);
}

LessonWord lesson_word(const Node& node, std::string_view label, Findings& findings) {
    if (node.kind != Node::Kind::scalar) {
        refuse_kind(node, label, kind_text(Node::Kind::scalar), "words or a number", findings);
        return {{}, node.place};
    }
    std::string text = node.text;
    while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
    if (text.empty())
        findings.add(node.place, fmt::format("{} is an empty text", label), "words or a number");
    return {std::move(text), node.place};
}

int lesson_count(const LessonWord& word, std::string_view label, int least, int most,
                 Findings& findings) {
    const Range any{"", -1e9, 1e9};
    const Parsed<double> parsed = parse_quantity(word.text, any);
    const double value = parsed.value.value_or(-1e9);
    if (parsed.value && value == std::floor(value) && value >= double(least) &&
        value <= double(most))
        return static_cast<int>(value);
    findings.add(word.place, fmt::format("{}: {} is no such number", label, in_quotes(word.text)),
                 fmt::format("a whole number, {} to {}", least, most));
    return least;
}

void refuse_lesson_word(const LessonWord& word, std::string_view what,
                        std::span<const std::string_view> words, Findings& findings) {
    const std::string_view nearest = nearest_word(word.text, words);
    findings.add(word.place,
                 fmt::format("{} is not {}{}", in_quotes(word.text), what,
                             nearest.empty() ? "" : fmt::format(" (did you mean {}?)", nearest)),
                 joined(words));
}

}  // namespace noonbench::harness
