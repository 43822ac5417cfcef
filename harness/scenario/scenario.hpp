// SPDX-License-Identifier: MIT
// One run of the bench, as plain data: what stands on site, what the sky and the household do,
// how the controller is set and wired, and what happens when. YAML is unknown here. SI as in
// plant/si.hpp; times are seconds of local STANDARD time since 2000-01-01 00:00.
#pragma once
#include "fault.hpp"
#include "problem.hpp"

#include "firmware-model/settings.hpp"
#include "firmware-model/terminals.hpp"
#include "plant/clear_day.hpp"
#include "plant/climate.hpp"
#include "plant/draw_pattern.hpp"
#include "plant/mains.hpp"
#include "plant/parameters.hpp"
#include "plant/sky.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace noonbench::harness {

using plant::CivilSeconds;

/// Seconds of the civil date since 2000-01-01 00:00; month and day from 1 (proleptic Gregorian).
[[nodiscard]] CivilSeconds civil_seconds(int year, int month, int day);

/// Temperatures when the run begins.
struct StartTemperatures {
    double store_top_c = 50.0;  // the store begins on a straight line between these two
    double store_bottom_c = 20.0;
};

// ---------------------------------------------------------------- sky

/// Weather drawn from a climate and the scenario's seed, see plant/climate.hpp.
struct SeededSky {
    plant::Climate climate = plant::Climate::average;
};

struct WeatherFile {
    std::filesystem::path path;  // as found from the file that names it
    bool minute_clouds = false;  // put seeded minute-by-minute clouds under the hourly means
    Place place;                 // where the scenario names it
};

enum class SkyKind : std::uint8_t { clear_day, seeded_year, file };

struct Sky {
    SkyKind kind = SkyKind::clear_day;  // only the part of that kind counts
    plant::ClearDay clear_day{};        // its site is that of the plant
    SeededSky seeded_year{};
    WeatherFile weather_file{};
};

// ---------------------------------------------------------------- household

/// One draw of every day.
struct DailyDraw {
    std::int32_t at_s = 0;  // after midnight
    double energy_j = 0.0;  // over the cold water
    double flow_m3_s = 6.0 / 60000.0;
    double useful_from_c = 0.0;  // water counts from this temperature on; 0 = all of it
    double peak_c = 0.0;         // to be reached during the draw; 0 = none
};

/// Who draws hot water: the pattern (its seed is the scenario's), or, when its profile is `none`,
/// the draws listed. The default fits the default plant of 4 m2 and 300 l.
struct Household {
    plant::DrawPattern pattern{.profile = plant::DrawProfile::people, .people = 4};
    std::vector<DailyDraw> draws;  // every day but those of pattern.away; sorted by time
};

// ---------------------------------------------------------------- controller and wiring

/// The controller's own clock against local standard time.
struct ControllerClock {
    std::int32_t offset_s = 0;     // shown minus true, at the start
    double drift_s_per_day = 0.0;  // positive: gains
    bool is_set = true;
};

struct Controller {
    firmware::Settings settings = firmware::default_settings();
    ControllerClock clock{};
};

enum class SensorType : std::uint8_t { platinum_1000, ntc_10k, silicon_2k, not_fitted };
enum class WireState : std::uint8_t { sound, open, shorted };

/// One sensor with its cable, up to its socket on the controller.
struct SensorWire {
    SensorType type = SensorType::platinum_1000;
    WireState state = WireState::sound;
    double offset_k = 0.0;             // of the element
    double lead_resistance_ohm = 0.0;  // in series, both ways
    double leakage_ohm = 0.0;          // across the cable (damp); 0 = none
    double noise_k = 0.0;              // standard deviation, seeded
    firmware::Sensor plugged_into{};   // socket at its end; set by default_wiring()
};

struct PulseMeter {
    bool fitted = false;
    double pulses_per_litre = 1.0;  // of the meter itself; the setting may say otherwise
};

struct Wiring {
    std::array<SensorWire, firmware::sensor_count> sensors{};  // indexed by firmware::Sensor
    PulseMeter pulse_meter{};
    bool speed_wire_connected = true;
    bool pump_bridged = false;  // mains passes the relay: welded contact, permanent live
};

/// Every sensor in its own socket; station_return and second_collector not fitted.
[[nodiscard]] Wiring default_wiring();

// ---------------------------------------------------------------- moves

struct SettingMove {
    firmware::Setting setting{};
    std::int16_t to = 0;  // in the scale of the setting table
};

/// A lever of the plant, by its name in plant/levers.hpp and in the unit of that table.
struct LeverMove {
    std::string lever;
    double to = 0.0;
};

enum class Hand : std::uint8_t { pump, backup };

struct HandMove {
    Hand hand = Hand::pump;
    firmware::HandRequest to = firmware::HandRequest::automatic;
};

/// What can be changed on the wire of one sensor.
enum class WireField : std::uint8_t {
    state,            // WireState as a number
    type,             // SensorType as a number
    offset,           // K
    lead_resistance,  // ohm
    leakage,          // ohm, 0 = none
    noise,            // K
    plugged_into,     // firmware::Sensor as a number
};

struct WireMove {
    firmware::Sensor sensor{};
    WireField field = WireField::state;
    double to = 0.0;
};

/// The other wires of the controller.
enum class OtherWire : std::uint8_t { mains_power, speed_wire, pulse_meter, pump_bridge };

struct OtherWireMove {
    OtherWire wire = OtherWire::mains_power;
    bool connected = true;
};

using MoveOf = std::variant<SettingMove, LeverMove, HandMove, WireMove, OtherWireMove>;

/// One change at one tick; levers and numbers on wires may slide there over a while.
struct Move {
    CivilSeconds at_s = 0;
    std::int32_t over_s = 0;  // straight line from the value at at_s; 0 = at once
    MoveOf what{};
    std::string name;   // as written: "start_difference", "collector.offset", ...
    std::string fault;  // name of the fault that it belongs to; empty for a plain move
    Place place;
    bool by_hand = false;  // made while the run was played, not written in a scenario
};

// ---------------------------------------------------------------- requirements

/// What is known at the end of a run about windows that reach past it.
enum class AtEnd : std::uint8_t {
    unknown,  // nothing: the margin is an interval
    cut,      // windows end where the run ends
};

/// One requirement as it is written; harness/judge understands it.
struct RequirementText {
    std::string name;
    std::string that;     // the formula, in the language of requirements
    std::string scale;    // "2 K": a margin of this size is one step for the hunt; may be empty
    std::string look_at;  // where a trainee should look
    /// Overrides path.to.key=VALUE with which it must fail; or healthy_word alone.
    std::vector<std::string> fails_with;
    AtEnd at_end = AtEnd::unknown;
    Place place;       // of the requirement
    Place that_place;  // of the formula's value
    Place scale_place;
    Place fails_with_place;
};

/// The word in `fails_with` that stands for the healthy twin, see twin.hpp.
inline constexpr std::string_view healthy_word = "healthy";

/// A quantity that nobody knows exactly on site, with the band in which it may lie; the hunt for
/// the worst day varies it. Either a key of the scenario or a lever that stands there from the
/// start.
struct Uncertain {
    std::string key;    // "sky.clear_day.clouds.0.from", or empty
    std::string lever;  // "coil_fouling", or empty
    std::string least;  // values as their key or lever wants them, with unit
    std::string most;
    Place place;  // of the item's key or lever
    Place least_place;
    Place most_place;
};

// ---------------------------------------------------------------- the whole

struct Record {
    std::int32_t every_s = 1;
    bool vcd = false;
    bool netcdf = false;
    bool sealed = false;  // by command only, see harness/bench/seal.hpp
};

struct Scenario {
    std::string name;  // stem of the file
    std::string title;
    std::string about;
    CivilSeconds start_s = civil_seconds(2026, 4, 15);  // a spring day shows most in one day
    std::int64_t length_s = plant::seconds_a_day;
    std::uint64_t seed = 1;
    plant::Parameters plant{};
    StartTemperatures start_temperatures{};
    Sky sky{};
    Household household{};
    plant::Mains mains{};  // cold water entering the house
    Controller controller{};
    Wiring wiring = default_wiring();
    std::vector<Move> moves;  // faults and moves together, sorted by at_s, ties in order of writing
    std::optional<FaultText> fault;  // what a fault file tells; the moves stand above
    std::vector<RequirementText> require;
    std::vector<Uncertain> uncertain;
    Record record{};
};

}  // namespace noonbench::harness
