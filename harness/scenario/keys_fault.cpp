// SPDX-License-Identifier: MIT
// What a fault file tells about its fault: in the customer's words, from the log, on site, and what
// is to be done about it.
#include "fault_range.hpp"
#include "key_making.hpp"
#include "quantity_text.hpp"

#include <algorithm>
#include <string_view>

namespace noonbench::harness {

namespace {

/// A scenario tells a fault as soon as one key of the section stands there.
FaultText& fault_of(Draft& d) {
    if (!d.scenario.fault) d.scenario.fault.emplace();
    return *d.scenario.fault;
}

/// A text that must say something.
Key text_key(std::string path, std::string FaultText::*text, std::string meaning) {
    Key key = key_of(Form::line, std::move(path), std::move(meaning),
                     [text](Draft& d) { return &(fault_of(d).*text); });
    return required(taken(std::move(key), [text](Draft& d) {
        const bool says_something =
            (fault_of(d).*text).find_first_not_of(" \t\r\n") != std::string::npos;
        std::vector<Objection> objections;
        if (!says_something) objections.push_back({"nothing is said", "a sentence or two", {}});
        return objections;
    }));
}

/// Whether such a file exists is the shelf's affair: one file must work alone.
std::vector<Objection> take_looks_like(Draft& d) {
    FaultText& fault = fault_of(d);
    fault.looks_like.clear();
    std::vector<Objection> objections;
    for (const Raw& like : d.looks_like) {
        const bool is_stem =
            !like.text.empty() && std::all_of(like.text.begin(), like.text.end(), [](char c) {
                return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
            });
        if (!is_stem)
            objections.push_back({in_quotes(like.text) + " is not the name of a fault file",
                                  "the file's name without folder and .yaml", like.place});
        fault.looks_like.push_back(like.text);
    }
    return objections;
}

/// What the overrides make of the scenario is tried when all is read, see read_scenario_tree().
std::vector<Objection> take_twin(Draft& d) {
    fault_of(d).twin.clear();
    for (const Raw& set : d.twin) fault_of(d).twin.push_back({set.text, set.place});
    return {};
}

std::vector<Objection> take_range(Draft& d) {
    std::vector<Objection> objections;
    if (const auto range = understood_range(d.fault_range, objections))
        fault_of(d).ranges.push_back(*range);
    return objections;
}

Key ranges_key() {
    std::vector<Key> items;
    items.push_back(key_of(Form::raw, "lever", "a lever of the plant",
                           [](Draft& d) { return &d.fault_range.lever; }));
    items.push_back(key_of(Form::raw, "wire", "or a wire, such as collector.offset",
                           [](Draft& d) { return &d.fault_range.wire; }));
    items.push_back(key_of(Form::raw, "setting", "or a setting of the controller",
                           [](Draft& d) { return &d.fault_range.setting; }));
    items.push_back(key_of(Form::raw, "key", "or the path of a key that holds a number or a time",
                           [](Draft& d) { return &d.fault_range.key; }));
    items.push_back(key_of(Form::raw, "least", "least value with which the fault is met",
                           [](Draft& d) { return &d.fault_range.least; }));
    items.push_back(key_of(Form::raw, "most", "most value with which it is met",
                           [](Draft& d) { return &d.fault_range.most; }));
    items.push_back(key_of(Form::raw, "to", "or the one value, such as open or off",
                           [](Draft& d) { return &d.fault_range.to; }));
    Key key = list_key("fault.ranges", {"", 0, 20},
                       "what the fault moves, and in which range it is met", std::move(items));
    key.open = [](Draft& d) { fault_of(d).ranges.clear(); };
    key.begin = [](Draft& d) { d.fault_range = {}; };
    key.take = take_range;
    return key;
}

void add_texts(std::vector<Key>& keys) {
    keys.push_back(text_key("fault.customer_says", &FaultText::customer_says,
                            "one or two sentences in the customer's words"));
    keys.push_back(
        text_key("fault.log_shows", &FaultText::log_shows,
                 "the picture in the customer's log (collector, store, pump), by time of day"));
    keys.push_back(text_key("fault.on_site", &FaultText::on_site,
                            "what can be read on site without opening anything"));
    keys.push_back(text_key("fault.measure_first", &FaultText::measure_first,
                            "the cheapest measurement that decides"));
    keys.push_back(text_key("fault.remedy", &FaultText::remedy, "what puts it right"));
    keys.push_back(required(key_of(Form::line, "fault.caution",
                                   "what can hurt; \"\" only where nothing can hurt anybody",
                                   [](Draft& d) { return &fault_of(d).caution; })));
    keys.push_back(key_of(Form::line, "fault.bench_differs",
                          "where this bench shows something else than the trade expects, and why",
                          [](Draft& d) { return &fault_of(d).bench_differs; }));
}

}  // namespace

void add_fault_keys(std::vector<Key>& keys) {
    add_texts(keys);
    keys.push_back(required(word_key(
        "fault.onset", {"sudden", "gradual", "after_service", "with_weather", "from_the_start"},
        "how the fault comes", [](Draft& d) { return byte_of(fault_of(d).onset); })));
    keys.push_back(key_of(Form::flag, "fault.nothing_wrong",
                          "a look-alike: the picture alarms, nothing is broken",
                          [](Draft& d) { return &fault_of(d).nothing_wrong; }));
    keys.push_back(
        taken(key_of(Form::lines, "fault.looks_like",
                     "names of fault files that the customer's log alone cannot tell from it",
                     [](Draft& d) { return &d.looks_like; }),
              take_looks_like));
    keys.push_back(ranges_key());
    keys.push_back(
        taken(key_of(Form::lines, "fault.twin",
                     "overrides path.to.key=VALUE that make the scenario healthy again; what "
                     "`faults` moves is left out of the twin anyway",
                     [](Draft& d) { return &d.twin; }),
              take_twin));
}

}  // namespace noonbench::harness
