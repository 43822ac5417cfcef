// SPDX-License-Identifier: MIT
#include "memory.hpp"

#include <cstring>

namespace noonbench::firmware {
namespace {

// A slot is: layout (4 bytes), sequence (4), data, check sum of all before it (4); little-endian
// words. The layout word tells blocks of another firmware apart, whose rows may mean other things.
constexpr std::uint32_t layout_word =
    0x4E42'0000U + static_cast<std::uint32_t>(setting_count * 1000 + sizeof(Persistent));
constexpr std::size_t sequence_at = 4;
constexpr std::size_t data_at = 8;
constexpr std::size_t crc_at = data_at + sizeof(Persistent);
static_assert(crc_at + 4 == slot_bytes);
using Word = std::array<std::uint8_t, 4>;

Word word_of(std::uint32_t value) {
    return {static_cast<std::uint8_t>(value), static_cast<std::uint8_t>(value >> 8),
            static_cast<std::uint8_t>(value >> 16), static_cast<std::uint8_t>(value >> 24)};
}

std::uint32_t value_at(const std::uint8_t* b) {
    return b[0] | std::uint32_t{b[1]} << 8 | std::uint32_t{b[2]} << 16 | std::uint32_t{b[3]} << 24;
}

const std::uint8_t* slot(const Block& memory, std::size_t index) {
    return memory.bytes.data() + index * slot_bytes;
}

bool is_valid(const std::uint8_t* slot) {
    return value_at(slot) == layout_word && value_at(slot + crc_at) == crc32(0, slot, crc_at);
}

constexpr std::size_t no_slot = 2;

// Sequence numbers may wrap, so the newer of two is the one a short way ahead.
std::size_t newest_slot(const Block& memory) {
    const bool first = is_valid(slot(memory, 0));
    const bool second = is_valid(slot(memory, 1));
    if (first && second) {
        const std::uint32_t ahead =
            value_at(slot(memory, 1) + sequence_at) - value_at(slot(memory, 0) + sequence_at);
        return static_cast<std::int32_t>(ahead) > 0 ? 1 : 0;
    }
    if (first) return 0;
    return second ? 1 : no_slot;
}

void write_bytes(const ByteWriter& writer, std::size_t address, const std::uint8_t* bytes,
                 std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) writer.write(writer.context, address + i, bytes[i]);
}

}  // namespace

void note(EventRing& ring, const Event& event) noexcept {
    ring.event[ring.next % ring_size] = event;
    ring.next = static_cast<std::uint8_t>((ring.next + 1U) % ring_size);
    if (ring.count < ring_size) ++ring.count;
}

Event event_at(const EventRing& ring, std::uint8_t age) noexcept {
    if (age >= ring.count) return {};
    return ring.event[(ring.next + 2 * ring_size - 1U - age) % ring_size];
}

std::uint32_t crc32(std::uint32_t so_far, const std::uint8_t* bytes, std::size_t count) noexcept {
    constexpr std::uint32_t polynomial = 0xEDB88320U;
    std::uint32_t crc = ~so_far;
    for (std::size_t i = 0; i < count; ++i) {
        crc ^= bytes[i];
        for (int bit = 0; bit < 8; ++bit) crc = crc >> 1 ^ (polynomial & (0U - (crc & 1U)));
    }
    return ~crc;
}

Persistent delivered() noexcept {
    Persistent data;
    data.settings = default_settings();
    return data;
}

bool holds_data(const Block& memory) noexcept {
    return newest_slot(memory) != no_slot;
}

Persistent load(const Block& memory) noexcept {
    const std::size_t newest = newest_slot(memory);
    if (newest == no_slot) return delivered();
    Persistent data;
    std::memcpy(&data, slot(memory, newest) + data_at, sizeof data);
    data.settings = within_limits(data.settings);
    return data;
}

void store(const Persistent& data, const Block& memory, const ByteWriter& writer) noexcept {
    const std::size_t newest = newest_slot(memory);
    const std::size_t target = newest == 0 ? 1 : 0;
    const std::uint32_t sequence =
        newest == no_slot ? 0 : value_at(slot(memory, newest) + sequence_at) + 1;
    const Word layout = word_of(layout_word);
    const Word number = word_of(sequence);
    const auto* bytes = reinterpret_cast<const std::uint8_t*>(&data);  // no padding: memory.hpp
    std::uint32_t crc = crc32(0, layout.data(), layout.size());
    crc = crc32(crc, number.data(), number.size());
    crc = crc32(crc, bytes, sizeof data);
    const Word check = word_of(crc);

    const std::size_t begin = target * slot_bytes;
    write_bytes(writer, begin, layout.data(), layout.size());
    write_bytes(writer, begin + sequence_at, number.data(), number.size());
    write_bytes(writer, begin + data_at, bytes, sizeof data);
    write_bytes(writer, begin + crc_at, check.data(), check.size());
}

}  // namespace noonbench::firmware
