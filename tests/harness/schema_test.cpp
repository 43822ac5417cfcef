// SPDX-License-Identifier: MIT
#include "harness/scenario/describe.hpp"
#include "harness/scenario/key.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/value.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <string>
#include <string_view>

BOOST_AUTO_TEST_SUITE(schema)

namespace {

using namespace noonbench::harness;
namespace json = boost::json;

/// The schema of a key, by the words of its path; null if the schema does not know it.
const json::object* schema_at(const json::object& schema, std::string_view path) {
    const json::object* at = &schema;
    while (true) {
        const json::value* properties = at->if_contains("properties");
        if (properties == nullptr) return nullptr;
        const std::size_t dot = path.find('.');
        const json::value* below = properties->as_object().if_contains(path.substr(0, dot));
        if (below == nullptr) return nullptr;
        at = &below->as_object();
        if (dot == std::string_view::npos) return at;
        path.remove_prefix(dot + 1);
    }
}

void check_keys(const std::vector<Key>& keys, const json::object& schema) {
    for (const Key& key : keys) {
        BOOST_TEST_CONTEXT(key.path) {
            const json::object* found = schema_at(schema, key.path);
            BOOST_REQUIRE(found != nullptr);
            BOOST_TEST(found->at("description").as_string().size() > 0);
            if (key.form == Form::list)
                check_keys(key.items, found->at("anyOf").as_array().at(1).as_object());
        }
    }
}

/// Closed against unknown keys, everywhere.
void check_closed(const json::value& value) {
    if (const auto* array = value.if_array()) {
        for (const json::value& item : *array) check_closed(item);
    } else if (const auto* object = value.if_object()) {
        if (object->contains("properties") && object->contains("type"))
            BOOST_TEST(object->at("additionalProperties") == json::value(false));
        for (const auto& [name, member] : *object) check_closed(member);
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(schema_is_json_of_the_draft_it_names) {
    const json::value schema = json::parse(schema_text());
    BOOST_TEST(schema.at("$schema").as_string() == "https://json-schema.org/draft/2020-12/schema");
    BOOST_TEST(schema.at("type").as_string() == "object");
    check_closed(schema);
}

BOOST_AUTO_TEST_CASE(schema_names_every_key_of_the_table) {
    const json::value schema = json::parse(schema_text());
    check_keys(all_keys(), schema.as_object());
}

BOOST_AUTO_TEST_CASE(schema_names_every_setting) {
    const json::value schema = json::parse(schema_text());
    for (const auto& info : noonbench::firmware::setting_table()) {
        const std::string path = std::string("controller.") + info.name;
        BOOST_TEST_CONTEXT(path) BOOST_TEST(schema_at(schema.as_object(), path) != nullptr);
    }
}

BOOST_AUTO_TEST_CASE(schema_tells_defaults_ranges_and_words) {
    const json::value schema = json::parse(schema_text());
    const json::object* volume = schema_at(schema.as_object(), "store.volume");
    BOOST_REQUIRE(volume != nullptr);
    BOOST_TEST(volume->at("default").as_string() == "300 l");
    BOOST_TEST(volume->at("description").as_string() ==
               "water in the store. Allowed: 50 l to 2000 l (units: l, ml, m3)");
    BOOST_TEST(volume->at("pattern").as_string() == "^[+-]?[0-9.]+([eE][+-]?[0-9]+)? ?(l|ml|m3)$");
    const json::object* kind = schema_at(schema.as_object(), "backup.kind");
    BOOST_REQUIRE(kind != nullptr);
    BOOST_TEST(kind->at("enum") == json::value({"none", "boiler", "immersion"}));
}

BOOST_AUTO_TEST_CASE(schema_forbids_two_skies) {
    const json::value schema = json::parse(schema_text());
    const json::object* sky = schema_at(schema.as_object(), "sky");
    BOOST_REQUIRE(sky != nullptr);
    BOOST_TEST(sky->at("not").at("anyOf").as_array().size() == 3U);
}

BOOST_AUTO_TEST_CASE(every_row_of_the_table_is_whole) {
    Draft draft;
    for (const Key& key : all_keys()) {
        BOOST_TEST_CONTEXT(key.path) {
            BOOST_TEST(!key.meaning.empty());
            BOOST_TEST(!allowed_for(key).empty());
            BOOST_TEST((key.form == Form::setting || key.form == Form::list || key.slot));
            if (key.form == Form::list) BOOST_TEST((key.take && key.begin));
        }
    }
}

BOOST_AUTO_TEST_CASE(every_default_is_one_that_its_own_key_accepts) {
    Draft draft;
    for (const Key& key : all_keys()) {
        const std::string value = written_value(key, draft);
        if (value.empty() || key.form == Form::numbers) continue;
        Node node;
        node.kind = Node::Kind::scalar;
        node.text = value;
        Findings findings;
        store_value(key, node, key.path, draft, findings);
        BOOST_TEST_CONTEXT(key.path << ": " << value) {
            BOOST_CHECK_NO_THROW(findings.refuse_if_any("defaults"));
            BOOST_TEST(written_value(key, draft) == value);
        }
    }
}

BOOST_AUTO_TEST_CASE(starter_reads_back_as_the_default_scenario) {
    const Scenario starter = read_scenario_text(starter_text(), "starter.yaml");
    const Scenario empty = read_scenario_text("{}", "starter.yaml");
    BOOST_TEST(starter.title == "My first scenario");
    BOOST_TEST((starter.controller.settings == empty.controller.settings));
    Draft from_starter;
    Draft from_nothing;
    from_starter.scenario = starter;
    from_nothing.scenario = empty;
    for (const Key& key : all_keys()) {
        if (key.path == "title" || key.path == "about") continue;
        BOOST_TEST_CONTEXT(key.path)
        BOOST_TEST(written_value(key, from_starter) == written_value(key, from_nothing));
    }
}

BOOST_AUTO_TEST_CASE(starter_examples_that_are_commented_out_work_too) {
    std::string text = starter_text();
    const std::size_t begin = text.find("# faults:");
    BOOST_REQUIRE(begin != std::string::npos);
    for (std::size_t at = begin; at != std::string::npos; at = text.find("\n# ", at)) {
        if (text[at] == '\n') ++at;
        text.erase(at, 2);
    }
    const Scenario scenario = read_scenario_text(text, "starter.yaml");
    BOOST_TEST(scenario.moves.size() == 4U);
    BOOST_TEST(scenario.moves.front().fault == "scale in the solar coil");
}

BOOST_AUTO_TEST_CASE(lists_name_every_setting_and_key) {
    const std::string settings = settings_text();
    for (const auto& info : noonbench::firmware::setting_table()) {
        BOOST_TEST_CONTEXT(info.name) {
            BOOST_TEST(settings.find(std::string(info.name) + "\n") != std::string::npos);
            BOOST_TEST(settings.find(info.ground) != std::string::npos);
        }
    }
    const std::string keys = keys_text();
    for (const Key& key : all_keys())
        BOOST_TEST_CONTEXT(key.path) BOOST_TEST(keys.find(key.path + "\n") != std::string::npos);
    BOOST_TEST(keys.find("faults[].moves[].to\n") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
