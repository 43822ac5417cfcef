// SPDX-License-Identifier: MIT
// What an installer could write down about a site: every fixed quantity of the plant, in SI.
// Defaults are those of an ordinary, careful installation; the ground stands beside each where
// there is one ("typical" = common practice, no source).
#pragma once
#include "si.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace noonbench::plant {

struct HorizonPoint {
    double azimuth_rad = 0.0;    // clockwise from north
    double elevation_rad = 0.0;  // of the skyline; linear between points
};

struct Site {
    double latitude_rad = radians(47.9);
    double longitude_rad = radians(8.1);  // east positive
    double elevation_m = 420.0;
    std::int32_t utc_offset_s = 3600;   // local standard time minus UTC
    double ground_albedo = 0.2;         // typical; grass
    std::vector<HorizonPoint> horizon;  // empty: flat; sorted by azimuth
};

/// Incidence-angle modifier of the beam: table over the angle every 10 degrees (ISO 9806 form),
/// along (longitudinal) and across (transversal) the tubes; a flat plate has both alike and uses
/// `b0` if it is positive.
struct IncidenceModifier {
    double b0 = 0.10;                       // K = 1 - b0 (1/cos - 1)
    std::array<double, 10> longitudinal{};  // 0, 10 .. 90 degrees; used when b0 == 0
    std::array<double, 10> transversal{};
    double diffuse = 0.91;  // K_d; 1/(1 + b0)
};

/// Where the fluid runs inside a collector, for its friction: risers between two headers. They
/// count as laminar throughout; typical of a harp absorber.
struct Absorber {
    int risers = 10;
    double riser_length_m = 1.9;  // from the lower to the upper header
    double riser_bore_m = 0.007;
    double connection_bore_m = 0.020;
    double connection_zeta = 5.0;  // headers and connections of one collector, on their bore
};

/// One collector as on its data sheet, ISO 9806 quasi-dynamic, per square metre of gross area.
struct Collector {
    double area_m2 = 2.0;
    double eta0 = 0.72;  // per gross area: nine tenths of an aperture figure of 0.80 (typical)
    double a1_w_m2k = 3.6;
    double a2_w_m2k2 = 0.014;
    double a3_j_m3k = 0.0;     // wind dependence of the loss, u' = wind - 3 m/s
    double a4 = 0.12;          // sky radiation; gives a clear-night reading 3..5 K under the air
    double a5_j_m2k = 9000.0;  // capacity, fluid included (flat plates 5..10 kJ, from memory)
    double content_m3 = 1.6e-3;
    Absorber absorber{};
    IncidenceModifier incidence{};
};

/// Where the collector sensor really sits.
enum class CollectorSensorPlace : std::uint8_t { hot_end, cold_end };

/// One string of collectors on one roof plane; several rows run in parallel.
struct Row {
    double slope_rad = radians(40.0);
    double azimuth_rad = radians(180.0);  // clockwise from north
    int collectors_in_series = 2;
    Collector collector{};
    CollectorSensorPlace sensor_place = CollectorSensorPlace::hot_end;
    double sensor_contact = 1.0;  // 1 = home in its pocket, 0 = hangs in the outside air
};

/// One leg of the loop between collector and station (hot: flow, cold: return).
struct PipeRun {
    double length_m = 12.0;
    double outdoor_m = 3.0;  // at the collector's end
    double outer_diameter_m = 0.018;
    double wall_m = 0.001;
    double insulation_m = 0.019;
    double insulation_w_mk = 0.040;
    double surface_w_m2k = 10.0;
};

struct Pump {
    double full_flow_m3_s = 2.6 / 60000.0;  // litres per minute -> m3/s, at level 100 %
    double least_level = 0.15;     // below this signal nothing moves; above, flow is proportional
    double shut_off_head_m = 6.0;  // at no flow, full level; small circulator, typical
    double free_flow_m3_s = 40.0 / 60000.0;  // at no head, full level; typical
    double full_power_w = 35.0;
    double least_power_w = 6.0;
    double heat_share = 0.5;          // of the electric power that ends in the fluid; assumed
    bool takes_speed_signal = false;  // false: mains only, full level when powered
    bool more_is_slower = false;      // profile that the pump itself uses
};

/// Where the loop's flow comes from.
enum class Hydraulics : std::uint8_t {
    given,  // full_flow in proportion to the pump's level
    solved  // where the pump's curve and the loop's resistances meet, with buoyancy
};

struct Loop {
    Hydraulics hydraulics = Hydraulics::solved;
    double check_valve_opening_pa = 2000.0;  // typical 20 hPa
    double fittings_zeta = 20.0;      // bends, branches and bodies on the cold pipe's bore; typical
    double glycol_mass_share = 0.40;  // 0 = water
    PipeRun hot_pipe{};
    PipeRun cold_pipe{};
    double station_content_m3 = 0.6e-3;  // each leg, with the thermometer in it
    double station_ua_w_k = 0.4;
    Pump pump{};
    double gauge_pressure_pa = 2.0e5;  // cold, at the station, above atmosphere
    double height_m = 8.0;             // collector top above the gauge
    // Of all fluid when the gauge showed that: between a cool roof and a warm room; assumed.
    double fill_temperature_c = 15.0;
    std::optional<double> vessel_volume_m3;     // expansion vessel, at the gauge's height; none:
    std::optional<double> vessel_precharge_pa;  // both by the rules of vessel_size.hpp
    double relief_valve_pa = 6.0e5;             // above the atmosphere; typical
    double fresh_bubbles_m3 = 0.0;  // fine bubbles of a new fill, as litres of the atmosphere; they
                                    // leave by the separator in the first weeks
};

struct Coil {
    double ua_w_k = 220.0;      // clean; about 50 W/K for each m2 of collector (typical)
    double from_height = 0.05;  // shares of the store's height
    double to_height = 0.40;
    double content_m3 = 6.0e-3;
    double bore_m = 0.026;  // smooth tube of about one inch, typical; its length follows
};

struct Store {
    double volume_m3 = 0.300;
    double height_m = 1.6;
    double side_ua_w_k = 1.6;        // insulation all round
    double connection_ua_w_k = 0.5;  // extra loss at the top by pipes without heat trap
    double conductivity_w_mk = 1.2;  // vertical, wall and coils included (typical 1..2)
    double inlet_mixing = 0.15;      // share of the cold inlet's flow that stirs upward
    double room_c = 18.0;
    Coil solar_coil{};
    double bottom_sensor_height = 0.15;  // shares of the store's height
    double top_sensor_height = 0.80;
    double bottom_sensor_contact = 1.0;  // 1 = home in its pocket, 0 = reads the room
    double top_sensor_contact = 1.0;
    bool high_limit_fitted = true;  // stat on the top layer, not self-resetting; stops the pump and
    double high_limit_c = 85.0;     // the backup heat (80..85 degC on unvented stores, typical)
    double safety_valve_c =
        95.0;  // temperature-and-pressure valve on the top layer (90..95, typical)
};

enum class BackupKind : std::uint8_t { none, boiler, immersion };

struct Backup {
    BackupKind kind = BackupKind::boiler;
    double power_w = 12000.0;
    double flow_temperature_c = 70.0;  // boiler flow through the upper coil
    double coil_ua_w_k = 350.0;        // upper coil (boiler only)
    double from_height = 0.55;
    double to_height = 0.85;
    bool by_controller = true;  // false: own thermostat and windows below
    double own_target_c = 55.0;
    double own_hysteresis_k = 5.0;
    double own_sensor_height = 0.7;
    std::array<std::int32_t, 4> own_windows_s{0, 86400, 0, 0};  // from, until, from, until
};

struct Circulation {
    bool fitted = false;
    double loop_ua_w_k = 6.0;
    double flow_kg_s = 0.05;
    double return_height = 0.6;
    std::array<std::int32_t, 4> running_s{6 * 3600, 9 * 3600, 17 * 3600, 22 * 3600};
};

struct Tap {
    double mixer_set_c = 50.0;  // thermostatic mixing valve
    bool mixer_fitted = true;
    double comfort_c = 40.0;  // delivered litres below this are counted
};

struct SensorLags {
    double collector_s =
        20.0;  // in its pocket, seconds to 63 %; check value: pocket 30..120 s typical
    double store_s = 40.0;
    double pipe_s = 15.0;
};

/// The whole site.
struct Parameters {
    Site site{};
    std::vector<Row> rows{Row{}};
    Loop loop{};
    Store store{};
    Backup backup{};
    Circulation circulation{};
    Tap tap{};
    SensorLags lags{};
    int layers = 12;
    int pipe_cells = 6;
};

}  // namespace noonbench::plant
