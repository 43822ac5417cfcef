// SPDX-License-Identifier: MIT
// A random walk through settings, inputs and time, asserting at every tick what must always hold.
// NOONBENCH_WALK_TICKS sets its length.
#include "decisions.hpp"
#include "walk_rules.hpp"
#include "walk_world.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cstdint>
#include <cstdlib>
#include <cstring>

BOOST_AUTO_TEST_SUITE(walk)

using namespace noonbench::firmware;

namespace {

constexpr std::uint64_t default_ticks = 1'000'000;
constexpr std::uint64_t seed = 20240515;

std::uint64_t wanted_ticks() {
    const char* text = std::getenv("NOONBENCH_WALK_TICKS");
    return text != nullptr ? std::strtoull(text, nullptr, 10) : default_ticks;
}

/// How often each reason and each suspicion was met.
struct Met {
    std::array<std::uint64_t, pump_reason_count> pump{};
    std::array<std::uint64_t, backup_reason_count> backup{};
    std::array<std::uint64_t, advice_count> advice{};

    void count(const Outputs& out) {
        ++pump[static_cast<std::size_t>(out.pump_reason)];
        ++backup[static_cast<std::size_t>(out.backup_reason)];
        for (std::size_t i = 0; i < advice_count; ++i) {
            advice[i] += out.advice.has(static_cast<AdviceKind>(i)) ? 1 : 0;
        }
    }
};

void expect_all_met(const Met& met) {
    for (std::size_t i = 0; i < pump_reason_count; ++i) {
        BOOST_TEST_CONTEXT(static_cast<PumpReason>(i)) {
            BOOST_TEST(met.pump[i] > 0U);
        }
        BOOST_TEST_MESSAGE(static_cast<PumpReason>(i) << " " << met.pump[i]);
    }
    for (std::size_t i = 0; i < backup_reason_count; ++i) {
        BOOST_TEST_CONTEXT(static_cast<BackupReason>(i)) {
            BOOST_TEST(met.backup[i] > 0U);
        }
        BOOST_TEST_MESSAGE(static_cast<BackupReason>(i) << " " << met.backup[i]);
    }
    for (std::size_t i = 0; i < advice_count; ++i) {
        const char* name = name_of(static_cast<AdviceKind>(i));
        BOOST_TEST_CONTEXT(name) {
            BOOST_TEST(met.advice[i] > 0U);
        }
        BOOST_TEST_MESSAGE(name << " " << met.advice[i]);
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_must_always_hold_holds_on_a_random_walk) {
    walking::World world(seed);
    Met met;
    const std::uint64_t ticks = wanted_ticks();
    for (std::uint64_t i = 0; i < ticks; ++i) {
        world.move_on();
        const State before = world.state;
        const Outputs out = tick(world.settings, world.inputs, world.state);
        met.count(out);
        const char* broken =
            walking::first_broken({world.settings, world.inputs, before, world.state, out});
        if (broken != nullptr) {
            BOOST_FAIL("tick " << i << " of seed " << seed << ", pump " << before.pump.reason
                               << " -> " << out.pump_reason << ", backup " << out.backup_reason
                               << ": not true: " << broken);
        }
        if (i % 64 == 0) {  // a tick is a function of what is passed in, and of nothing else
            State again = before;
            static_cast<void>(tick(world.settings, world.inputs, again));
            BOOST_REQUIRE(std::memcmp(&again, &world.state, sizeof(State)) == 0);
        }
    }
    if (ticks >= default_ticks) {  // a shorter walk need not come by everywhere
        expect_all_met(met);
    }
}

BOOST_AUTO_TEST_SUITE_END()
