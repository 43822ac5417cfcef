// SPDX-License-Identifier: MIT
// Random numbers without state: each is a pure function of (seed, stream, counter), so that any
// day of a year can be asked for first and a fork of the world meets the same weather. The mixing
// is the published splitmix64 finaliser (Steele, Lea & Flood 2014, variant 13 of Stafford).
#pragma once
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <string_view>

namespace noonbench::plant {

/// Key of an independent sequence; made from a name so that two uses never share numbers.
struct RandomStream {
    std::uint64_t key = 0;
};

constexpr std::uint64_t splitmix64(std::uint64_t z) {
    z += 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

/// The published splitmix64 sequence from a seed, one number after the other: for searches and
/// tests, which only ever go forward. What is simulated draws from streams by counter instead.
class RandomSequence {
  public:
    constexpr explicit RandomSequence(std::uint64_t seed) : state_(seed) {}
    constexpr std::uint64_t bits() {
        const std::uint64_t mixed = splitmix64(state_);
        state_ += 0x9e3779b97f4a7c15ULL;
        return mixed;
    }
    /// Evenly spread in [0, 1), 53 bits.
    constexpr double uniform() { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; }
    /// 0 .. count - 1.
    constexpr std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(bits() % count);
    }

  private:
    std::uint64_t state_;
};

/// The stream of this name under this seed; the name is hashed by FNV-1a (64 bit).
constexpr RandomStream random_stream(std::uint64_t seed, std::string_view name) {
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    for (const char c : name) {
        hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    }
    return {splitmix64(splitmix64(seed) ^ hash)};
}

/// A stream within a stream, e.g. one per day.
constexpr RandomStream sub_stream(RandomStream stream, std::uint64_t number) {
    return {splitmix64(stream.key ^ splitmix64(number ^ 0x6a09e667f3bcc909ULL))};
}

/// 64 random bits for the counter.
constexpr std::uint64_t random_bits(RandomStream stream, std::uint64_t counter) {
    return splitmix64(stream.key + splitmix64(counter));
}

/// Evenly spread in [0, 1), 53 bits.
constexpr double random_uniform(RandomStream stream, std::uint64_t counter) {
    return static_cast<double>(random_bits(stream, counter) >> 11U) * 0x1.0p-53;
}

/// Evenly spread among first..last, both included; last - first below 2^32. The bias of the
/// multiply-and-shift is below (last - first + 1) / 2^32.
constexpr std::int64_t random_integer(RandomStream stream, std::uint64_t counter,
                                      std::int64_t first, std::int64_t last) {
    const auto count = static_cast<std::uint64_t>(last - first) + 1;
    const std::uint64_t high = random_bits(stream, counter) >> 32U;
    return first + static_cast<std::int64_t>((high * count) >> 32U);
}

inline constexpr double most_noise = 2.0 * std::numbers::sqrt3;

/// Mean 0, variance 1, bell-shaped and bounded by most_noise (3.47): the sum of four uniforms.
/// Bounded on purpose: no seed can bring a day that no site has seen.
constexpr double random_noise(RandomStream stream, std::uint64_t counter) {
    const RandomStream own = sub_stream(stream, counter);
    const double sum = random_uniform(own, 0) + random_uniform(own, 1) + random_uniform(own, 2) +
                       random_uniform(own, 3);
    return (sum - 2.0) * std::numbers::sqrt3;
}

}  // namespace noonbench::plant
