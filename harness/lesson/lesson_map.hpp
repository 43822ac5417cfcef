// SPDX-License-Identifier: MIT
// Maps and lists of a lesson's file. What does not fit is noted with its place, and reading goes
// on.
#pragma once
#include "harness/scenario/findings.hpp"
#include "harness/scenario/yaml_tree.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// A text with its place.
struct LessonWord {
    std::string text;
    Place place;
};

class LessonMap {
  public:
    /// Refuses what is no map, and every key that is not among `keys`. `what` names the map in
    /// messages, "predict". The node must outlive this.
    LessonMap(const Node& node, std::string_view what, std::span<const std::string_view> keys,
              Findings& findings);

    [[nodiscard]] const Place& place() const { return node_->place; }
    /// Null if it is not there, or has nothing behind it.
    [[nodiscard]] const Node* find(std::string_view key) const;
    /// The same, refused where it is missing; `wanted` says what should stand there.
    [[nodiscard]] const Node* need(std::string_view key, std::string_view wanted) const;

    /// A single value; empty where it is missing or something else (which is refused).
    [[nodiscard]] LessonWord text(std::string_view key, std::string_view wanted) const;
    [[nodiscard]] LessonWord text_if(std::string_view key) const;
    /// A list of single values; a value alone is a list of one.
    [[nodiscard]] std::vector<LessonWord> texts(std::string_view key,
                                                std::string_view wanted) const;
    [[nodiscard]] std::vector<LessonWord> texts_if(std::string_view key) const;
    /// The items of a list with at least one.
    [[nodiscard]] std::span<const Node> items(std::string_view key, std::string_view wanted) const;
    [[nodiscard]] std::span<const Node> items_if(std::string_view key) const;
    /// A whole number; `otherwise` where there is none.
    [[nodiscard]] int count(std::string_view key, int least, int most) const;

    [[nodiscard]] std::string label(std::string_view key) const;

  private:
    const Node* node_;
    std::string what_;
    Findings* findings_;
};

/// The single value of a node; empty and refused if it is something else.
[[nodiscard]] LessonWord lesson_word(const Node& node, std::string_view label, Findings& findings);

/// A whole number; refused, and the least, if it is none or out of range.
[[nodiscard]] int lesson_count(const LessonWord& word, std::string_view label, int least, int most,
                               Findings& findings);

/// "x is not one of the houses (did you mean y?)", with all the words.
void refuse_lesson_word(const LessonWord& word, std::string_view what,
                        std::span<const std::string_view> words, Findings& findings);

}  // namespace noonbench::harness
