// SPDX-License-Identifier: MIT
#include "answer.hpp"

#include "asked.hpp"
#include "lesson_unit.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <stdexcept>

namespace noonbench::harness {
namespace {

using Form = PredictStep::Form;
using Kind = WrongAnswer::Kind;

constexpr double seconds_in_a_day = 86400.0;
constexpr double rounding = 1e-9;
constexpr std::size_t longest_answer = 24;

std::string_view without_blanks(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

Parsed<double> refused_answer(std::string_view answer, std::string_view what, std::string allowed) {
    return {std::nullopt, in_quotes(answer) + " is no " + std::string(what), std::move(allowed)};
}

Parsed<double> clock_answer(std::string_view answer) {
    std::string text(answer);
    if (text.find(':') == 1) text.insert(0, "0");
    const Parsed<std::int32_t> time = parse_time_of_day(text);
    const bool is_one = time.value && text.size() == 5 && *time.value < 86400;
    if (!is_one) return refused_answer(answer, "time of day", "00:00 to 23:59, such as 07:15");
    return {double(*time.value), {}, {}};
}

Parsed<double> number_answer(const PredictStep& step, std::string_view answer) {
    Parsed<double> parsed = parse_quantity(answer, {"", -1e6, 1e6});
    if (!parsed.value)
        parsed.allowed = "a number with a decimal point" +
                         (step.unit.empty() ? std::string() : ", in" + unit_behind(step.unit)) +
                         ", without its unit";
    return parsed;
}

Parsed<double> choice_answer(const PredictStep& step, std::string_view answer) {
    int place = 0;
    const auto read = std::from_chars(answer.data(), answer.data() + answer.size(), place);
    const auto count = static_cast<int>(step.choices.size());
    const bool whole = read.ec == std::errc() && read.ptr == answer.data() + answer.size();
    if (!whole || place < 1 || place > count)
        return refused_answer(answer, "place of a choice", fmt::format("1 to {}", count));
    return {double(place), {}, {}};
}

Parsed<double> parsed_answer(const PredictStep& step, std::string_view written) {
    const std::string_view answer = without_blanks(written);
    if (answer.size() > longest_answer)
        return refused_answer(answer, "answer",
                              fmt::format("at most {} characters", longest_answer));
    switch (step.form) {
        case Form::clock:
            return clock_answer(answer);
        case Form::choice:
            return choice_answer(step, answer);
        default:
            return number_answer(step, answer);
    }
}

std::string choice_text(const PredictStep& step, double place) {
    return step.choices.at(static_cast<std::size_t>(place) - 1);
}

std::string filled(std::string text, std::string_view answer, std::string_view truth) {
    const auto put = [&](std::string_view name, std::string_view value) {
        std::size_t at = 0;
        while ((at = text.find(name, at)) != std::string::npos) {
            text.replace(at, name.size(), value);
            at += value.size();
        }
    };
    put("{answer}", answer);
    put("{truth}", truth);
    return text;
}

bool fits(const WrongAnswer& wrong, double answer, double bound) {
    switch (wrong.kind) {
        case Kind::below:
            return answer < bound;
        case Kind::above:
            return answer > bound;
        case Kind::choice:
            return answer == bound;
        default:
            return true;
    }
}

}  // namespace

std::string no_answer(const PredictStep& step, std::string_view answer) {
    const Parsed<double> parsed = parsed_answer(step, answer);
    return parsed.value ? std::string() : parsed.what + "; allowed: " + parsed.allowed;
}

GivenAnswer given_answer(const PredictStep& step, std::string_view answer) {
    const Parsed<double> parsed = parsed_answer(step, answer);
    if (!parsed.value) throw std::invalid_argument(parsed.what + "; allowed: " + parsed.allowed);
    const double value = *parsed.value;
    if (step.form == Form::clock) return {value, shown_text(value, clock_unit)};
    if (step.form == Form::choice) return {value, choice_text(step, value)};
    return {value, std::string(without_blanks(answer))};
}

ToldTruth told_truth(const PredictStep& step, double truth) {
    if (step.form == Form::choice)
        return {double(step.true_choice), std::to_string(step.true_choice)};
    const bool clock = step.form == Form::clock;
    std::string text = shown_text(truth, clock ? clock_unit : std::string_view(step.unit));
    const Parsed<double> told = parse_in_unit(text, clock ? clock_unit : std::string_view());
    return {told.value.value_or(truth), std::move(text)};
}

Reply reply_to(const PredictStep& step, const GivenAnswer& answer, const ToldTruth& truth,
               double start_of_day_s) {
    if (std::isnan(truth.value))
        return {false, step.form == Form::clock ? "There was no such moment in this run."
                                                : "There was no such number in this run."};
    const auto ordered = [&](double value) {
        if (step.form != Form::clock) return value;
        return value >= start_of_day_s ? value : value + seconds_in_a_day;
    };
    const double given = ordered(answer.value);
    const bool choice = step.form == Form::choice;
    const std::string truth_text = choice ? choice_text(step, truth.value) : truth.text;
    const std::string behind = choice && !step.because.empty() ? " " + step.because : "";
    if (std::abs(given - ordered(truth.value)) <= (choice ? 0.0 : step.tolerance + rounding))
        return {true, filled(step.right, answer.text, truth_text) + behind};
    for (const WrongAnswer& wrong : step.wrong)
        if (fits(wrong, given, ordered(wrong.bound)))
            return {false, filled(wrong.say, answer.text, truth_text) + behind};
    return {false, behind};
}

}  // namespace noonbench::harness
