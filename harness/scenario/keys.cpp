// SPDX-License-Identifier: MIT
// The whole table of keys in the order in which they are applied.
#include "key_making.hpp"

#include <algorithm>

namespace noonbench::harness {

namespace {

std::vector<Key> make_keys() {
    std::vector<Key> keys;
    add_run_keys(keys);
    add_site_keys(keys);
    add_collector_keys(keys);
    add_loop_keys(keys);
    add_store_keys(keys);
    add_backup_keys(keys);
    add_household_keys(keys);
    add_sky_keys(keys);
    add_controller_keys(keys);
    add_wiring_keys(keys);
    add_move_keys(keys);
    add_fault_keys(keys);
    add_requirement_keys(keys);
    add_uncertain_keys(keys);
    return keys;
}

void choose_sky(Draft& draft, std::size_t index) {
    draft.scenario.sky.kind = static_cast<SkyKind>(index);
}

void choose_household(Draft& draft, std::size_t index) {
    plant::DrawPattern& pattern = draft.scenario.household.pattern;
    if (index == 0) pattern.profile = plant::DrawProfile::people;
    if (index == 2) pattern.profile = plant::DrawProfile::none;
}

}  // namespace

const std::vector<Key>& all_keys() {
    static const std::vector<Key> keys = make_keys();
    return keys;
}

const std::vector<Rivals>& all_rivals() {
    static const std::vector<Rivals> rivals = {
        {"sky", {"clear_day", "seeded_year", "weather"}, choose_sky},
        {"household", {"people", "profile", "draws"}, choose_household},
    };
    return rivals;
}

std::vector<std::string_view> words_below(const std::vector<Key>& keys, std::string_view path) {
    std::vector<std::string_view> words;
    for (const Key& key : keys) {
        std::string_view rest = key.path;
        if (!path.empty()) {
            if (!rest.starts_with(path) || rest.size() <= path.size() || rest[path.size()] != '.')
                continue;
            rest.remove_prefix(path.size() + 1);
        }
        const std::string_view word = rest.substr(0, rest.find('.'));
        if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
    }
    return words;
}

}  // namespace noonbench::harness
