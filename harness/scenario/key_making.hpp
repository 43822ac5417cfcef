// SPDX-License-Identifier: MIT
// Short hands for writing rows of the table of keys, and the sections that it is made of.
#pragma once
#include "key.hpp"

#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace noonbench::harness {

using SlotOf = std::function<Slot(Draft&)>;
using TakeOf = std::function<std::vector<Objection>(Draft&)>;

/// Where the range of a number is stated: unit, least, most.
struct Bounds {
    std::string_view unit;
    double least;
    double most;
};

[[nodiscard]] inline Key key_of(Form form, std::string path, std::string meaning, SlotOf slot) {
    Key key;
    key.path = std::move(path);
    key.form = form;
    key.meaning = std::move(meaning);
    key.slot = std::move(slot);
    return key;
}

[[nodiscard]] inline Key number_key(std::string path, Bounds bounds, std::string meaning,
                                    SlotOf slot) {
    Key key = key_of(Form::number, std::move(path), std::move(meaning), std::move(slot));
    key.unit = bounds.unit;
    key.least = bounds.least;
    key.most = bounds.most;
    return key;
}

[[nodiscard]] inline Key word_key(std::string path, std::vector<std::string_view> words,
                                  std::string meaning, SlotOf slot) {
    Key key = key_of(Form::word, std::move(path), std::move(meaning), std::move(slot));
    key.words = std::move(words);
    return key;
}

[[nodiscard]] inline Key list_key(std::string path, Bounds count, std::string meaning,
                                  std::vector<Key> items) {
    Key key = number_key(std::move(path), count, std::move(meaning), {});
    key.form = Form::list;
    key.items = std::move(items);
    return key;
}

[[nodiscard]] inline Key taken(Key key, TakeOf take) {
    key.take = std::move(take);
    return key;
}

[[nodiscard]] inline Key required(Key key) {
    key.required = true;
    return key;
}

/// An enum of one byte as a slot; the words of its key stand in the order of the enum.
template <class Enum>
[[nodiscard]] Slot byte_of(Enum& value) {
    static_assert(std::is_same_v<std::underlying_type_t<Enum>, std::uint8_t>);
    return reinterpret_cast<std::uint8_t*>(&value);  // unsigned char may alias anything
}

void add_run_keys(std::vector<Key>& keys);
void add_site_keys(std::vector<Key>& keys);
void add_collector_keys(std::vector<Key>& keys);
void add_loop_keys(std::vector<Key>& keys);
void add_store_keys(std::vector<Key>& keys);
void add_backup_keys(std::vector<Key>& keys);
void add_household_keys(std::vector<Key>& keys);
void add_sky_keys(std::vector<Key>& keys);
void add_controller_keys(std::vector<Key>& keys);
void add_wiring_keys(std::vector<Key>& keys);
void add_move_keys(std::vector<Key>& keys);
void add_fault_keys(std::vector<Key>& keys);
void add_requirement_keys(std::vector<Key>& keys);
void add_uncertain_keys(std::vector<Key>& keys);

}  // namespace noonbench::harness
