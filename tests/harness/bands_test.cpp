// SPDX-License-Identifier: MIT
// Counts during a stride of the plant stay within the bands that are told to the controller.
#include "harness/bench/bands.hpp"

#include "plant/random.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

BOOST_AUTO_TEST_SUITE(bands)

namespace {

using namespace noonbench;
using namespace noonbench::harness;

constexpr std::uint64_t seed = 7;

/// A number between two, the n-th of a case.
double drawn(std::uint64_t at, std::uint64_t n, double least, double most) {
    const auto stream = plant::random_stream(seed, "bands test");
    return least + (most - least) * plant::random_uniform(stream, at * 1000 + n);
}

/// Courses as wild as no plant makes them: from frost to steam, swinging inside the stride.
plant::SensorCourse course_of(std::uint64_t at) {
    plant::SensorCourse course;
    course.seconds = std::floor(drawn(at, 0, 1.0, 600.0));
    std::uint64_t n = 1;
    const auto any = [&](double least, double most) { return drawn(at, n++, least, most); };
    const auto readings = [&](double least, double most) {
        return plant::Readings{any(least, most), any(least, most), any(least, most),
                               any(least, most), any(least, most), any(least, most)};
    };
    course.at_start = readings(-25.0, 180.0);
    course.at_end = readings(-25.0, 180.0);
    const double steep = 200.0 / course.seconds;
    course.slope_at_start = readings(-steep, steep);
    course.slope_at_end = readings(-steep, steep);
    return course;
}

/// All elements, offsets, cables, damp, noise, breaks, and plugs in wrong sockets.
Wiring wiring_of(std::uint64_t at) {
    Wiring wiring;
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        const auto any = [&](std::uint64_t n, double least, double most) {
            return drawn(at, 100 + 10 * s + n, least, most);
        };
        SensorWire& wire = wiring.sensors[s];
        constexpr std::array types{SensorType::platinum_1000, SensorType::ntc_10k,
                                   SensorType::silicon_2k, SensorType::not_fitted};
        wire.type = types[static_cast<std::size_t>(any(0, 0.0, 4.0))];
        wire.offset_k = any(1, -3.0, 3.0);
        wire.lead_resistance_ohm = any(2, 0.0, 20.0);
        wire.leakage_ohm = any(3, 0.0, 1.0) < 0.5 ? 0.0 : any(4, 1e3, 1e5);
        wire.noise_k = any(5, 0.0, 1.0) < 0.3 ? 0.0 : any(6, 0.0, 0.5);
        const double broken = any(7, 0.0, 1.0);
        if (broken < 0.05) wire.state = WireState::open;
        if (broken > 0.95) wire.state = WireState::shorted;
        const auto socket = any(8, 0.0, 1.0) < 0.8 ? s : static_cast<std::size_t>(any(9, 0.0, 5.0));
        wire.plugged_into = static_cast<firmware::Sensor>(socket);
    }
    return wiring;
}

/// The counts at one second of the stride with that second's noise.
auto counts_at(const Wiring& wiring, const plant::SensorCourse& course, int second) {
    OfSensors noise{};
    for (std::size_t s = 0; s < firmware::sensor_count; ++s)
        noise[s] = plant::random_noise(plant::random_stream(s, "noise"),
                                       static_cast<std::uint64_t>(second));
    return counts_at_sockets(wiring, felt_c(course.at(second)), noise);
}

}  // namespace

BOOST_AUTO_TEST_CASE(hold_every_second_of_wild_courses_on_any_wiring) {
    long seconds = 0;
    long outside = 0;
    for (std::uint64_t at = 0; at < 2000; ++at) {
        const plant::SensorCourse course = course_of(at);
        const Wiring wiring = wiring_of(at);
        const firmware::Bands bands = bands_of(wiring, course);
        for (int second = 0; second <= static_cast<int>(course.seconds); ++second) {
            ++seconds;
            const auto counts = counts_at(wiring, course, second);
            for (std::size_t s = 0; s < firmware::sensor_count; ++s)
                outside += counts[s] < bands.counts[s].least || counts[s] > bands.counts[s].most;
        }
    }
    BOOST_TEST_MESSAGE(seconds << " seconds");
    BOOST_TEST(outside == 0);
}

// Bands that forgot the noise, or the bend between the ends, would let counts escape: the test
// above can fail.
BOOST_AUTO_TEST_CASE(are_left_where_noise_or_the_bend_between_the_ends_is_forgotten) {
    Wiring wiring = default_wiring();
    plant::SensorCourse course;
    course.seconds = 60.0;
    course.at_start.collector_sensor_c = course.at_end.collector_sensor_c = 40.0;
    course.slope_at_start.collector_sensor_c = 0.5;
    course.slope_at_end.collector_sensor_c = -0.5;
    plant::SensorCourse straight = course;
    straight.slope_at_start = straight.slope_at_end = {};

    const auto outside = [&](const Wiring& told, const plant::SensorCourse& told_course) {
        const firmware::Band band = bands_of(told, told_course).counts[0];
        int count = 0;
        for (int second = 0; second <= 60; ++second) {
            const std::uint16_t counts = counts_at(wiring, course, second)[0];
            count += counts < band.least || counts > band.most;
        }
        return count;
    };
    BOOST_TEST(outside(wiring, straight) > 30);
    wiring.sensors[0].noise_k = 0.2;
    Wiring quiet = wiring;
    quiet.sensors[0].noise_k = 0.0;
    course = straight;
    BOOST_TEST(outside(quiet, course) > 30);
    BOOST_TEST(outside(wiring, course) == 0);
}

// A night's store loses 0.01 K in ten minutes; bands far wider than that would promise nothing.
BOOST_AUTO_TEST_CASE(of_a_course_without_noise_are_its_own_ends) {
    Wiring wiring = default_wiring();
    for (SensorWire& wire : wiring.sensors) wire.noise_k = 0.0;
    plant::SensorCourse course;
    course.seconds = 600.0;
    course.at_start.store_bottom_sensor_c = 31.00;
    course.at_end.store_bottom_sensor_c = 30.99;
    course.slope_at_start.store_bottom_sensor_c = -0.01 / 600.0;
    course.slope_at_end.store_bottom_sensor_c = -0.01 / 600.0;
    const auto bottom = static_cast<std::size_t>(firmware::Sensor::store_bottom);
    const firmware::Band band = bands_of(wiring, course).counts[bottom];
    const auto first = counts_at_sockets(wiring, felt_c(course.at_start), {});
    const auto last = counts_at_sockets(wiring, felt_c(course.at_end), {});
    BOOST_TEST(band.most == first[bottom]);
    BOOST_TEST(band.least == last[bottom]);
}

BOOST_AUTO_TEST_CASE(are_widened_by_what_a_sound_sensors_filter_still_remembers) {
    firmware::Bands bands;
    bands.counts[2] = {1000, 1010};
    firmware::State state;
    firmware::SensorState& sensor = state.sensors.sensor[2];
    sensor.status = firmware::SensorStatus::good;
    sensor.window.fill(1005);
    sensor.window[3] = 990;
    include(bands, state);
    BOOST_TEST(bands.counts[2].least == 990);
    BOOST_TEST(bands.counts[2].most == 1010);
    sensor.window[0] = 1100;
    include(bands, state);
    BOOST_TEST(bands.counts[2].most == 1100);
    sensor.status = firmware::SensorStatus::open;  // its filter stands still and does not count
    sensor.window[0] = 2000;
    include(bands, state);
    BOOST_TEST(bands.counts[2].most == 1100);
}

BOOST_AUTO_TEST_SUITE_END()
