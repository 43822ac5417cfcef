// SPDX-License-Identifier: MIT
#include "messages.hpp"

#include "assets.hpp"

#include <fmt/format.h>
#include <valijson/adapters/boost_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <map>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

using Schemas = std::map<std::string, valijson::Schema, std::less<>>;

const Schemas& schemas() {
    static const Schemas all = [] {
        Schemas made;
        const json::value root = json::parse(messages_schema_json);
        for (const auto& [name, body] : root.as_object()) {
            const valijson::adapters::BoostJsonAdapter adapter(body);
            valijson::SchemaParser parser;
            parser.populateSchema(adapter, made[std::string(name)]);
        }
        return made;
    }();
    return all;
}

std::string known_words() {
    std::string words;
    for (const auto& [name, schema] : schemas()) words += (words.empty() ? "" : ", ") + name;
    return words;
}

}  // namespace

std::variant<PageMessage, BadMessage> read_message(std::string_view text) {
    if (text.size() > most_message_bytes) {
        return BadMessage{"", fmt::format("a message has at most {} bytes", most_message_bytes)};
    }
    boost::system::error_code error;
    json::parse_options options;
    options.max_depth = 6;
    const json::value value = json::parse(text, error, {}, options);
    if (error || !value.is_object()) return BadMessage{"", "a message is one JSON object"};
    const json::object& body = value.get_object();
    const json::value* word = body.if_contains("do");
    if (word == nullptr || !word->is_string()) {
        return BadMessage{"", "a message says under \"do\" what it wants: " + known_words()};
    }
    const std::string what(word->get_string());
    const auto schema = schemas().find(what);
    if (schema == schemas().end()) {
        return BadMessage{what.substr(0, 40), "nobody knows this wish; there are " + known_words()};
    }
    valijson::Validator validator;
    valijson::ValidationResults results;
    const valijson::adapters::BoostJsonAdapter adapter(value);
    if (!validator.validate(schema->second, adapter, &results)) {
        valijson::ValidationResults::Error first;
        results.popError(first);
        return BadMessage{what, first.description};
    }
    return PageMessage{what, body};
}

std::string error_message(std::string_view of, std::string_view what) {
    return json::serialize(json::object{{"is", "error"}, {"of", of}, {"what", what}});
}

std::string word_in(const json::object& body, std::string_view key) {
    const json::value* value = body.if_contains(key);
    return value != nullptr ? std::string(value->get_string()) : std::string();
}

std::int64_t whole_in(const json::object& body, std::string_view key, std::int64_t otherwise) {
    const json::value* value = body.if_contains(key);
    return value != nullptr ? value->to_number<std::int64_t>() : otherwise;
}

}  // namespace noonbench::harness
