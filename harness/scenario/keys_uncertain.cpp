// SPDX-License-Identifier: MIT
// What nobody knows exactly on site, and between which values it lies.
#include "band.hpp"
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

std::vector<Objection> take_uncertain(Draft& d) {
    const UncertainDraft& item = d.uncertain;
    if (item.key.given == item.lever.given)
        return {{"an uncertain quantity is one key or one lever", "exactly one of key, lever", {}}};
    Uncertain uncertain;
    uncertain.key = item.key.text;
    uncertain.lever = item.lever.text;
    uncertain.least = item.least.text;
    uncertain.most = item.most.text;
    uncertain.place = item.key.given ? item.key.place : item.lever.place;
    uncertain.least_place = item.least.place;
    uncertain.most_place = item.most.place;
    std::vector<Objection> objections;
    if (!understood_band(uncertain, objections)) return objections;
    d.scenario.uncertain.push_back(uncertain);
    return {};
}

}  // namespace

void add_uncertain_keys(std::vector<Key>& keys) {
    std::vector<Key> items;
    items.push_back(key_of(Form::raw, "key",
                           "path of a key that holds a number or a time, as for --set",
                           [](Draft& d) { return &d.uncertain.key; }));
    items.push_back(key_of(Form::raw, "lever", "or a lever of the plant, set from the start",
                           [](Draft& d) { return &d.uncertain.lever; }));
    items.push_back(
        required(key_of(Form::raw, "least", "least of the band, as the key or lever wants it",
                        [](Draft& d) { return &d.uncertain.least; })));
    items.push_back(required(
        key_of(Form::raw, "most", "most of the band", [](Draft& d) { return &d.uncertain.most; })));
    Key key = list_key("uncertain", {"", 0, 40},
                       "what nobody knows exactly on site; the hunt for the worst day varies it",
                       std::move(items));
    key.open = [](Draft& d) { d.scenario.uncertain.clear(); };
    key.begin = [](Draft& d) { d.uncertain = {}; };
    key.take = take_uncertain;
    keys.push_back(std::move(key));
}

}  // namespace noonbench::harness
