// SPDX-License-Identifier: MIT
#include "measurement.hpp"

#include "harness/report/text.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

// Steps are added up in binary: a deviation of exactly the limit must not fail by rounding.
constexpr double rounding_slack = 1e-6;

bool is_relay(const Measurement& m) {
    return m.unit == relay_unit;
}

std::string with_unit(const std::string& number, const Measurement& m) {
    if (m.unit.empty()) return number;
    return number + " " + (m.unit == "degC" ? "°C" : m.unit);
}

std::string signed_text(double value, int decimals) {
    const std::string text = number_text(value, decimals);
    const bool is_positive = value > 0.0 && text.find_first_of("123456789") != std::string::npos;
    return is_positive ? "+" + text : text;
}

/// A limit keeps the decimals that it needs: 0.1 K beside a reading of 8.05 K.
std::string limit_text(double value, int decimals) {
    std::string text = number_text(value, decimals);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

double size_of_deviation(const Measurement& m) {
    return m.measured ? std::abs(*m.measured - m.set) : 0.0;
}

}  // namespace

Standing standing_of(const Measurement& m) {
    if (!m.measured) return Standing::not_observed;
    const double deviation = *m.measured - m.set;
    const bool within = deviation >= m.allowed.least - rounding_slack &&
                        deviation <= m.allowed.most + rounding_slack;
    return within ? Standing::within : Standing::outside;
}

const char* words_of(Standing verdict) {
    switch (verdict) {
        case Standing::within:
            return "within";
        case Standing::outside:
            return "outside";
        case Standing::not_observed:
            return "not observed";
    }
    return "";
}

std::string value_text(const Measurement& m, std::optional<double> value) {
    if (!value) return "none";
    if (is_relay(m)) return *value != 0.0 ? "on" : "off";
    return with_unit(number_text(*value, m.decimals), m);
}

std::string deviation_text(const Measurement& m) {
    if (!m.measured || is_relay(m)) return "";
    return signed_text(*m.measured - m.set, m.decimals);
}

std::string allowed_text(const Measurement& m) {
    if (is_relay(m)) return "none";
    const int decimals = m.decimals;
    if (m.allowed.least == 0.0 && m.allowed.most == 0.0) return "none";
    if (m.allowed.least == -m.allowed.most) return "± " + limit_text(m.allowed.most, decimals);
    if (m.allowed.most == 0.0) return limit_text(m.allowed.least, decimals) + " to 0";
    return limit_text(m.allowed.least, decimals) + " to +" + limit_text(m.allowed.most, decimals);
}

Standing MeasuredLine::standing() const {
    Standing worst = Standing::within;
    for (const Measurement* run : runs) worst = std::max(worst, standing_of(*run));
    return worst;
}

std::string MeasuredLine::measured_text() const {
    const auto less = [](const Measurement* a, const Measurement* b) {
        return a->measured < b->measured;  // none before all
    };
    const auto [least, most] = std::minmax_element(runs.begin(), runs.end(), less);
    std::string from = value_text(first(), (*least)->measured);
    const std::string until = value_text(first(), (*most)->measured);
    if (from == until) return from;
    if (!(*least)->measured || is_relay(first())) return from + " to " + until;
    return number_text(*(*least)->measured, first().decimals) + " to " + until;
}

std::string MeasuredLine::deviation_text() const {
    const auto most = std::max_element(runs.begin(), runs.end(), [](auto* a, auto* b) {
        return size_of_deviation(*a) < size_of_deviation(*b);
    });
    return harness::deviation_text(**most);
}

std::vector<MeasuredLine> lines_of(const std::vector<Measurement>& measurements) {
    std::vector<MeasuredLine> lines;
    for (const Measurement& m : measurements) {
        const auto same = std::find_if(lines.begin(), lines.end(), [&](const MeasuredLine& line) {
            return m.run != 0 && line.first().run != 0 && line.first().name == m.name &&
                   line.first().where == m.where;
        });
        if (same == lines.end()) {
            lines.push_back({{&m}});
        } else {
            same->runs.push_back(&m);
        }
    }
    return lines;
}

}  // namespace noonbench::harness
