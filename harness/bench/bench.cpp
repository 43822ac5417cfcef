// SPDX-License-Identifier: MIT
#include "bench.hpp"

#include "clock.hpp"
#include "wires.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr std::array<const char*, firmware::sensor_count> noise_names{
    "noise of collector", "noise of store_bottom", "noise of store_top", "noise of station_return",
    "noise of second_collector"};

/// The day's draws: the pattern's and the listed ones, in order of time; none while away.
std::vector<plant::Draw> draws_of(const Household& household, std::uint64_t seed,
                                  CivilSeconds midnight) {
    plant::DrawPattern pattern = household.pattern;
    pattern.seed = seed;
    std::vector<plant::Draw> draws = plant::draws_of_day(pattern, midnight);
    const auto away = [&](const plant::DaysAway& days) {
        return midnight >= days.first_s && midnight < days.end_s;
    };
    if (std::any_of(pattern.away.begin(), pattern.away.end(), away)) return draws;
    for (const DailyDraw& d : household.draws) {
        draws.push_back({midnight + d.at_s, d.energy_j, d.flow_m3_s, d.useful_from_c, d.peak_c});
    }
    std::stable_sort(draws.begin(), draws.end(),
                     [](const plant::Draw& a, const plant::Draw& b) { return a.at_s < b.at_s; });
    return draws;
}

/// Whether two moves change the same number.
bool same_thing(const MoveOf& a, const MoveOf& b) {
    if (a.index() != b.index()) return false;
    if (const auto* lever = std::get_if<LeverMove>(&a)) {
        return lever->lever == std::get<LeverMove>(b).lever;
    }
    if (const auto* wire = std::get_if<WireMove>(&a)) {
        const auto& other = std::get<WireMove>(b);
        return wire->sensor == other.sensor && wire->field == other.field;
    }
    return false;
}

/// What a cloud takes away, it takes from all the sun alike.
plant::WeatherSpan behind_cloud(plant::WeatherSpan weather, double taken_share) {
    if (taken_share == 0.0) return weather;
    for (plant::PlaneKnot* knot : {&weather.from, &weather.to}) {
        for (double& sun_w_m2 : knot->received_w_m2) sun_w_m2 *= 1.0 - taken_share;
        for (double& sun_w_m2 : knot->absorbable_w_m2) sun_w_m2 *= 1.0 - taken_share;
    }
    return weather;
}

}  // namespace

Bench::Bench(const Scenario& scenario, const SkyFeed& sky)
    : scenario_(scenario),
      messages_(sky.messages()),
      sky_(sky),
      weather_(sky_.at(scenario_.start_s)),
      plant_(plant::make_plant(scenario_.plant, scenario_.start_temperatures.store_bottom_c,
                               scenario_.start_temperatures.store_top_c, weather_.from.air_c)),
      wiring_(scenario_.wiring),
      now_(scenario_.start_s) {
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        noise_[s] = plant::random_stream(scenario_.seed, noise_names[s]);
    }
    scenario_.plant.site = sky_.site();
    if (!plant::full_flow_reached(plant_)) {
        messages_.emplace_back(
            "The pump is too weak for loop.pump.full_flow even with the flow setter open: less "
            "flows.");
    }
    start_day();
    board_.settings = scenario_.controller.settings;
    board_.saved = firmware::delivered();
    board_.saved.settings = board_.settings;
    board_.state = firmware::start(board_.saved, inputs());
}

void Bench::start_day() {
    draws_ = draws_of(scenario_.household, scenario_.seed, day_start(now_));
    mains_c_ = plant::mains_c(scenario_.mains, now_);
}

void Bench::decide() {
    if (second_of_day(now_) == 0) start_day();
    make_moves();
    run_board(board_, inputs(), (now_ - scenario_.start_s) % 3600 == 0);
    weather_ = behind_cloud(sky_.at(now_), plant_.levers.passing_cloud);
    tap_flow_kg_s_ = plant::begin_tick(household_, draws_, now_) + hand_drawn_kg_s();
}

plant::Actions Bench::actions() const {
    plant::Actions actions;
    actions.pump_relay = board_.powered && (board_.outputs.pump_relay != 0 || wiring_.pump_bridged);
    actions.speed_signal = board_.powered ? board_.outputs.speed_signal_pct / 100.0 : 0.0;
    actions.speed_wire_connected = wiring_.speed_wire_connected;
    actions.backup_asked = board_.powered && board_.outputs.backup_relay != 0;
    actions.mains_c = mains_c_;
    return actions;
}

void Bench::advance() {
    const plant::StepReport step =
        plant::advance(plant_, weather_, now_, actions(), tap_flow_kg_s_);
    book_draw(household_, tap_flow_kg_s_, step.delivered_c, step.delivered_energy_j);
    ++now_;
}

/// The household's part of one second at the tap; what is drawn by hand is nobody's.
void Bench::book_draw(plant::HouseholdState& household, double mass_kg, double temperature_c,
                      double energy_j) const {
    const double share = mass_kg > 0.0 ? (mass_kg - hand_drawn_kg_s()) / mass_kg : 1.0;
    plant::end_tick(household, {share * mass_kg, temperature_c, share * energy_j},
                    scenario_.plant.tap.comfort_c);
}

// ------------------------------------------------------------------ moves

void Bench::add(const Move& move) {
    const auto at = std::upper_bound(
        scenario_.moves.begin() + static_cast<std::ptrdiff_t>(next_move_), scenario_.moves.end(),
        move.at_s, [](CivilSeconds at_s, const Move& other) { return at_s < other.at_s; });
    scenario_.moves.insert(at, move)->by_hand = true;
}

void Bench::forget_added(CivilSeconds after) {
    std::erase_if(scenario_.moves,
                  [&](const Move& move) { return move.by_hand && move.at_s > after; });
}

void Bench::make_moves() {
    moved_.clear();
    slide();
    while (next_move_ < scenario_.moves.size() && scenario_.moves[next_move_].at_s <= now_) {
        make(next_move_++);
    }
}

void Bench::make(std::size_t index) {
    const Move& move = scenario_.moves[index];
    moved_.push_back(index);
    std::erase_if(slides_, [&](const Slide& s) {  // a later move ends what was under way
        return same_thing(scenario_.moves[s.move].what, move.what);
    });
    if (move.over_s > 0) {
        slides_.push_back({index, number_of(move.what)});
        return;
    }
    std::visit(
        [&](const auto& what) {
            using What = std::decay_t<decltype(what)>;
            if constexpr (std::is_same_v<What, SettingMove>) {
                board_.settings[what.setting] = what.to;
                firmware::note(board_.state.ring,
                               {clock_chip_s(now_), firmware::EventKind::setting_changed, 0,
                                static_cast<std::int16_t>(what.setting)});
            } else if constexpr (std::is_same_v<What, HandMove>) {
                (what.hand == Hand::pump ? pump_hand_ : backup_hand_) = what.to;
            } else if constexpr (std::is_same_v<What, OtherWireMove>) {
                switch (what.wire) {
                    case OtherWire::mains_power:
                        board_.powered = what.connected;
                        break;
                    case OtherWire::speed_wire:
                        wiring_.speed_wire_connected = what.connected;
                        break;
                    case OtherWire::pulse_meter:
                        pulse_meter_connected_ = what.connected;
                        break;
                    case OtherWire::pump_bridge:
                        wiring_.pump_bridged = what.connected;
                        break;
                }
            } else {
                set_number(what, what.to);
            }
        },
        move.what);
}

/// Slides end exactly on their target at at_s + over_s.
void Bench::slide() {
    slid_home_.clear();
    std::erase_if(slides_, [&](const Slide& s) {
        const Move& move = scenario_.moves[s.move];
        const double share =
            std::min(1.0, static_cast<double>(now_ - move.at_s) / static_cast<double>(move.over_s));
        const double to = std::visit(
            [](const auto& what) {
                if constexpr (requires { what.to + 1.0; }) {
                    return static_cast<double>(what.to);
                } else {
                    return 0.0;
                }
            },
            move.what);
        set_number(move.what, share < 1.0 ? s.from + share * (to - s.from) : to);
        if (share >= 1.0) slid_home_.push_back(s.move);
        return share >= 1.0;
    });
}

void Bench::set_number(const MoveOf& what, double value) {
    if (const auto* lever = std::get_if<LeverMove>(&what)) {
        plant::set_lever(plant_.levers, lever->lever, value);
        plant_.modes.loop.next_s = 0;  // the loop is looked at again, whatever was turned
    } else if (const auto* wire = std::get_if<WireMove>(&what)) {
        set_wire(wiring_.sensors[static_cast<std::size_t>(wire->sensor)], wire->field, value);
    }
}

double Bench::number_of(const MoveOf& what) const {
    if (const auto* lever = std::get_if<LeverMove>(&what)) {
        const plant::LeverInfo* info = plant::find_lever(lever->lever);
        return info != nullptr ? plant_.levers.*(info->value) : 0.0;
    }
    if (const auto* wire = std::get_if<WireMove>(&what)) {
        return wire_number(wiring_.sensors[static_cast<std::size_t>(wire->sensor)], wire->field);
    }
    return 0.0;
}

// ------------------------------------------------------------------ controller

std::uint32_t Bench::clock_chip_s(CivilSeconds at) const {
    const ControllerClock& clock = scenario_.controller.clock;
    const double days = static_cast<double>(at - scenario_.start_s) / 86400.0;
    const auto drifted_s = static_cast<CivilSeconds>(std::floor(clock.drift_s_per_day * days));
    return static_cast<std::uint32_t>(std::max<CivilSeconds>(0, at + clock.offset_s + drifted_s));
}

firmware::Inputs Bench::inputs_at(CivilSeconds at, const plant::Readings& sensors) const {
    firmware::Inputs in;
    const auto elapsed = static_cast<std::uint64_t>(at - scenario_.start_s);
    OfSensors noise{};
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        if (wiring_.sensors[s].noise_k > 0.0) noise[s] = plant::random_noise(noise_[s], elapsed);
    }
    in.counts = counts_at_sockets(wiring_, felt_c(sensors), noise);
    in.clock_s = clock_chip_s(at);
    in.clock_is_set = clock_is_set();
    return in;
}

firmware::Inputs Bench::inputs() {
    firmware::Inputs in = inputs_at(now_, plant::readings(plant_));
    if (wiring_.pulse_meter.fitted && pulse_meter_connected_) {
        pulse_rest_ += std::max(0.0, plant_.last.pump.flow_m3_s) * 1000.0 *
                       wiring_.pulse_meter.pulses_per_litre;
        const double whole = std::floor(pulse_rest_);
        pulse_rest_ -= whole;
        in.flow_pulses = static_cast<std::uint16_t>(whole);
    }
    in.pump_hand = std::exchange(pump_hand_, firmware::HandRequest::none);
    in.backup_hand = std::exchange(backup_hand_, firmware::HandRequest::none);
    return in;
}

}  // namespace noonbench::harness
