// SPDX-License-Identifier: MIT
// Passing quiet ticks in one go gives the very bytes that single ticks give. States come from the
// random walk, bands are narrow, wide, or end one count beside a threshold, and the samples within
// them wander, ramp or jump from end to end. NOONBENCH_QUIET_CASES sets how many states are tried.
#include "counts.hpp"
#include "walk_world.hpp"

#include "firmware-model/controller.hpp"
#include "firmware-model/quiet.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(quiet)

using namespace noonbench::firmware;
using noonbench::firmware::walking::Random;

namespace {

constexpr std::uint64_t default_cases = 1'000'000;
constexpr std::uint64_t walk_seed = 20260715;
constexpr std::uint64_t sample_seed = 31;

std::uint64_t wanted_cases() {
    const char* text = std::getenv("NOONBENCH_QUIET_CASES");
    return text != nullptr ? std::strtoull(text, nullptr, 10) : default_cases;
}

/// A band around everything that the filter holds.
Band around(const SensorState& s, std::uint16_t sample, int more_below, int more_above) {
    int least = sample;
    int most = sample;
    for (std::size_t i = 0; i < s.filled; ++i) {
        least = std::min<int>(least, s.window[i]);
        most = std::max<int>(most, s.window[i]);
    }
    return {static_cast<std::uint16_t>(std::max(0, least - more_below)),
            static_cast<std::uint16_t>(std::min(full_scale_counts, most + more_above))};
}

/// A state of the walk, and what the sensors show there.
struct Moment {
    Settings settings{};
    State state{};
    Inputs inputs{};
};

/// Stretches one end of one band to the count before, at, or behind a threshold of the settings.
void stretch_to_a_threshold(const Moment& at, Bands& bands, Random& random) {
    const auto degrees = [&](Setting setting) { return int{at.settings[setting]}; };
    const auto shown = [&](Sensor sensor) {
        return int{
            temperature_of(at.inputs.counts[static_cast<std::size_t>(sensor)] * 8U).centicelsius};
    };
    const int bottom = shown(Sensor::store_bottom);
    const std::array<std::pair<Sensor, int>, 9> thresholds = {{
        {Sensor::collector, bottom + degrees(Setting::start_difference)},
        {Sensor::collector, bottom + degrees(Setting::stop_difference)},
        {Sensor::collector, degrees(Setting::collector_cut_out)},
        {Sensor::collector, degrees(Setting::collector_release)},
        {Sensor::store_bottom, degrees(Setting::store_limit)},
        {Sensor::store_top, degrees(Setting::store_ceiling)},
        {Sensor::store_top, degrees(Setting::backup_temperature)},
        {Sensor::store_top, degrees(Setting::sanitise_temperature)},
        {Sensor::store_top, degrees(Setting::solar_first_floor)},
    }};
    const auto& [sensor, centicelsius] = thresholds[random.next() % thresholds.size()];
    Band& band = bands.counts[static_cast<std::size_t>(sensor)];
    const int count = decisions::counts_at(centicelsius) + random.between(-1, 1);
    if (count < 0 || count > full_scale_counts) return;
    band.least = std::min(band.least, static_cast<std::uint16_t>(count));
    band.most = std::max(band.most, static_cast<std::uint16_t>(count));
}

Bands bands_around(const Moment& at, Random& random) {
    Bands bands;
    // Little is promised for wide bands, so that narrow ones are the more frequent.
    const int width = std::array{0, 1, 3, 20, 200, 2000}[random.next() % 6];
    for (std::size_t i = 0; i < sensor_count; ++i) {
        bands.counts[i] = around(at.state.sensors.sensor[i], at.inputs.counts[i],
                                 random.between(0, width), random.between(0, width));
    }
    if (random.one_in(2)) stretch_to_a_threshold(at, bands, random);
    bands.most_pulses = random.one_in(3) ? 1 : 0;
    bands.clock_s = at.inputs.clock_s;
    bands.clock_is_set = at.inputs.clock_is_set;
    return bands;
}

/// The walk as it stands, or most often some seconds on with everything held still.
Moment moment_of(const walking::World& world, Random& random) {
    Moment at{world.settings, world.state, world.inputs};
    at.inputs.pump_hand = HandRequest::none;
    at.inputs.backup_hand = HandRequest::none;
    if (random.one_in(4)) return at;
    const int still = random.one_in(2) ? 9 : random.between(1, 70);
    for (int i = 0; i < still; ++i, ++at.inputs.clock_s) tick(at.settings, at.inputs, at.state);
    return at;
}

/// One second's inputs within the bands: at random, jumping, ramping, or at one end for the whole
/// stretch.
class Samples {
  public:
    Samples(const Bands& bands, std::uint32_t ticks, Random& random)
        : bands_(bands), ticks_(ticks), manner_(random.between(0, 4)), random_(random) {}

    Inputs at(std::uint32_t tick) {
        Inputs inputs;
        for (std::size_t i = 0; i < sensor_count; ++i) {
            const Band band = bands_.counts[i];
            const int span = band.most - band.least;
            int above = random_.between(0, span);
            if (manner_ == 1) above = (tick + i) % 2 == 0 ? 0 : span;
            if (manner_ == 3) above = 0;
            if (manner_ == 4) above = span;
            if (manner_ == 2) above = static_cast<int>(std::uint64_t{tick} * span / ticks_);
            inputs.counts[i] = static_cast<std::uint16_t>(band.least + above);
        }
        inputs.flow_pulses =
            static_cast<std::uint16_t>(random_.between(0, static_cast<int>(bands_.most_pulses)));
        inputs.clock_s = bands_.clock_s + tick;
        inputs.clock_is_set = bands_.clock_is_set;
        return inputs;
    }

  private:
    Bands bands_;
    std::uint32_t ticks_;
    int manner_;
    Random& random_;
};

struct Found {
    std::uint64_t cases = 0;
    std::uint64_t promised = 0;  // cases in which at least one tick was quiet
    std::uint64_t ticks = 0;     // passed in all
    std::uint64_t broken = 0;    // states that differ
    std::uint64_t first_broken = 0;
};

/// As many counts as `inward` narrower at each end, where that leaves something.
Bands told(Bands bands, int inward) {
    for (Band& band : bands.counts) {
        if (band.most - band.least < 2 * inward) continue;
        band.least = static_cast<std::uint16_t>(band.least + inward);
        band.most = static_cast<std::uint16_t>(band.most - inward);
    }
    return bands;
}

bool passes_alike(const Settings& settings, const State& from, std::uint32_t ticks,
                  Samples& samples) {
    State single = from;
    std::vector<Inputs> last;
    last.reserve(quiet_window);
    for (std::uint32_t t = 0; t < ticks; ++t) {
        const Inputs inputs = samples.at(t);
        tick(settings, inputs, single);
        if (last.size() == quiet_window) last.erase(last.begin());
        last.push_back(inputs);
    }
    State passed = from;
    pass_quiet(settings, passed, ticks, last.data(), last.size());
    return std::memcmp(&single, &passed, sizeof single) == 0;
}

/// Walks, tries each state, and with `inward` lies to quiet_until() about the bands.
Found try_cases(std::uint64_t cases, int inward) {
    walking::World world(walk_seed);
    Random random(sample_seed);
    Found found;
    for (; found.cases < cases; ++found.cases) {
        world.move_on();
        const Moment at = moment_of(world, random);
        const Bands bands = bands_around(at, random);
        const Ticks until = quiet_until(at.settings, at.state, told(bands, inward));
        const std::uint32_t quiet = seconds_between(at.state.now, until);
        if (quiet > 0) {
            // Long stretches cost most and add least: one in sixteen is walked to its end.
            const std::uint32_t ticks =
                random.one_in(16) ? quiet : std::min<std::uint32_t>(quiet, 20);
            Samples samples(bands, ticks, random);
            ++found.promised;
            found.ticks += ticks;
            if (!passes_alike(at.settings, at.state, ticks, samples)) {
                if (found.broken++ == 0) found.first_broken = found.cases;
            }
        }
        tick(world.settings, world.inputs, world.state);
    }
    return found;
}

/// A calm night: everything good, the pump at rest, the clock running.
struct Night {
    Settings settings = default_settings();
    State state{};
    Bands bands{};

    Night() {
        settings[Setting::sanitise] = 0;
        Inputs inputs = at(22 * 3600);
        state = start(delivered(), inputs);
        for (int i = 0; i < 1300; ++i, ++inputs.clock_s) tick(settings, inputs, state);
        bands.clock_s = inputs.clock_s;
        for (std::size_t i = 0; i < sensor_count; ++i) {
            bands.counts[i] = {inputs.counts[i], inputs.counts[i]};
        }
    }

    static Inputs at(std::uint32_t second_of_day) {
        Inputs inputs;
        inputs.clock_s = 9600 * 86400 + second_of_day;
        inputs.counts[static_cast<std::size_t>(Sensor::collector)] = decisions::counts_at(300);
        inputs.counts[static_cast<std::size_t>(Sensor::store_bottom)] = decisions::counts_at(3000);
        inputs.counts[static_cast<std::size_t>(Sensor::store_top)] = decisions::counts_at(5800);
        return inputs;
    }
};

}  // namespace

BOOST_AUTO_TEST_CASE(passing_gives_the_bytes_of_single_ticks) {
    const Found found = try_cases(wanted_cases(), 0);
    BOOST_TEST_MESSAGE(found.cases << " states, " << found.promised << " with quiet ticks, "
                                   << found.ticks << " ticks passed");
    BOOST_TEST(found.broken == 0U, found.broken << " of " << found.promised
                                                << " differ, the first is case "
                                                << found.first_broken);
    BOOST_TEST(found.promised * 10 > found.cases,
               "only " << found.promised << " of " << found.cases << " promise anything");
}

// The same search, told bands one count too narrow at each end: it must find that.
BOOST_AUTO_TEST_CASE(a_band_one_count_too_narrow_is_found) {
    const Found found = try_cases(std::max<std::uint64_t>(wanted_cases() / 5, 100'000), 1);
    BOOST_TEST_MESSAGE(found.broken << " of " << found.promised << " differ");
    BOOST_TEST(found.broken > 0U);
}

BOOST_AUTO_TEST_CASE(a_calm_night_is_passed_from_mark_to_mark) {
    Night night;
    std::uint32_t looked = 0;
    std::uint32_t passed = 0;
    while (passed < 4 * 3600) {
        const Ticks until = quiet_until(night.settings, night.state, night.bands);
        const std::uint32_t quiet = seconds_between(night.state.now, until);
        Inputs inputs = Night::at(0);
        std::vector<Inputs> last(std::min<std::size_t>(quiet, quiet_window), inputs);
        pass_quiet(night.settings, night.state, quiet, last.data(), last.size());
        inputs.clock_s = night.bands.clock_s + quiet;
        tick(night.settings, inputs, night.state);
        night.bands.clock_s += quiet + 1;
        passed += quiet + 1;
        ++looked;
    }
    BOOST_TEST(passed / looked >= 540U, passed << " s in " << looked << " looks");
}

BOOST_AUTO_TEST_CASE(a_band_that_ends_beside_each_threshold_reaches_the_next_mark) {
    Night night;
    const auto band = [&night](Sensor sensor) -> Band& {
        return night.bands.counts[static_cast<std::size_t>(sensor)];
    };
    const auto count = [](int centicelsius) {
        return static_cast<std::uint16_t>(decisions::counts_at(centicelsius));
    };
    const auto quiet = [&night] {
        return seconds_between(night.state.now,
                               quiet_until(night.settings, night.state, night.bands));
    };
    // Nothing asks for heat and the pump rests: across the target and the stop difference, which do
    // not count at the moment, from where heat would be asked for to where the pump would start.
    const int begins =
        night.settings[Setting::backup_temperature] - night.settings[Setting::backup_hysteresis];
    const std::uint16_t starts = count(3000 + night.settings[Setting::start_difference]);
    Band& top = band(Sensor::store_top);
    top = {static_cast<std::uint16_t>(count(begins) + 2), count(5990)};
    band(Sensor::collector) = {count(550), static_cast<std::uint16_t>(starts - 2)};
    night.state.sensors.sensor[0].window.fill(band(Sensor::collector).least);
    BOOST_TEST(quiet() == 600 - night.state.now.count % 600);

    band(Sensor::collector).most = starts;
    BOOST_TEST(quiet() == 0U);
    band(Sensor::collector).most = static_cast<std::uint16_t>(starts - 2);
    top.least = count(begins);
    BOOST_TEST(quiet() == 0U);
}

// The pump collects: the start difference does not count, the stop difference does.
BOOST_AUTO_TEST_CASE(a_running_pump_is_held_against_the_stop_difference) {
    Night day;
    Inputs inputs = Night::at(12 * 3600);
    const auto collector = static_cast<std::size_t>(Sensor::collector);
    inputs.counts[collector] = decisions::counts_at(5000);
    for (int i = 0; i < 1300; ++i, ++inputs.clock_s) tick(day.settings, inputs, day.state);
    BOOST_REQUIRE(day.state.pump.reason == PumpReason::collecting);
    day.bands.clock_s = inputs.clock_s;
    const auto count = [](int centicelsius) {
        return static_cast<std::uint16_t>(decisions::counts_at(centicelsius));
    };
    const std::uint16_t stops = count(3000 + day.settings[Setting::stop_difference]);
    day.bands.counts[collector] = {static_cast<std::uint16_t>(stops + 2), count(5000)};
    BOOST_TEST((quiet_until(day.settings, day.state, day.bands) != day.state.now));
    day.bands.counts[collector].least = static_cast<std::uint16_t>(stops - 1);
    BOOST_TEST((quiet_until(day.settings, day.state, day.bands) == day.state.now));
}

BOOST_AUTO_TEST_CASE(a_window_that_opens_ends_the_quiet) {
    Night night;
    const int opens = 22 * 60 + 30;
    night.settings[Setting::window_1_from] = opens;
    night.settings[Setting::window_1_until] = 1400;
    night.settings[Setting::summer_time] = 0;
    night.bands.clock_s = 9600U * 86400 + opens * 60 - 100;
    BOOST_TEST(seconds_between(night.state.now,
                               quiet_until(night.settings, night.state, night.bands)) == 100U);
}

BOOST_AUTO_TEST_CASE(a_filter_that_fills_is_not_quiet) {
    Night night;
    night.state = start(delivered(), Night::at(0));
    BOOST_TEST((quiet_until(night.settings, night.state, night.bands) == night.state.now));
}

// The tick that takes a new setting in has work to do, though nothing outside moves.
BOOST_AUTO_TEST_CASE(a_new_setting_is_not_quiet) {
    Night night;
    night.settings[Setting::backup_temperature] = 7500;
    night.settings[Setting::window_1_from] = 0;
    night.settings[Setting::window_1_until] = 1440;
    BOOST_TEST((quiet_until(night.settings, night.state, night.bands) == night.state.now));
}

BOOST_AUTO_TEST_CASE(a_sensor_that_is_fitted_no_more_is_not_quiet) {
    Night night;
    auto& left_over = night.state.sensors.sensor[static_cast<std::size_t>(Sensor::station_return)];
    left_over = night.state.sensors.sensor[static_cast<std::size_t>(Sensor::store_top)];
    BOOST_TEST((quiet_until(night.settings, night.state, night.bands) == night.state.now));
}

BOOST_AUTO_TEST_SUITE_END()
