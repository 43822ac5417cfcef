// SPDX-License-Identifier: MIT
#include "firmware-model/quantities.hpp"

#include <boost/test/unit_test.hpp>

#include <concepts>
#include <limits>

BOOST_AUTO_TEST_SUITE(quantities)

using namespace noonbench::firmware;

namespace {

template <typename A, typename B>
concept addable = requires(A a, B b) {
    a + b;
};
template <typename A, typename B>
concept subtractable = requires(A a, B b) {
    a - b;
};
template <typename A, typename B>
concept comparable = requires(A a, B b) {
    a < b;
};

}  // namespace

BOOST_AUTO_TEST_CASE(temperatures_cannot_be_added) {
    static_assert(!addable<Temperature, Temperature>);
    static_assert(!addable<Temperature, TemperatureDifference>);
    static_assert(!addable<Temperature, int>);
    static_assert(addable<TemperatureDifference, TemperatureDifference>);  // the fence has a gate
    BOOST_TEST((TemperatureDifference{300} + TemperatureDifference{-500}).centikelvin == -200);
}

BOOST_AUTO_TEST_CASE(a_temperature_is_never_compared_with_a_difference) {
    static_assert(!comparable<Temperature, TemperatureDifference>);
    static_assert(!comparable<TemperatureDifference, Temperature>);
    static_assert(!comparable<Temperature, int>);
    static_assert(!comparable<TemperatureDifference, int>);
    static_assert(comparable<Temperature, Temperature>);
    static_assert(comparable<TemperatureDifference, TemperatureDifference>);
    BOOST_TEST((Temperature{799} < Temperature{800}));
    BOOST_TEST(!(Temperature{800} < Temperature{800}));
    BOOST_TEST((Temperature{801} > Temperature{800}));
    BOOST_TEST((Temperature{801} == Temperature{801}));
    BOOST_TEST(!(Temperature{801} == Temperature{800}));
    BOOST_TEST((TemperatureDifference{-1} < TemperatureDifference{0}));
    BOOST_TEST(!(TemperatureDifference{0} < TemperatureDifference{0}));
    BOOST_TEST((TemperatureDifference{1} > TemperatureDifference{0}));
    BOOST_TEST((TemperatureDifference{5} == TemperatureDifference{5}));
    BOOST_TEST(!(TemperatureDifference{5} == TemperatureDifference{-5}));
}

BOOST_AUTO_TEST_CASE(nothing_converts_by_itself) {
    static_assert(!std::convertible_to<Temperature, TemperatureDifference>);
    static_assert(!std::convertible_to<TemperatureDifference, Temperature>);
    static_assert(!std::convertible_to<Temperature, int>);
    static_assert(!std::convertible_to<int, Temperature>);
    static_assert(!std::convertible_to<int, Ticks>);
    static_assert(!comparable<Ticks, Ticks>);  // a counter that wraps has no order
    static_assert(!subtractable<Ticks, Ticks>);
    BOOST_TEST(sizeof(Temperature) == 2u);
}

BOOST_AUTO_TEST_CASE(the_widest_difference_of_two_temperatures_does_not_overflow) {
    constexpr std::int16_t lowest = std::numeric_limits<std::int16_t>::min();
    constexpr std::int16_t highest = std::numeric_limits<std::int16_t>::max();
    BOOST_TEST((Temperature{highest} - Temperature{lowest}).centikelvin == 65535);
    BOOST_TEST((Temperature{lowest} - Temperature{highest}).centikelvin == -65535);
    BOOST_TEST((-(Temperature{2100} - Temperature{1300})).centikelvin == -800);
    BOOST_TEST((TemperatureDifference{800} - TemperatureDifference{50}).centikelvin == 750);
}

BOOST_AUTO_TEST_CASE(seconds_are_counted_across_the_wrap_of_the_tick_counter) {
    BOOST_TEST(seconds_between(Ticks{10}, Ticks{70}) == 60u);
    BOOST_TEST(seconds_between(Ticks{0xFFFFFFF0U}, Ticks{0x10}) == 32u);
    BOOST_TEST((Ticks{7} == Ticks{7}));
    BOOST_TEST(!(Ticks{7} == Ticks{8}));
}

BOOST_AUTO_TEST_SUITE_END()
