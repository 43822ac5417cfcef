// SPDX-License-Identifier: MIT
#include "class_secrets.hpp"

#include <sys/random.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <span>
#include <system_error>

namespace noonbench::harness {
namespace {

constexpr auto first_words = std::to_array<std::string_view>(
    {"amber",  "autumn",  "birch",   "brass",   "bright",  "bronze",  "cedar",   "chalk",
     "clear",  "clover",  "coast",   "cobalt",  "copper",  "coral",   "cotton",  "crystal",
     "dawn",   "distant", "early",   "east",    "elder",   "evening", "fair",    "fern",
     "flint",  "forest",  "fresh",   "garden",  "gentle",  "glass",   "golden",  "granite",
     "grass",  "green",   "harbour", "hazel",   "heather", "high",    "honey",   "indigo",
     "iron",   "ivory",   "ivy",     "juniper", "larch",   "lemon",   "lime",    "linen",
     "long",   "maple",   "marble",  "meadow",  "mellow",  "mild",    "misty",   "morning",
     "mossy",  "narrow",  "new",     "noon",    "north",   "oak",     "old",     "olive",
     "open",   "orange",  "pale",    "pearl",   "pine",    "plain",   "quiet",   "red",
     "river",  "rose",    "round",   "ruby",    "sage",    "sand",    "scarlet", "sea",
     "silver", "slate",   "smooth",  "snow",    "soft",    "south",   "spring",  "steel",
     "still",  "stone",   "straw",   "summer",  "sunny",   "tall",    "tin",     "velvet",
     "violet", "walnut",  "warm",    "west",    "white",   "wide",    "willow",  "winter",
     "wood",   "yellow",  "zinc"});
constexpr auto second_words = std::to_array<std::string_view>(
    {"acre",    "arch",     "attic",  "bank",    "barn",    "basin",    "bay",      "beach",
     "beam",    "bend",     "boiler", "bridge",  "brook",   "canal",    "cape",     "cellar",
     "chimney", "cliff",    "cloud",  "coil",    "corner",  "cottage",  "court",    "creek",
     "cross",   "dale",     "dell",   "door",    "dune",    "eaves",    "edge",     "farm",
     "fence",   "ferry",    "field",  "fitting", "flange",  "fjord",    "ford",     "fountain",
     "gable",   "gate",     "glade",  "glen",    "gorge",   "grove",    "hall",     "harbour",
     "heath",   "hedge",    "hill",   "hollow",  "island",  "junction", "kettle",   "ladder",
     "lagoon",  "lake",     "lane",   "ledge",   "lodge",   "manor",    "marsh",    "mill",
     "moor",    "mountain", "nozzle", "orchard", "panel",   "park",     "pass",     "path",
     "peak",    "pier",     "pipe",   "plain",   "point",   "pond",     "porch",    "port",
     "quay",    "radiator", "rafter", "ravine",  "reed",    "ridge",    "roof",     "sensor",
     "shore",   "slope",    "spout",  "square",  "station", "stream",   "summit",   "sun",
     "tank",    "terrace",  "tile",   "tower",   "trail",   "union",    "valley",   "valve",
     "vessel",  "village",  "wall",   "well",    "wharf",   "window",   "workshop", "yard"});
// 32 of them: five bits each.
constexpr std::string_view secret_signs = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
static_assert(secret_signs.size() == 32);

void fill_with_chance(std::span<std::uint8_t> bytes) {
    std::size_t filled = 0;
    while (filled < bytes.size()) {
        const ssize_t got = getrandom(bytes.data() + filled, bytes.size() - filled, 0);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) throw std::system_error(errno, std::generic_category(), "no entropy");
        filled += static_cast<std::size_t>(got);
    }
}

/// Each of 0 .. n-1 as likely as the other, as near as 64 bits tell.
std::size_t drawn_below(std::size_t n) {
    std::array<std::uint8_t, 8> bytes{};
    fill_with_chance(bytes);
    std::uint64_t value = 0;
    for (const std::uint8_t byte : bytes) value = (value << 8U) | byte;
    return static_cast<std::size_t>(value % n);
}

std::string plain_typed(std::string_view text) {
    std::string plain;
    for (const char c : text) {
        if (c == ' ' || c == '-') continue;
        plain += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return plain;
}

}  // namespace

std::string drawn_class_word() {
    std::string word(first_words[drawn_below(first_words.size())]);
    word += '-';
    word += second_words[drawn_below(second_words.size())];
    return word + '-' + std::to_string(10 + drawn_below(90));
}

std::string drawn_secret() {
    std::string secret;
    for (std::size_t i = 0; i < 12; ++i) {
        if (i > 0 && i % 4 == 0) secret += '-';
        secret += secret_signs[drawn_below(secret_signs.size())];
    }
    return secret;
}

std::string drawn_ticket() {
    constexpr std::string_view digits = "0123456789abcdef";
    std::array<std::uint8_t, 16> bytes{};
    fill_with_chance(bytes);
    std::string ticket;
    for (const std::uint8_t byte : bytes) {
        ticket += digits[byte >> 4U];
        ticket += digits[byte & 15U];
    }
    return ticket;
}

bool is_same_typed(std::string_view typed, std::string_view wanted) {
    return is_same_secret(plain_typed(typed), plain_typed(wanted));
}

bool is_same_secret(std::string_view one, std::string_view other) {
    unsigned differs = one.size() == other.size() ? 0U : 1U;
    for (std::size_t i = 0; i < one.size(); ++i) {
        const char there = other.empty() ? '\0' : other[i % other.size()];
        differs |= static_cast<unsigned char>(one[i]) ^ static_cast<unsigned char>(there);
    }
    return differs == 0U && !one.empty();
}

}  // namespace noonbench::harness
