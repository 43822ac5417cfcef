// SPDX-License-Identifier: MIT
#include "requirement.hpp"

#include "formula_walks.hpp"
#include "grammar.hpp"
#include "misread.hpp"
#include "place_in_scalar.hpp"
#include "sentence_reader.hpp"

#include "harness/scenario/findings.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

FormulaPtr read_formula(std::string_view text, std::span<const traces::Signal> signals) {
    return SentenceReader(signals).read(parsed_sentence(text, signals));
}

std::string in_one_line(std::string_view text) {
    std::string line;
    bool blank = false;
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
            blank = !line.empty();
            continue;
        }
        if (blank) line += ' ';
        blank = false;
        line += c;
    }
    return line;
}

std::string meanings(const Formula& formula, std::span<const traces::Signal> signals) {
    std::string text;
    for (const std::size_t used : used_signals(formula))
        text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", signals[used].name,
                            signals[used].meaning);
    return text;
}

/// One step of the hunt where the requirement names none.
double usual_scale(const MarginClass& margin_class) {
    return clear_difference(margin_class.shift ? Measure::duration : margin_class.measure);
}

std::string accepted_scales(const std::vector<MarginClass>& classes) {
    std::vector<std::string> units;
    for (const MarginClass& each : classes) {
        std::string accepted = units_accepted(each.shift ? Measure::duration : each.measure);
        if (std::find(units.begin(), units.end(), accepted) == units.end())
            units.push_back(std::move(accepted));
    }
    return fmt::format("{}", fmt::join(units, ", "));
}

/// Takes the scale as written; the class of its unit becomes the first.
void take_scale(std::string_view text, Requirement& requirement) {
    std::vector<MarginClass>& classes = requirement.classes;
    if (classes.empty())
        throw Misread(0, "a scale, but the requirement has no margin that it could measure",
                      "no scale here");
    const Syntax literal = parse_literal(text);
    const Literal quantity = literal_of(literal);
    const auto fits = [&](const MarginClass& each) {
        return (each.shift ? Measure::duration : each.measure) == quantity.measure;
    };
    const auto found = std::find_if(classes.begin(), classes.end(), fits);
    if (found == classes.end())
        throw Misread(0,
                      fmt::format("the requirement has no margin that is {}",
                                  described(quantity.measure, quantity.unit)),
                      accepted_scales(classes));
    if (!(quantity.value > 0.0)) throw Misread(0, "a scale of 0", "a larger one");
    std::rotate(classes.begin(), found, found + 1);
    requirement.scale = quantity.value;
}

class Understanding {
  public:
    explicit Understanding(std::span<const traces::Signal> signals) : signals_(signals) {}

    void add(const RequirementText& text) {
        if (in_one_line(text.name).empty())
            findings_.add(text.place, "a requirement without a name", "a few words");
        const auto [first, is_new] = places_.emplace(text.name, text.place);
        if (!is_new)
            findings_.add(text.place,
                          fmt::format("a second requirement named {}{}", in_quotes(text.name),
                                      first->second.line > 0
                                          ? fmt::format(" (first at {}:{})", first->second.file,
                                                        first->second.line)
                                          : ""),
                          "each name once");
        Requirement requirement{
            text.name, in_one_line(text.that), text.look_at, {}, text.at_end, {}, 1.0};
        try {
            requirement.formula = read_formula(text.that, signals_);
        } catch (const Misread& misfit) {
            add(place_in_scalar(text.that_place, text.that, misfit.at()), misfit);
            return;
        }
        requirement.classes = classes_of(*requirement.formula);
        if (requirement.look_at.empty())
            requirement.look_at = meanings(*requirement.formula, signals_);
        if (!requirement.classes.empty()) requirement.scale = usual_scale(requirement.classes[0]);
        try {
            if (!text.scale.empty()) take_scale(text.scale, requirement);
        } catch (const Misread& misfit) {
            add(text.scale_place, misfit);
        }
        understood_.push_back(std::move(requirement));
    }

    [[nodiscard]] std::vector<Requirement> take(const std::string& file) {
        findings_.refuse_if_any(file);
        return std::move(understood_);
    }

  private:
    void add(const Place& place, const Misread& misfit) {
        findings_.add(place, misfit.what(), misfit.allowed());
    }

    std::span<const traces::Signal> signals_;
    Findings findings_;
    std::map<std::string, Place> places_;
    std::vector<Requirement> understood_;
};

}  // namespace

double clear_difference(Measure measure) {
    switch (measure) {
        case Measure::flow:
            return 0.5;
        case Measure::power:
            return 100.0;
        case Measure::irradiance:
            return 50.0;
        case Measure::volume:
        case Measure::share:
            return 10.0;
        case Measure::duration:
            return 60.0;
        case Measure::pressure:
            return 0.1;
        default:
            return 1.0;
    }
}

std::string_view unit_of(const MarginClass& margin_class) {
    return margin_unit_of(margin_class.shift ? Measure::duration : margin_class.measure);
}

std::vector<Requirement> understood_requirements(std::span<const RequirementText> texts,
                                                 std::span<const traces::Signal> signals) {
    Understanding understanding(signals);
    for (const RequirementText& text : texts) understanding.add(text);
    return understanding.take(texts.empty() ? std::string() : texts.front().place.file);
}

FormulaPtr parse_formula(std::string_view text, std::span<const traces::Signal> signals) {
    try {
        return read_formula(text, signals);
    } catch (const Misread& misfit) {
        const Place place = place_in_text("requirement", text, misfit.at());
        throw InputRefused(
            {{place.file, place.line, place.column, misfit.what(), misfit.allowed()}});
    }
}

}  // namespace noonbench::harness
