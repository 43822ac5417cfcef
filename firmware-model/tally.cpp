// SPDX-License-Identifier: MIT
#include "tally.hpp"

namespace noonbench::firmware {
namespace {

constexpr std::uint64_t microjoule_per_wh = 3'600'000'000;

// Density times specific heat at 50 degC, J/(l K), for 0, 10 .. 60 % by volume: the Melinder
// polynomials (Properties of Secondary Working Fluids, 2010) at the mass share of the ASHRAE
// table. The test evaluates the polynomials again.
constexpr std::array<std::uint16_t, 7> heat_capacity_table = {4130, 4093, 4041, 3960,
                                                              3848, 3709, 3548};
constexpr std::int32_t share_step_pct = 10;
constexpr std::int32_t most_centikelvin = 65535;  // between the ends of Temperature

constexpr std::int32_t between(std::int32_t least, std::int32_t value, std::int32_t most) {
    if (value < least) return least;
    return value > most ? most : value;
}

const Reading& reading(const std::array<Reading, sensor_count>& readings, Sensor sensor) {
    return readings[static_cast<std::size_t>(sensor)];
}

// Hot less cold in 0.01 K; 0 where it is negative or not known. At most 65535.
std::uint32_t useful_centikelvin(const Settings& settings,
                                 const std::array<Reading, sensor_count>& readings) {
    const Reading& hot = reading(readings, Sensor::collector);
    const Reading& cold =
        reading(readings, settings[Setting::station_return_fitted] != 0 ? Sensor::station_return
                                                                        : Sensor::store_bottom);
    if (hot.status != SensorStatus::good || cold.status != SensorStatus::good) return 0;
    const TemperatureDifference difference = hot.temperature - cold.temperature;
    return static_cast<std::uint32_t>(between(0, difference.centikelvin, most_centikelvin));
}

void add_heat(std::uint64_t microjoule, TallyCounters& counters) {
    const std::uint64_t sum = counters.heat_rest_uj + microjoule;
    counters.heat_wh += static_cast<std::uint32_t>(sum / microjoule_per_wh);
    counters.heat_rest_uj = static_cast<std::uint32_t>(sum % microjoule_per_wh);
}

std::uint64_t capacity(const Settings& settings) {
    return heat_capacity_j_per_litre_k(settings[Setting::glycol_share]);
}

bool counts_pulses(const Settings& settings) {
    return settings[Setting::tally_source] == static_cast<std::int16_t>(TallySource::pulse_meter);
}

// pulses / (pulses/l) * J/(l K) * 0.01 K in microjoule. The rest of the division is lost: less than
// a microjoule at each pulse.
std::uint64_t heat_of_pulses_uj(const Settings& settings, std::uint16_t pulses,
                                std::uint32_t centikelvin) {
    const std::int32_t per_litre = between(1, settings[Setting::pulses_per_litre], INT16_MAX);
    return pulses * capacity(settings) * centikelvin * 10'000 /
           static_cast<std::uint32_t>(per_litre);
}
static_assert(65535ULL * 4200 * most_centikelvin < UINT64_MAX / 10'000);

// 0.01 l/min * level / 100 * s * J/(l K) * 0.01 K in microjoule: 1e6 / (100 * 60 * 100 * 100).
std::uint64_t heat_of_flow_uj(const Settings& settings, std::uint32_t seconds,
                              std::uint8_t level_pct, std::uint32_t centikelvin) {
    const std::int32_t flow = between(0, settings[Setting::typed_in_flow], INT16_MAX);
    return capacity(settings) * static_cast<std::uint32_t>(flow) * level_pct * seconds *
           centikelvin / 60;
}
static_assert(4200ULL * 32767 * 255 * tally_every_s < UINT64_MAX / most_centikelvin);

void end_run(Ticks now, TallyState& state) {
    state.counters.pump_run_s += seconds_between(state.run_since, now);
    state.running = 0;
}

void begin_run(Ticks now, TallyState& state) {
    ++state.counters.pump_starts;
    state.run_since = now;
    state.booked_until = now;
    state.running = 1;
}

}  // namespace

std::uint32_t heat_capacity_j_per_litre_k(std::int16_t glycol_share_pct) noexcept {
    constexpr auto last = static_cast<std::int32_t>(heat_capacity_table.size()) - 1;
    const std::int32_t share = between(0, glycol_share_pct, last * share_step_pct);
    const std::int32_t row = between(0, share / share_step_pct, last - 1);
    const std::int32_t part = share - row * share_step_pct;
    const std::int32_t low = heat_capacity_table[static_cast<std::size_t>(row)];
    const std::int32_t fall = low - heat_capacity_table[static_cast<std::size_t>(row) + 1];
    return static_cast<std::uint32_t>(low - (fall * part + share_step_pct / 2) / share_step_pct);
}

void keep_tally(const Settings& settings, const std::array<Reading, sensor_count>& readings,
                const TallyTick& tick, TallyState& state) noexcept {
    const bool by_pulses = counts_pulses(settings);
    // Before the run's end: a pulse on the edge belongs to the second that has just ended.
    if (by_pulses && tick.flow_pulses != 0) {
        add_heat(
            heat_of_pulses_uj(settings, tick.flow_pulses, useful_centikelvin(settings, readings)),
            state.counters);
    }
    const bool was_running = state.running != 0;
    const bool runs_on = tick.pump_on != 0;
    const bool changes = was_running != runs_on || tick.level_pct != state.level_pct;
    if (was_running && (changes || tally_appointment(tick.now, state))) {
        // More than 60 s cannot pass while appointments are kept; the bound is for the product.
        const std::uint32_t passed = seconds_between(state.booked_until, tick.now);
        const std::uint32_t seconds = passed < tally_every_s ? passed : tally_every_s;
        if (!by_pulses) {
            add_heat(heat_of_flow_uj(settings, seconds, state.level_pct,
                                     useful_centikelvin(settings, readings)),
                     state.counters);
        }
        state.booked_until = tick.now;
    }
    if (was_running && !runs_on) end_run(tick.now, state);
    if (!was_running && runs_on) begin_run(tick.now, state);
    state.level_pct = tick.level_pct;
}

bool tally_appointment(Ticks now, const TallyState& state) noexcept {
    return state.running != 0 && seconds_between(state.booked_until, now) >= tally_every_s;
}

TallyCounters counters_at(const TallyState& state, Ticks now) noexcept {
    TallyCounters counters = state.counters;
    if (state.running != 0) counters.pump_run_s += seconds_between(state.run_since, now);
    return counters;
}

TallyState resume_tally(const TallyCounters& saved) noexcept {
    TallyState state;
    state.counters = saved;
    return state;
}

}  // namespace noonbench::firmware
