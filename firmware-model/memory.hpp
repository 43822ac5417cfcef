// SPDX-License-Identifier: MIT
// What outlives a power cut: two slots, written in turn, each with a sequence number and a check
// sum. A write that is torn at any byte leaves the other, older slot valid.
#pragma once
#include "settings.hpp"
#include "tally.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace noonbench::firmware {

/// What the event ring remembers; the meaning of Event::value stands beside each kind.
enum class EventKind : std::uint8_t {
    none,
    power_came_back,      // hours of the cut, 32767 = not known
    setting_changed,      // index of the Setting
    pump_hand_changed,    // HandRequest
    backup_hand_changed,  // HandRequest
    advice_came,          // AdviceKind
    advice_went,          // AdviceKind
    sanitised,            // the proving sensor when the hold ended, 0.01 degC
    store_at_ceiling,     // 0.01 degC
};

struct Event {
    std::uint32_t clock_s = 0;  // local standard time since 2000-01-01
    EventKind kind = EventKind::none;
    std::uint8_t reserved = 0;
    std::int16_t value = 0;

    friend constexpr bool operator==(const Event&, const Event&) = default;
};

inline constexpr std::size_t ring_size = 16;

/// The last 16 events, oldest overwritten first.
struct EventRing {
    std::array<Event, ring_size> event{};
    std::uint8_t next = 0;   // place of the next event
    std::uint8_t count = 0;  // events held, at most ring_size
    std::uint16_t reserved = 0;

    friend constexpr bool operator==(const EventRing&, const EventRing&) = default;
};

/// Adds an event.
void note(EventRing& ring, const Event& event) noexcept;

/// The event `age` places before the newest (0 = the newest); an empty one beyond ring.count.
Event event_at(const EventRing& ring, std::uint8_t age) noexcept;

/// All that is saved. Settings at once when one changes, counters hourly, the ring at each event.
struct Persistent {
    TallyCounters counters{};
    EventRing ring{};
    std::uint32_t saved_clock_s = 0;  // clock at the saving: tells the length of a cut; 0 = unset
    std::uint16_t sanitised_on = 0;   // date when last sanitised, days since 2000-01-01; 0 = never
    Settings settings{};
    std::array<std::uint16_t, 1 + setting_count % 2> reserved{};  // size a multiple of 4
};
static_assert(std::has_unique_object_representations_v<Persistent>);

inline constexpr std::size_t slot_bytes = 12 + sizeof(Persistent);  // layout, sequence, data, CRC

/// Image of the non-volatile memory: slot 0 and slot 1.
struct Block {
    std::array<std::uint8_t, 2 * slot_bytes> bytes{};
};

/// Where store() sends its bytes, one after the other. A power cut simply ends the sequence.
struct ByteWriter {
    void* context;
    void (*write)(void* context, std::size_t address, std::uint8_t byte);
};

/// What a first start finds: default settings, all counters at zero.
Persistent delivered() noexcept;

/// The newest valid slot; delivered() if there is none (new, or both broken). A setting outside the
/// limits of its row is replaced by the row's default.
Persistent load(const Block& memory) noexcept;

/// Is at least one slot valid?
bool holds_data(const Block& memory) noexcept;

/// Writes `data` into the slot that does not hold the newest valid data, check sum last. `memory`
/// is the image before the writing and is read only for its valid slots and sequence numbers.
void store(const Persistent& data, const Block& memory, const ByteWriter& writer) noexcept;

/// CRC-32 of IEEE 802.3 (reflected polynomial 0xEDB88320), continued over several pieces: begin
/// with 0. The check value of "123456789" is 0xCBF43926.
std::uint32_t crc32(std::uint32_t so_far, const std::uint8_t* bytes, std::size_t count) noexcept;

}  // namespace noonbench::firmware
