// SPDX-License-Identifier: MIT
#include "junit.hpp"

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>

#include <sstream>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;
using boost::property_tree::ptree;

std::string text_of(const json::object& object, const char* member) {
    return std::string(object.at(member).as_string());
}

void put_attribute(ptree& element, const char* name, const std::string& value) {
    element.put(std::string("<xmlattr>.") + name, value);
}

std::string story_of(const json::object& verdict) {
    std::string story =
        text_of(verdict, "that") + "\ntightest at " + text_of(verdict, "tightest_at") + "\n";
    for (const json::value& link : verdict.at("reasons").as_array()) {
        story += std::string(link.as_string()) + "\n";
    }
    return story + "look at: " + text_of(verdict, "look_at") + "\n";
}

struct Counts {
    int tests = 0;
    int failures = 0;
    int errors = 0;
};

void put_counts(ptree& element, const Counts& counts) {
    put_attribute(element, "tests", std::to_string(counts.tests));
    put_attribute(element, "failures", std::to_string(counts.failures));
    put_attribute(element, "errors", std::to_string(counts.errors));
}

ptree case_of(const json::object& verdict, const std::string& scenario, Counts& counts) {
    ptree test;
    put_attribute(test, "name", text_of(verdict, "name"));
    put_attribute(test, "classname", scenario);
    ++counts.tests;
    if (text_of(verdict, "verdict") != "held") {
        ++counts.failures;
        ptree failure;
        put_attribute(failure, "message", text_of(verdict, "in_words"));
        failure.put_value(story_of(verdict));
        test.add_child("failure", failure);
    }
    return test;
}

ptree error_case(const json::object& scenario, Counts& counts) {
    ptree test;
    put_attribute(test, "name", "runs");
    put_attribute(test, "classname", text_of(scenario, "scenario"));
    ++counts.tests;
    ++counts.errors;
    ptree error;
    put_attribute(error, "message", text_of(scenario, "failure"));
    test.add_child("error", error);
    return test;
}

ptree suite_of(const json::object& scenario, Counts& all) {
    Counts counts;
    ptree suite;
    const std::string name = text_of(scenario, "scenario");
    put_attribute(suite, "name", name);
    ptree cases;
    if (scenario.contains("failure")) cases.add_child("testcase", error_case(scenario, counts));
    for (const json::value& verdict : scenario.at("requirements").as_array()) {
        cases.add_child("testcase", case_of(verdict.as_object(), name, counts));
    }
    put_counts(suite, counts);
    for (auto& [tag, test] : cases) suite.add_child(tag, test);
    all.tests += counts.tests;
    all.failures += counts.failures;
    all.errors += counts.errors;
    return suite;
}

}  // namespace

std::string junit_xml(const json::array& scenarios) {
    Counts all;
    ptree suites;
    for (const json::value& scenario : scenarios) {
        suites.add_child("testsuite", suite_of(scenario.as_object(), all));
    }
    ptree root;
    put_counts(root, all);
    for (auto& [tag, suite] : suites) root.add_child(tag, suite);
    ptree document;
    document.add_child("testsuites", root);
    std::ostringstream out;
    using boost::property_tree::xml_writer_make_settings;
    boost::property_tree::write_xml(out, document, xml_writer_make_settings<std::string>(' ', 2));
    return std::move(out).str();
}

}  // namespace noonbench::harness
