// SPDX-License-Identifier: MIT
// A hunt: hidden houses, measurements with their prices, causes.
#include "lesson_draft.hpp"
#include "lesson_lever.hpp"
#include "lesson_unit.hpp"

#include "plant/levers.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr std::string_view lever_word = "lever ";
constexpr int longest_visit_min = 480;

/// What stands under `reads`, by its key.
void read_reads(HuntMeasurement& measurement, const Node& reads, Findings& findings) {
    if (reads.kind != Node::Kind::map) {
        findings.add(reads.place,
                     fmt::format("reads: {} stands where {} is wanted", kind_text(reads.kind),
                                 kind_text(Node::Kind::map)),
                     "what is read in each case, as key: words");
        return;
    }
    measurement.reads.reserve(reads.entries.size());
    for (const Entry& entry : reads.entries)
        measurement.reads.emplace_back(entry.key, lesson_word(entry.value, "reads", findings).text);
}

bool has_reading(const HuntMeasurement& measurement, std::string_view key) {
    return std::any_of(measurement.reads.begin(), measurement.reads.end(),
                       [&](const auto& each) { return each.first == key; });
}

void check_on_and_off(const HuntMeasurement& measurement, const Node& reads, Findings& findings) {
    static constexpr std::array<std::string_view, 2> words{"on", "off"};
    for (const std::string_view word : words)
        if (!has_reading(measurement, word))
            findings.add(reads.place, fmt::format("reads: nothing is said of {}", word),
                         "what on and what off look like");
    for (const Entry& entry : reads.entries)
        if (std::find(words.begin(), words.end(), entry.key) == words.end())
            refuse_lesson_word({entry.key, entry.place}, "on or off", words, findings);
}

void check_lever_reads(const HuntMeasurement& measurement, const Node& reads,
                       const std::vector<std::size_t>& hidden, LessonDraft& draft) {
    for (const Entry& entry : reads.entries) {
        const Parsed<double> value = parse_in_unit(entry.key, "");
        if (!value.value) draft.findings.add(entry.place, value.what, "the lever's value");
    }
    for (const std::size_t house : hidden) {
        if (!draft.houses[house].sound()) continue;
        const double value = lever_at_last(draft.houses[house].scenario, measurement.lever);
        if (lever_reading(measurement, value) != nullptr) continue;
        draft.findings.add(reads.place,
                           fmt::format("reads: nothing is said of {:.9g}, as in {}", value,
                                       in_quotes(draft.lesson.houses[house].name)),
                           "every value that the lever has in a hidden house");
    }
}

void check_house_reads(const HuntMeasurement& measurement, const Node& reads,
                       const std::vector<std::size_t>& hidden, LessonDraft& draft) {
    std::vector<std::string_view> names;
    names.reserve(hidden.size());
    for (const std::size_t house : hidden) names.emplace_back(draft.lesson.houses[house].name);
    for (const std::string_view name : names)
        if (!has_reading(measurement, name))
            draft.findings.add(reads.place,
                               fmt::format("reads: nothing is said of {}", in_quotes(name)),
                               "what is read in each hidden house");
    for (const Entry& entry : reads.entries)
        if (std::find(names.begin(), names.end(), entry.key) == names.end())
            refuse_lesson_word({entry.key, entry.place}, "a hidden house", names, draft.findings);
}

/// A phrase: a number with its unit, or a condition with what on and off look like.
void read_phrase_reads(HuntMeasurement& measurement, const Node& reads, const HuntStep& hunt,
                       LessonDraft& draft) {
    const auto phrase = phrase_in(measurement.phrase, hunt.hidden, {}, draft);
    if (!phrase) return;
    if (phrase->condition) {
        measurement.shows = HuntMeasurement::Shows::condition;
        read_reads(measurement, reads, draft.findings);
        return check_on_and_off(measurement, reads, draft.findings);
    }
    const LessonWord unit = lesson_word(reads, "reads", draft.findings);
    measurement.unit = unit.text;
    if (!unit.text.empty() && !unit_fits(phrase->number->measure, unit.text))
        draft.findings.add(unit.place,
                           fmt::format("{} is no unit of {}", in_quotes(unit.text),
                                       in_quotes(measurement.phrase.text)),
                           fitting_units(phrase->number->measure));
}

HuntMeasurement read_measurement(const Node& node, const HuntStep& hunt, LessonDraft& draft) {
    static constexpr std::array<std::string_view, 4> keys{"name", "shows", "reads", "price"};
    const LessonMap map(node, "measurements", keys, draft.findings);
    HuntMeasurement measurement;
    measurement.name = map.text("name", "what is done").text;
    measurement.price_min = map.count("price", 1, longest_visit_min);
    const LessonWord shows = map.text("shows", "a phrase, lever NAME, or text");
    const Node* reads = map.need("reads", "a unit, or what is read in each case");
    if (reads == nullptr || shows.text.empty()) return measurement;
    if (shows.text == "text") {
        measurement.shows = HuntMeasurement::Shows::text;
        read_reads(measurement, *reads, draft.findings);
        check_house_reads(measurement, *reads, hunt.hidden, draft);
    } else if (shows.text.starts_with(lever_word)) {
        measurement.shows = HuntMeasurement::Shows::lever;
        measurement.lever = shows.text.substr(lever_word.size());
        if (plant::find_lever(measurement.lever) == nullptr) {
            std::vector<std::string_view> names;
            names.reserve(plant::lever_table.size());
            for (const plant::LeverInfo& lever : plant::lever_table) names.push_back(lever.name);
            refuse_lesson_word({measurement.lever, shows.place}, "a lever", names, draft.findings);
            return measurement;
        }
        read_reads(measurement, *reads, draft.findings);
        check_lever_reads(measurement, *reads, hunt.hidden, draft);
    } else {
        measurement.phrase = {shows.text, shows.place};
        read_phrase_reads(measurement, *reads, hunt, draft);
    }
    return measurement;
}

std::vector<std::size_t> causes_named(const Node& node, const HuntStep& hunt, Findings& findings) {
    const std::vector<std::string_view> names(hunt.causes.begin(), hunt.causes.end());
    std::vector<std::size_t> causes;
    const std::span<const Node> items =
        node.kind == Node::Kind::list ? std::span<const Node>(node.items) : std::span(&node, 1);
    causes.reserve(items.size());
    for (const Node& item : items) {
        const LessonWord word = lesson_word(item, "hunt.right", findings);
        const auto found = std::find(names.begin(), names.end(), word.text);
        if (found == names.end()) {
            refuse_lesson_word(word, "one of the causes", names, findings);
            continue;
        }
        causes.push_back(static_cast<std::size_t>(found - names.begin()));
    }
    std::sort(causes.begin(), causes.end());
    if (std::adjacent_find(causes.begin(), causes.end()) != causes.end())
        findings.add(node.place, "hunt.right: a cause stands there twice", "each cause once");
    return causes;
}

/// The entries of a map by the names that they must have, all of them and no others.
std::vector<const Node*> entries_for(const Node& node, std::string_view label,
                                     const std::vector<std::string_view>& names,
                                     Findings& findings) {
    const LessonMap map(node, label, names, findings);
    std::vector<const Node*> entries;
    entries.reserve(names.size());
    for (const std::string_view name : names)
        entries.push_back(map.need(name, "one entry for each of " + joined(names)));
    return entries;
}

void read_right(const Node& node, HuntStep& hunt, LessonDraft& draft) {
    std::vector<std::string_view> names;
    names.reserve(hunt.hidden.size());
    for (const std::size_t house : hunt.hidden) names.emplace_back(draft.lesson.houses[house].name);
    const auto entries = entries_for(node, "hunt.right", names, draft.findings);
    hunt.right.reserve(entries.size());
    for (const Node* entry : entries)
        hunt.right.push_back(entry == nullptr ? std::vector<std::size_t>{}
                                              : causes_named(*entry, hunt, draft.findings));
    const auto as_many = [&](const auto& each) { return each.size() == hunt.right.front().size(); };
    if (!std::all_of(hunt.right.begin(), hunt.right.end(), as_many))
        draft.findings.add(node.place, "hunt.right: the houses have not equally many causes",
                           "as many for each, since the learner is told how many");
}

void read_feedback(const Node& node, HuntStep& hunt, LessonDraft& draft) {
    const std::vector<std::string_view> names(hunt.causes.begin(), hunt.causes.end());
    const auto entries = entries_for(node, "hunt.feedback", names, draft.findings);
    hunt.feedback.reserve(entries.size());
    for (const Node* entry : entries)
        hunt.feedback.push_back(
            entry == nullptr ? "" : lesson_word(*entry, "hunt.feedback", draft.findings).text);
}

void check_prices(const HuntStep& hunt, const LessonMap& map, Findings& findings) {
    const bool any =
        std::any_of(hunt.measurements.begin(), hunt.measurements.end(),
                    [&](const HuntMeasurement& m) { return m.price_min <= hunt.budget_min; });
    if (any || hunt.measurements.empty()) return;
    findings.add(map.find("measurements")->place,
                 fmt::format("no measurement fits into {} minutes", hunt.budget_min),
                 "at least one price within the budget");
}

}  // namespace

HuntStep read_hunt(const Node& node, LessonDraft& draft) {
    static constexpr std::array<std::string_view, 7> keys{
        "say", "hidden", "budget", "measurements", "causes", "right", "feedback"};
    const LessonMap map(node, "hunt", keys, draft.findings);
    HuntStep hunt;
    hunt.place = map.place();
    hunt.say = map.text("say", "what is to be found").text;
    hunt.hidden = houses_named(map.texts("hidden", "names of houses"), draft);
    hunt.budget_min = map.count("budget", 1, longest_visit_min);
    for (const Node& item : map.items("measurements", "a list of name, shows, reads and price"))
        hunt.measurements.push_back(read_measurement(item, hunt, draft));
    const std::vector<LessonWord> causes = map.texts("causes", "a list, the right ones among them");
    for (const LessonWord& cause : causes) {
        if (std::find(hunt.causes.begin(), hunt.causes.end(), cause.text) != hunt.causes.end())
            draft.findings.add(cause.place, in_quotes(cause.text) + " stands there twice",
                               "each cause once");
        hunt.causes.push_back(cause.text);
    }
    if (const Node* right = map.need("right", "the causes of each hidden house"))
        read_right(*right, hunt, draft);
    if (const Node* feedback = map.need("feedback", "what is said of each cause"))
        read_feedback(*feedback, hunt, draft);
    check_prices(hunt, map, draft.findings);
    return hunt;
}

}  // namespace noonbench::harness
