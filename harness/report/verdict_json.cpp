// SPDX-License-Identifier: MIT
#include "verdict_json.hpp"

#include "harness/bench/clock.hpp"

#include <cmath>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

json::value finite_or_null(double value) {
    return std::isfinite(value) ? json::value(value) : json::value(nullptr);
}

json::object margin_json(const Margin& margin) {
    json::object object{{"of", margin.margin_class.shift ? "time" : "value"},
                        {"unit", unit_of(margin.margin_class)},
                        {"least", finite_or_null(margin.lo)}};
    if (margin.hi != margin.lo) object["most"] = finite_or_null(margin.hi);
    object["tightest_at"] = date_time_text(margin.tightest_at_s);
    return object;
}

json::object verdict_json(const Verdict& verdict) {
    json::array margins;
    for (const Margin& margin : verdict.outcome.margins) margins.push_back(margin_json(margin));
    json::array chain;
    for (const std::string& link : verdict.chain) chain.push_back(json::value(link));
    return {{"name", verdict.name},
            {"that", verdict.text},
            {"verdict", truth_word(verdict.outcome.truth)},
            {"in_words", verdict_words(verdict.outcome)},
            {"put_to_the_test", verdict.outcome.put_to_the_test},
            {"margins", std::move(margins)},
            {"scale", verdict.scale},
            {"tightest_at", date_time_text(verdict.tightest_at_s)},
            {"reasons", std::move(chain)},
            {"look_at", verdict.look_at}};
}

}  // namespace

std::string_view truth_word(Truth truth) {
    switch (truth) {
        case Truth::held:
            return "held";
        case Truth::not_held:
            return "not_held";
        case Truth::not_known:
            break;
    }
    return "not_yet_known";
}

json::array verdicts_json(std::span<const Verdict> verdicts) {
    json::array all;
    for (const Verdict& verdict : verdicts) all.push_back(verdict_json(verdict));
    return all;
}

}  // namespace noonbench::harness
