// SPDX-License-Identifier: MIT
#include "json_text.hpp"

#include <fmt/format.h>

#include <string_view>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

/// Boost.JSON writes on one line; this breaks it after each member for people and for diff.
void indented(std::string& out, const json::value& value, std::size_t depth) {
    const std::string pad(2 * depth + 2, ' ');
    if (const auto* object = value.if_object(); object != nullptr && !object->empty()) {
        std::string_view comma = "{\n";
        for (const auto& member : *object) {
            out += comma;
            out += pad + json::serialize(member.key()) + ": ";
            indented(out, member.value(), depth + 1);
            comma = ",\n";
        }
        out += "\n" + std::string(2 * depth, ' ') + "}";
    } else if (const auto* array = value.if_array(); array != nullptr && !array->empty()) {
        std::string_view comma = "[\n";
        for (const auto& item : *array) {
            out += comma;
            out += pad;
            indented(out, item, depth + 1);
            comma = ",\n";
        }
        out += "\n" + std::string(2 * depth, ' ') + "]";
    } else if (value.is_double()) {
        out += fmt::format("{}", value.get_double());
    } else {
        out += json::serialize(value);
    }
}

}  // namespace

std::string json_lines(const json::value& value) {
    std::string out;
    indented(out, value, 0);
    out += '\n';
    return out;
}

}  // namespace noonbench::harness
