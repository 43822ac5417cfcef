// SPDX-License-Identifier: MIT
// What must hold. The texts are understood by harness/judge, which knows the signals.
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

/// Overrides, or the healthy twin; a twin that is changed again is healthy no more.
std::vector<Objection> take_fails_with(Draft& d) {
    for (const Raw& change : d.fails_with) {
        d.requirement.fails_with.push_back(change.text);
        if (change.text == healthy_word && d.fails_with.size() > 1)
            return {{"healthy stands beside other changes", "healthy alone, or overrides",
                     change.place}};
    }
    if (!d.fails_with.empty()) d.requirement.fails_with_place = d.fails_with.front().place;
    return {};
}

std::vector<Objection> take_requirement(Draft& d) {
    d.requirement.name = d.requirement_name.text;
    d.requirement.place = d.requirement_name.place;
    d.requirement.that = d.that.text;
    d.requirement.that_place = d.that.place;
    d.requirement.scale = d.scale.text;
    d.requirement.scale_place = d.scale.place;
    d.scenario.require.push_back(d.requirement);
    return {};
}

}  // namespace

void add_requirement_keys(std::vector<Key>& keys) {
    std::vector<Key> items;
    items.push_back(required(key_of(Form::raw, "name", "a few words, such as: pump rests at night",
                                    [](Draft& d) { return &d.requirement_name; })));
    items.push_back(
        required(key_of(Form::raw, "that", "what must hold; `noonbench list phrases` has the words",
                        [](Draft& d) { return &d.that; })));
    items.push_back(key_of(Form::raw, "scale",
                           "a margin that counts as one step when the worst day is hunted, with "
                           "the unit of the margin",
                           [](Draft& d) { return &d.scale; }));
    items.push_back(key_of(Form::line, "look_at", "where a trainee should look if it fails",
                           [](Draft& d) { return &d.requirement.look_at; }));
    items.push_back(
        taken(key_of(Form::lines, "fails_with",
                     "overrides path.to.key=VALUE, all at once, with which it is known to fail; or "
                     "the word healthy: it fails in the healthy twin",
                     [](Draft& d) { return &d.fails_with; }),
              take_fails_with));
    items.push_back(word_key("end", {"unknown", "cut"},
                             "windows that reach past the end: not yet known, or cut there",
                             [](Draft& d) { return byte_of(d.requirement.at_end); }));
    Key key = list_key("require", {"", 0, 1000}, "what must hold", std::move(items));
    key.open = [](Draft& d) { d.scenario.require.clear(); };
    key.begin = [](Draft& d) {
        d.requirement = {};
        d.requirement_name = {};
        d.that = {};
        d.scale = {};
        d.fails_with = {};
    };
    key.take = take_requirement;
    keys.push_back(std::move(key));
}

}  // namespace noonbench::harness
