// SPDX-License-Identifier: MIT
#include "firmware-model/memory.hpp"

#include <boost/test/unit_test.hpp>

#include <cstring>
#include <limits>
#include <vector>

BOOST_AUTO_TEST_SUITE(memory)

using namespace noonbench::firmware;

namespace {

// Memory whose power fails: after `bytes_left` bytes nothing is written any more, and the byte
// under way may be left as `torn_byte`.
struct Chip {
    Block block{};
    std::size_t bytes_left = std::numeric_limits<std::size_t>::max();
    int torn_byte = -1;  // -1: the byte under way is not touched
    std::vector<std::size_t> addresses{};

    static void write(void* context, std::size_t address, std::uint8_t byte) {
        auto& chip = *static_cast<Chip*>(context);
        if (chip.bytes_left > 0) {
            --chip.bytes_left;
            chip.block.bytes.at(address) = byte;
            chip.addresses.push_back(address);
        } else if (chip.torn_byte >= 0) {
            chip.block.bytes.at(address) = static_cast<std::uint8_t>(chip.torn_byte);
            chip.torn_byte = -1;
        }
    }
    void save(const Persistent& data) {
        const Block before = block;
        store(data, before, {this, &Chip::write});
    }
};

Persistent sample(std::uint32_t n) {
    Persistent data = delivered();
    data.counters.heat_wh = n;
    data.counters.pump_run_s = n * 7919;
    data.settings[Setting::start_difference] = static_cast<std::int16_t>(500 + n % 1000);
    data.sanitised_on = static_cast<std::uint16_t>(n);
    note(data.ring, {n, EventKind::advice_came, 0, static_cast<std::int16_t>(n % 9)});
    return data;
}

bool same(const Persistent& a, const Persistent& b) {
    return std::memcmp(&a, &b, sizeof a) == 0;
}

// Sequence number of a slot, as the layout in memory.cpp has it: bytes 4 to 7, little-endian.
void set_sequence(Block& block, std::size_t slot, std::uint32_t sequence) {
    std::uint8_t* begin = block.bytes.data() + slot * slot_bytes;
    const std::size_t crc_at = slot_bytes - 4;
    for (unsigned i = 0; i < 4; ++i) begin[4 + i] = static_cast<std::uint8_t>(sequence >> 8 * i);
    const std::uint32_t crc = crc32(0, begin, crc_at);
    for (unsigned i = 0; i < 4; ++i) begin[crc_at + i] = static_cast<std::uint8_t>(crc >> 8 * i);
}

// Some good writes, one that is cut, one good again: is the right data found after each?
bool survives_cut(std::uint32_t good_writes, std::size_t cut, int torn_byte) {
    Chip chip;
    for (std::uint32_t n = 1; n <= good_writes; ++n) chip.save(sample(n));
    chip.bytes_left = cut;
    chip.torn_byte = torn_byte;
    chip.save(sample(99));
    const Persistent found = load(chip.block);
    // The new data may only be there if the torn byte is the last and happens to be the right one.
    const bool whole = cut + 1 == slot_bytes && same(found, sample(99));
    if (!whole && !same(found, sample(good_writes))) return false;
    chip.bytes_left = std::numeric_limits<std::size_t>::max();
    chip.save(sample(100));
    return same(load(chip.block), sample(100));
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_check_sum_has_its_published_check_value) {
    // CRC-32 of IEEE 802.3, "123456789": 0xCBF43926 (the check value that every list of CRCs has).
    const std::uint8_t digits[] = {'1', '2', '3', '4', '5', '6', '7', '8', '9'};
    BOOST_TEST(crc32(0, digits, 9) == 0xCBF43926U);
    BOOST_TEST(crc32(crc32(0, digits, 4), digits + 4, 5) == 0xCBF43926U);
    BOOST_TEST(crc32(0, digits, 0) == 0u);
}

BOOST_AUTO_TEST_CASE(new_memory_gives_the_settings_as_delivered) {
    for (const int fill : {0x00, 0xFF, 0xA5}) {
        Block block;
        block.bytes.fill(static_cast<std::uint8_t>(fill));
        BOOST_TEST(!holds_data(block));
        BOOST_TEST(same(load(block), delivered()));
    }
    BOOST_TEST((delivered().settings == default_settings()));
    BOOST_TEST((delivered().counters == TallyCounters{}));
}

BOOST_AUTO_TEST_CASE(what_was_stored_last_is_loaded) {
    Chip chip;
    for (std::uint32_t n = 1; n <= 20; ++n) {
        chip.save(sample(n));
        BOOST_TEST(holds_data(chip.block));
        BOOST_TEST(same(load(chip.block), sample(n)));
    }
}

BOOST_AUTO_TEST_CASE(slots_are_written_in_turn_and_from_front_to_back) {
    Chip chip;
    for (std::uint32_t n = 0; n < 4; ++n) {
        chip.addresses.clear();
        chip.save(sample(n));
        BOOST_TEST(chip.addresses.size() == slot_bytes);
        for (std::size_t i = 0; i < chip.addresses.size(); ++i) {
            BOOST_TEST(chip.addresses[i] == n % 2 * slot_bytes + i);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_write_torn_at_any_byte_leaves_the_older_data) {
    for (const std::uint32_t good_writes : {1U, 2U, 3U}) {  // slot 0, slot 1, one overwritten
        for (std::size_t cut = 0; cut < slot_bytes; ++cut) {
            BOOST_TEST_CONTEXT("cut at byte " << cut << " after " << good_writes << " writes") {
                BOOST_REQUIRE(survives_cut(good_writes, cut, -1));
                BOOST_REQUIRE(survives_cut(good_writes, cut, 0x00));
                BOOST_REQUIRE(survives_cut(good_writes, cut, 0xFF));
                BOOST_REQUIRE(survives_cut(good_writes, cut, 0x5A));
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(the_very_first_write_torn_leaves_the_delivered_settings) {
    for (std::size_t cut = 0; cut < slot_bytes; ++cut) {
        Chip chip;
        chip.bytes_left = cut;
        chip.save(sample(5));
        if (!same(load(chip.block), delivered())) BOOST_FAIL("cut at byte " << cut);
    }
}

BOOST_AUTO_TEST_CASE(any_single_bit_that_flips_is_noticed) {
    Chip chip;
    chip.save(sample(1));
    chip.save(sample(2));
    for (std::size_t byte = 0; byte < 2 * slot_bytes; ++byte) {
        for (unsigned bit = 0; bit < 8; ++bit) {
            Block block = chip.block;
            block.bytes[byte] = static_cast<std::uint8_t>(block.bytes[byte] ^ 1U << bit);
            const std::uint32_t wanted = byte < slot_bytes ? 2 : 1;
            if (!same(load(block), sample(wanted))) BOOST_FAIL("byte " << byte << " bit " << bit);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_newer_slot_wins_across_the_wrap_of_the_sequence_number) {
    Chip chip;
    chip.save(sample(1));
    chip.save(sample(2));
    set_sequence(chip.block, 0, 0xFFFFFFFFU);
    set_sequence(chip.block, 1, 0);
    BOOST_TEST(same(load(chip.block), sample(2)));
    set_sequence(chip.block, 0, 0);
    set_sequence(chip.block, 1, 0xFFFFFFFFU);
    BOOST_TEST(same(load(chip.block), sample(1)));
    chip.save(sample(3));
    BOOST_TEST(same(load(chip.block), sample(3)));
}

BOOST_AUTO_TEST_CASE(data_of_another_layout_is_not_taken) {
    Chip chip;
    chip.save(sample(1));
    chip.block.bytes[0] ^= 1U;
    set_sequence(chip.block, 0, 7);  // with a right check sum
    BOOST_TEST(!holds_data(chip.block));
    BOOST_TEST(same(load(chip.block), delivered()));
}

BOOST_AUTO_TEST_CASE(a_setting_outside_its_limits_is_loaded_as_its_default) {
    Chip chip;
    Persistent data = sample(1);
    data.settings[Setting::store_limit] = 9600;
    data.settings[Setting::stop_difference] = 300;
    chip.save(data);
    const Persistent found = load(chip.block);
    BOOST_TEST(found.settings[Setting::store_limit] == 7500);
    BOOST_TEST(found.settings[Setting::stop_difference] == 300);
}

BOOST_AUTO_TEST_CASE(the_ring_keeps_the_last_sixteen_events) {
    EventRing ring;
    BOOST_TEST((event_at(ring, 0) == Event{}));
    for (std::uint32_t n = 1; n <= 40; ++n) {
        note(ring, {n, EventKind::setting_changed, 0, static_cast<std::int16_t>(n)});
        BOOST_TEST(ring.count == (n < 16 ? n : 16u));
        for (std::uint8_t age = 0; age < ring.count; ++age) {
            BOOST_TEST(event_at(ring, age).clock_s == n - age);
        }
        BOOST_TEST((event_at(ring, ring.count) == Event{}));
    }
    BOOST_TEST((event_at(ring, 255) == Event{}));
}

BOOST_AUTO_TEST_CASE(a_ring_with_a_wild_place_stays_within_its_bounds) {
    EventRing ring;
    ring.next = 200;
    ring.count = 200;
    note(ring, {1, EventKind::sanitised, 0, 6000});
    BOOST_TEST(ring.next < ring_size);
    BOOST_TEST((event_at(ring, 0) == Event{1, EventKind::sanitised, 0, 6000}));
    (void)event_at(ring, 199);
}

BOOST_AUTO_TEST_CASE(events_and_rings_are_equal_only_in_all_parts) {
    const Event event{1, EventKind::sanitised, 2, 3};
    BOOST_TEST((event == Event{1, EventKind::sanitised, 2, 3}));
    BOOST_TEST(!(event == Event{0, EventKind::sanitised, 2, 3}));
    BOOST_TEST(!(event == Event{1, EventKind::none, 2, 3}));
    BOOST_TEST(!(event == Event{1, EventKind::sanitised, 0, 3}));
    BOOST_TEST(!(event == Event{1, EventKind::sanitised, 2, 0}));
    const auto differs_after = [](auto change) {
        EventRing ring;
        change(ring);
        return !(ring == EventRing{});
    };
    BOOST_TEST(!differs_after([](EventRing&) {}));
    BOOST_TEST(differs_after([](EventRing& ring) { ring.event[15].value = 1; }));
    BOOST_TEST(differs_after([](EventRing& ring) { ring.next = 1; }));
    BOOST_TEST(differs_after([](EventRing& ring) { ring.count = 1; }));
    BOOST_TEST(differs_after([](EventRing& ring) { ring.reserved = 1; }));
}

BOOST_AUTO_TEST_SUITE_END()
