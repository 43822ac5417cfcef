// SPDX-License-Identifier: MIT
// A world that makes no sense on purpose: settings anywhere in their ranges, sensors that stand,
// ramp, wander, alternate or break, hands, a clock that comes and goes, power cuts. Counter-based
// random numbers from one seed, so that each failure can be walked again.
#pragma once
#include "counts.hpp"

#include "firmware-model/controller.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace noonbench::firmware::walking {

/// splitmix64 (Steele, Lea and Flood 2014).
class Random {
  public:
    explicit Random(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31);
    }
    /// least to most, both included.
    int between(int least, int most) {
        const auto span = static_cast<std::uint64_t>(std::int64_t{most} - least + 1);
        return least + static_cast<int>(next() % span);
    }
    bool one_in(int n) { return between(1, n) == 1; }

  private:
    std::uint64_t state_;
};

/// What one sensor socket does during an epoch. Counts in 1/256.
struct Behaviour {
    enum class Kind { hold, ramp, wander, alternate } kind = Kind::hold;
    std::int32_t value = 0;
    std::int32_t slope = 0;  // ramp: each second; alternate: the other value
};

class World {
  public:
    explicit World(std::uint64_t seed) : random_(seed) {
        settings = default_settings();
        inputs.clock_s = static_cast<std::uint32_t>(random_.between(0, 1'500'000'000));
        begin_epoch();
        state = start(delivered(), inputs);
    }

    Settings settings{};
    Inputs inputs{};
    State state{};

    /// Inputs of the next second, and at times a new epoch.
    void move_on() {
        if (--epoch_left_ <= 0) {
            begin_epoch();
        }
        if (state.pump.relay_on == 0 && stride_ != 0) {
            leap((stride_ - state.now.count % stride_) % stride_);  // to the next mark
        }
        ++inputs.clock_s;
        for (std::size_t i = 0; i < sensor_count; ++i) {
            inputs.counts[i] = sample(behaviour_[i]);
        }
        inputs.flow_pulses = static_cast<std::uint16_t>(random_.one_in(8) ? 1 : 0);
        inputs.pump_hand = hand();
        inputs.backup_hand = hand();
    }

  private:
    // Quiet hours in one step: while the pump is off no appointment of tally or level is skipped.
    void leap(std::uint32_t seconds) {
        state.now.count += seconds;
        inputs.clock_s += seconds;
    }

    void begin_epoch() {
        epoch_left_ = random_.one_in(3) ? random_.between(600, 3000) : random_.between(5, 200);
        stride_ = random_.one_in(4) ? 600 : 0;
        if (random_.one_in(3)) {
            reroll_settings();
        }
        for (std::size_t i = 0; i < sensor_count; ++i) {
            if (random_.one_in(2)) {
                behaviour_[i] = new_behaviour(i);
            }
        }
        if (random_.one_in(8)) {
            inputs.clock_is_set = !random_.one_in(3);
            inputs.clock_s += static_cast<std::uint32_t>(random_.between(0, 86400));
        }
        if (random_.one_in(60)) {
            state = start(to_save(settings, state, inputs), inputs);
        }
        if (random_.one_in(10) && state.pump.relay_on == 0) {
            leap(static_cast<std::uint32_t>(random_.between(0, 20 * 86400)));
        }
    }

    void reroll_settings() {
        for (std::size_t i = 0; i < setting_count; ++i) {
            const SettingInfo& row = setting_table()[i];
            switch (random_.between(0, 7)) {
                case 0:
                    settings.value[i] = row.least;
                    break;
                case 1:
                    settings.value[i] = row.most;
                    break;
                case 2:
                case 3:
                    settings.value[i] =
                        static_cast<std::int16_t>(random_.between(row.least, row.most));
                    break;
                default:
                    settings.value[i] = row.initial;
            }
        }
    }

    HandRequest hand() {
        if (!random_.one_in(400)) {
            return HandRequest::none;
        }
        constexpr std::array wishes = {HandRequest::automatic, HandRequest::automatic,
                                       HandRequest::automatic, HandRequest::on, HandRequest::off};
        return wishes[static_cast<std::size_t>(random_.between(0, 4))];
    }

    template <std::size_t n>
    int near(const std::array<Setting, n>& thresholds) {
        const int pick = random_.between(0, static_cast<int>(n) - 1);
        return settings[thresholds[static_cast<std::size_t>(pick)]] + random_.between(-100, 100);
    }

    /// Somewhere, or within a kelvin of a threshold. The store comes before the second collector,
    /// but not before the first: each difference is straddled now and then.
    int temperature(std::size_t sensor) {
        constexpr std::array of_collector = {Setting::collector_cut_out, Setting::collector_release,
                                             Setting::day_shedding_start, Setting::frost_start,
                                             Setting::frost_stop};
        constexpr std::array of_store = {
            Setting::store_limit,          Setting::store_ceiling,
            Setting::frost_store_floor,    Setting::backup_temperature,
            Setting::sanitise_temperature, Setting::night_shedding_target};
        constexpr std::array of_both = {Setting::start_difference, Setting::stop_difference};
        if (random_.one_in(40)) {
            return random_.between(-4990, 24990);
        }
        const bool collector = sensor == static_cast<std::size_t>(Sensor::collector) ||
                               sensor == static_cast<std::size_t>(Sensor::second_collector);
        if (!collector) {
            return random_.one_in(6) ? near(of_store) : random_.between(1000, 7000);
        }
        if (random_.one_in(3)) {
            const std::int32_t bottom =
                behaviour_[static_cast<std::size_t>(Sensor::store_bottom)].value;
            return temperature_of(static_cast<std::uint32_t>(bottom) / 32).centicelsius +
                   near(of_both);
        }
        return random_.one_in(3) ? near(of_collector) : random_.between(-1500, 13000);
    }

    Behaviour new_behaviour(std::size_t sensor) {
        const int counts = decisions::counts_at(temperature(sensor));
        Behaviour b{Behaviour::Kind::hold, counts * 256, 0};
        switch (random_.between(0, 19)) {
            case 0:
                b.value = full_scale_counts * 256;  // open
                break;
            case 1:
                b.value = 0;  // shorted
                break;
            case 2:
                b.kind = Behaviour::Kind::wander;
                break;
            case 3:
                b.kind = Behaviour::Kind::alternate;
                b.slope = decisions::counts_at(temperature(sensor)) * 256;
                break;
            case 4:
            case 5:
            case 6:
                b.kind = Behaviour::Kind::ramp;  // a count is about 0.05 K at 50 degC
                b.slope = random_.between(-600, 600) / (random_.one_in(2) ? 1 : 10);
                break;
            default:
                break;
        }
        return b;
    }

    std::uint16_t sample(Behaviour& b) {
        switch (b.kind) {
            case Behaviour::Kind::hold:
                break;
            case Behaviour::Kind::wander:
                b.value = std::clamp(b.value + random_.between(-80'000, 80'000), 0,
                                     full_scale_counts * 256);
                break;
            case Behaviour::Kind::alternate: {
                const std::int32_t other = b.slope;
                b.slope = b.value;
                b.value = other;
                break;
            }
            case Behaviour::Kind::ramp:
                b.value += b.slope;
                if (b.value < 0 || b.value > full_scale_counts * 256) {
                    b.value -= b.slope;
                    b.slope = -b.slope;
                }
                break;
        }
        return static_cast<std::uint16_t>(b.value / 256);
    }

    Random random_;
    std::array<Behaviour, sensor_count> behaviour_{};
    int epoch_left_ = 0;
    std::uint32_t stride_ = 0;  // 0: every second
};

}  // namespace noonbench::firmware::walking
