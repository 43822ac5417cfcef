// SPDX-License-Identifier: MIT
#include "bands.hpp"

#include "plant/random.hpp"

#include <algorithm>
#include <cstddef>

namespace noonbench::harness {
namespace {

// A polynomial's value may lie outside its exact hull by its rounding, some 1e-12 K.
constexpr double rounding_k = 1e-9;

}  // namespace

firmware::Bands bands_of(const Wiring& wiring, const plant::SensorCourse& course) {
    const OfSensors first = felt_c(course.at_start);
    const OfSensors last = felt_c(course.at_end);
    const OfSensors leaving = felt_c(course.slope_at_start);
    const OfSensors arriving = felt_c(course.slope_at_end);
    OfSensors coldest{};
    OfSensors hottest{};
    OfSensors ahead{};
    OfSensors behind{};
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        const auto [least, most] =
            std::minmax({first[s], first[s] + leaving[s] * course.seconds / 3.0,
                         last[s] - arriving[s] * course.seconds / 3.0, last[s]});
        coldest[s] = least - rounding_k;
        hottest[s] = most + rounding_k;
        ahead[s] = plant::most_noise;
        behind[s] = -plant::most_noise;
    }
    const auto one_end = counts_at_sockets(wiring, coldest, behind);
    const auto other_end = counts_at_sockets(wiring, hottest, ahead);
    firmware::Bands bands;
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        const auto [least, most] = std::minmax(one_end[s], other_end[s]);
        bands.counts[s] = {least, most};
    }
    return bands;
}

void include(firmware::Bands& bands, const firmware::State& state) {
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        const firmware::SensorState& sensor = state.sensors.sensor[s];
        if (sensor.status != firmware::SensorStatus::good) continue;
        firmware::Band& band = bands.counts[s];
        const auto [least, most] = std::minmax_element(sensor.window.begin(), sensor.window.end());
        band.least = std::min(band.least, *least);
        band.most = std::max(band.most, *most);
    }
}

}  // namespace noonbench::harness
