// SPDX-License-Identifier: MIT
#include "text.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>
#include <boost/json.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace noonbench::harness {

std::string escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (const char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out.push_back(c);
        }
    }
    return out;
}

std::string json_text(std::string_view text) {
    std::string out;
    // "</script" and "<!--" would end or bend the script element around it.
    for (const char c :
         boost::json::serialize(boost::json::string_view(text.data(), text.size()))) {
        out += c == '<' ? std::string("\\u003c") : std::string(1, c);
    }
    return out;
}

std::string number_text(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.front() != '-') return text;
    const bool is_zero = text.find_first_of("123456789") == std::string::npos;
    text.erase(0, 1);
    return is_zero ? text : "\u2212" + text;
}

std::string kwh_text(double kwh) {
    const double size = kwh < 0.0 ? -kwh : kwh;
    return number_text(kwh, size < 9.995 ? 2 : (size < 99.95 ? 1 : 0)) + " kWh";
}

std::string joined(std::initializer_list<std::string_view> parts) {
    std::string text;
    for (const std::string_view part : parts) text += part;
    return text;
}

std::string hour_text(std::int64_t second_of_day) {
    return fmt::format("{:02}:{:02}", second_of_day / 3600, second_of_day / 60 % 60);
}

const char* month_text(unsigned month) {
    constexpr std::array names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                               "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    return names.at(month - 1);
}

std::string day_text(std::int64_t at_s) {
    const CivilDate date = date_of(at_s);
    return fmt::format("{} {} {}", date.day, month_text(date.month), date.year);
}

std::string filled_page(std::string_view page, const Values& values) {
    std::string out;
    for (;;) {
        const auto open = page.find("{{");
        out += page.substr(0, open);
        if (open == std::string_view::npos) return out;
        const auto close = page.find("}}", open);
        const std::string_view name = page.substr(open + 2, close - open - 2);
        const auto value = std::find_if(values.begin(), values.end(),
                                        [&](const auto& entry) { return entry.first == name; });
        if (close == std::string_view::npos || value == values.end()) {
            throw std::logic_error("the page asks for '" + std::string(name) + "'");
        }
        out += value->second;
        page.remove_prefix(close + 2);
    }
}

}  // namespace noonbench::harness
