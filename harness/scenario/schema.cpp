// SPDX-License-Identifier: MIT
// JSON Schema, draft 2020-12 (json-schema.org), from the table of keys.
#include "describe.hpp"
#include "key.hpp"
#include "quantity_text.hpp"
#include "setting_text.hpp"
#include "value.hpp"

#include <fmt/format.h>
#include <boost/json.hpp>

namespace noonbench::harness {

namespace {

namespace json = boost::json;

constexpr std::string_view time_pattern = "^([01]?[0-9]|2[0-4]):[0-5][0-9](:[0-5][0-9])?$";

json::object text_schema(std::string_view pattern = {}) {
    json::object schema{{"type", "string"}};
    if (!pattern.empty()) schema["pattern"] = pattern;
    return schema;
}

/// A number, a blank and one of the units; the signs that are special in a pattern are escaped.
std::string pattern_of(std::string_view unit) {
    std::string units;
    for (const char c : units_text(unit)) {
        if (c == ' ' && (units.empty() || units.back() == '|')) continue;
        if (c == ',')
            units += '|';
        else if (c == '(' || c == ')')
            units += fmt::format("\\{}", c);
        else
            units += c;
    }
    return fmt::format("^[+-]?[0-9.]+([eE][+-]?[0-9]+)? ?({})$", units);
}

json::object number_schema(const Key& key) {
    if (!key.unit.empty()) return text_schema(pattern_of(key.unit));
    return {{"type", "number"}, {"minimum", key.least}, {"maximum", key.most}};
}

template <class Words>
json::object word_schema(const Words& words) {
    json::array choices;
    for (const auto& word : words) choices.emplace_back(std::string_view(word));
    return {{"enum", choices}};
}

/// `on` and `off` are words in YAML 1.2 and truth values in YAML 1.1; editors may see either.
json::object choice_schema(const std::vector<std::string_view>& words) {
    json::object schema = word_schema(words);
    const bool is_switch = words.size() == 2 && parse_flag(words[1]).value.value_or(false);
    if (!is_switch) return schema;
    return {{"anyOf", json::array{schema, json::object{{"type", "boolean"}}}}};
}

json::object flag_schema() {
    return {{"anyOf", json::array{json::object{{"type", "boolean"}},
                                  word_schema(std::array{"yes", "no", "on", "off"})}}};
}

json::object setting_schema(const firmware::SettingInfo& info) {
    const SettingScale scale = scale_of(info.unit);
    if (scale.unit != nullptr) return text_schema(pattern_of(scale.unit));
    if (info.unit == firmware::SettingUnit::minute_of_day) return text_schema(time_pattern);
    if (info.unit == firmware::SettingUnit::choice) return choice_schema(choices_of(info));
    return text_schema();
}

json::object map_schema(const std::vector<Key>& keys, const std::string& path, Draft& draft);

json::object list_schema(const Key& key, Draft& draft) {
    if (key.begin) key.begin(draft);
    const json::object item = map_schema(key.items, "", draft);
    const json::object list{{"type", "array"},
                            {"items", item},
                            {"minItems", static_cast<std::int64_t>(key.least)},
                            {"maxItems", static_cast<std::int64_t>(key.most)}};
    return {{"anyOf", json::array{list, item}}};
}

json::object form_schema(const Key& key, Draft& draft) {
    switch (key.form) {
        case Form::number:
            return number_schema(key);
        case Form::flag:
            return flag_schema();
        case Form::word:
            return word_schema(key.words);
        case Form::line:
            return text_schema();
        case Form::raw:
            return {{"type", json::array{"string", "number", "boolean"}}};
        case Form::time_of_day:
            return text_schema(time_pattern);
        case Form::date_time:
        case Form::moment:
            return text_schema();
        case Form::numbers:
            return {{"type", "array"},
                    {"items", json::object{{"type", "number"}}},
                    {"minItems", 10},
                    {"maxItems", 10}};
        case Form::words:
            return {{"type", "array"}, {"items", word_schema(key.words)}};
        case Form::lines:
            return {{"type", "array"}, {"items", text_schema()}};
        case Form::setting:
            return setting_schema(*key.setting);
        case Form::list:
            return list_schema(key, draft);
    }
    return {};
}

json::object key_schema(const Key& key, Draft& draft) {
    json::object schema = form_schema(key, draft);
    schema["description"] = fmt::format("{}. Allowed: {}", key.meaning, allowed_for(key));
    const std::string value = written_value(key, draft);
    if (!value.empty()) schema["default"] = value;
    return schema;
}

const Key* key_at(const std::vector<Key>& keys, std::string_view path) {
    for (const Key& key : keys)
        if (key.path == path) return &key;
    return nullptr;
}

/// No two of the rivals together.
void add_rivals(json::object& schema, std::string_view path) {
    json::array pairs;
    for (const Rivals& rivals : all_rivals()) {
        if (rivals.path != path) continue;
        for (std::size_t i = 0; i < rivals.keys.size(); ++i)
            for (std::size_t j = i + 1; j < rivals.keys.size(); ++j)
                pairs.push_back(
                    json::object{{"required", json::array{rivals.keys[i], rivals.keys[j]}}});
    }
    if (!pairs.empty()) schema["not"] = json::object{{"anyOf", pairs}};
}

json::object map_schema(const std::vector<Key>& keys, const std::string& path, Draft& draft) {
    json::object properties;
    json::array required;
    properties["based_on"] =
        json::object{{"type", "string"}, {"description", "a file over which this map is laid"}};
    for (const std::string_view word : words_below(keys, path)) {
        const std::string below =
            path.empty() ? std::string(word) : fmt::format("{}.{}", path, word);
        const Key* key = key_at(keys, below);
        if (key == nullptr)
            properties[word] = map_schema(keys, below, draft);
        else
            properties[word] = key_schema(*key, draft);
        if (key != nullptr && key->required) required.emplace_back(word);
    }
    json::object schema{{"type", "object"}, {"additionalProperties", false}};
    schema["properties"] = std::move(properties);
    if (!required.empty()) schema["required"] = std::move(required);
    if (&keys == &all_keys()) add_rivals(schema, path);
    return schema;
}

void print(std::string& out, const json::value& value, const std::string& indent) {
    const std::string deeper = indent + "  ";
    if (const auto* object = value.if_object(); object != nullptr && !object->empty()) {
        std::string_view before = "{\n";
        for (const auto& [name, member] : *object) {
            out += fmt::format("{}{}{}: ", before, deeper, json::serialize(json::string(name)));
            print(out, member, deeper);
            before = ",\n";
        }
        out += "\n" + indent + "}";
    } else {
        out += json::serialize(value);
    }
}

}  // namespace

std::string schema_text() {
    Draft draft;
    json::object schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                        {"title", "A noonbench scenario"}};
    for (const auto& [name, value] : map_schema(all_keys(), "", draft)) schema[name] = value;
    std::string out;
    print(out, schema, "");
    return out + "\n";
}

}  // namespace noonbench::harness
