// SPDX-License-Identifier: MIT
#include "firmware-model/settings.hpp"
#include "plant/si.hpp"

#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <filesystem>
#include <fstream>
#include <string>
#include <variant>
#include <vector>

// A suite is a namespace, and ::read is a function of the system.
namespace reading {
BOOST_AUTO_TEST_SUITE(read)

namespace {

using namespace noonbench::harness;
namespace firmware = noonbench::firmware;
namespace plant = noonbench::plant;
using firmware::Sensor;
using firmware::Setting;

Scenario scenario_from(std::string_view yaml, const std::vector<std::string>& sets = {}) {
    return read_scenario_text(yaml, "test.yaml", sets);
}

const SensorWire& wire(const Scenario& scenario, Sensor sensor) {
    return scenario.wiring.sensors[static_cast<std::size_t>(sensor)];
}

/// A folder of its own that goes away with the test.
struct Folder {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() /
        ("noonbench_read_" + boost::unit_test::framework::current_test_case().p_name.get());
    Folder() {
        std::filesystem::remove_all(path);
        std::filesystem::create_directories(path / "sites");
    }
    ~Folder() { std::filesystem::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path / name) << text;
    }
};

}  // namespace

BOOST_AUTO_TEST_CASE(five_lines_are_a_scenario) {
    const Scenario scenario = scenario_from(
        "title: A clear day\n"
        "start: 2026-06-21 00:00\n"
        "length: 1 day\n"
        "controller:\n"
        "  start_difference: 6 K\n");
    BOOST_TEST(scenario.name == "test");
    BOOST_TEST(scenario.title == "A clear day");
    BOOST_TEST(scenario.start_s == civil_seconds(2026, 6, 21));
    BOOST_TEST(scenario.length_s == 86400);
    BOOST_TEST(scenario.record.every_s == 1);
    BOOST_TEST(scenario.controller.settings[Setting::start_difference] == 600);
    BOOST_TEST(scenario.controller.settings[Setting::stop_difference] ==
               firmware::default_settings()[Setting::stop_difference]);
    BOOST_TEST((scenario.sky.kind == SkyKind::clear_day));
    BOOST_TEST(scenario.plant.rows.size() == 1U);
    BOOST_TEST(scenario.moves.empty());
}

BOOST_AUTO_TEST_CASE(the_interval_of_the_trace_follows_the_length) {
    BOOST_TEST(scenario_from("length: 7 days").record.every_s == 1);
    BOOST_TEST(scenario_from("length: 8 days").record.every_s == 3600);
    BOOST_TEST(scenario_from("length: 1 year").record.every_s == 3600);
    BOOST_TEST(scenario_from("{length: 1 year, record: {every: 10 min}}").record.every_s == 600);
    BOOST_TEST(scenario_from("length: 1 year").length_s == 365 * 86400);
    const Scenario both = scenario_from("record: {vcd: yes, netcdf: on}");
    BOOST_TEST(both.record.vcd);
    BOOST_TEST(both.record.netcdf);
}

BOOST_AUTO_TEST_CASE(site_and_roof) {
    const Scenario scenario = scenario_from(
        "site:\n"
        "  latitude: 55.5 deg\n"
        "  longitude: -3.2 deg\n"
        "  elevation: 120 m\n"
        "  utc_offset: 0 h\n"
        "  ground_albedo: 70 %\n"
        "  horizon:\n"
        "    - {azimuth: 90 deg, elevation: 12 deg}\n"
        "    - {azimuth: 180 deg, elevation: 5 deg}\n"
        "roof: {slope: 35 deg, azimuth: 200 deg}\n");
    const plant::Site& site = scenario.plant.site;
    BOOST_TEST(site.latitude_rad == plant::radians(55.5));
    BOOST_TEST(site.longitude_rad == plant::radians(-3.2));
    BOOST_TEST(site.elevation_m == 120.0);
    BOOST_TEST(site.utc_offset_s == 0);
    BOOST_TEST(site.ground_albedo == 0.7);
    BOOST_REQUIRE(site.horizon.size() == 2U);
    BOOST_TEST(site.horizon[1].elevation_rad == plant::radians(5));
    BOOST_TEST(scenario.plant.rows.at(0).slope_rad == plant::radians(35));
    BOOST_TEST(scenario.plant.rows.at(0).azimuth_rad == plant::radians(200));
    BOOST_TEST(scenario.sky.clear_day.site.latitude_rad == site.latitude_rad);
}

BOOST_AUTO_TEST_CASE(one_row_of_collectors_on_the_roof) {
    const Scenario scenario = scenario_from(
        "collectors: {kind: evacuated_tube, number: 3, area: 1.5 m2}\n"
        "roof: {slope: 50 deg}\n");
    BOOST_REQUIRE(scenario.plant.rows.size() == 1U);
    const plant::Row& row = scenario.plant.rows[0];
    BOOST_TEST(row.collectors_in_series == 3);
    BOOST_TEST(row.collector.area_m2 == 1.5);
    BOOST_TEST(row.collector.a1_w_m2k == 1.2);      // of the kind
    BOOST_TEST(row.collector.incidence.b0 == 0.0);  // tables count
    BOOST_TEST(row.slope_rad == plant::radians(50));
}

BOOST_AUTO_TEST_CASE(rows_on_two_planes_keep_their_own_data_sheets) {
    const Scenario scenario = scenario_from(
        "collectors:\n"
        "  - azimuth: 90 deg\n"
        "    peak_efficiency: 0.8\n"
        "    heat_loss: 3.5 W/(m2 K)\n"
        "    heat_loss_rise: 0.015 W/(m2 K2)\n"
        "    wind_loss: 0.5 J/(m3 K)\n"
        "    sky_radiation: 0.1\n"
        "    heat_capacity: 6.5 kJ/(m2 K)\n"
        "    content: 1.4 l\n"
        "    incidence_b0: 0.2\n"
        "    incidence_diffuse: 0.85\n"
        "    sensor_place: cold_end\n"
        "  - {azimuth: 270 deg, kind: flat_plate_basic}\n");
    BOOST_REQUIRE(scenario.plant.rows.size() == 2U);
    const plant::Collector& east = scenario.plant.rows[0].collector;
    BOOST_TEST(east.eta0 == 0.8);
    BOOST_TEST(east.a1_w_m2k == 3.5);
    BOOST_TEST(east.a2_w_m2k2 == 0.015);
    BOOST_TEST(east.a3_j_m3k == 0.5);
    BOOST_TEST(east.a4 == 0.1);
    BOOST_TEST(east.a5_j_m2k == 6500.0);
    BOOST_TEST(east.content_m3 == 1.4 / 1000.0);
    BOOST_TEST(east.incidence.b0 == 0.2);
    BOOST_TEST(east.incidence.diffuse == 0.85);
    BOOST_TEST((scenario.plant.rows[0].sensor_place == plant::CollectorSensorPlace::cold_end));
    BOOST_TEST(scenario.plant.rows[1].azimuth_rad == plant::radians(270));
    BOOST_TEST(scenario.plant.rows[1].collector.a1_w_m2k == 6.0);
    BOOST_TEST((scenario.plant.rows[1].sensor_place == plant::CollectorSensorPlace::hot_end));
}

BOOST_AUTO_TEST_CASE(tables_of_incidence_take_the_place_of_b0) {
    const Scenario scenario = scenario_from(
        "collectors:\n"
        "  incidence_along: [1, 1, 0.99, 0.98, 0.96, 0.92, 0.86, 0.7, 0.4, 0]\n"
        "  incidence_across: [1, 1.02, 1.05, 1.1, 1.2, 1.3, 1.3, 1.2, 0.8, 0]\n");
    const plant::IncidenceModifier& incidence = scenario.plant.rows.at(0).collector.incidence;
    BOOST_TEST(incidence.b0 == 0.0);
    BOOST_TEST(incidence.longitudinal[3] == 0.98);
    BOOST_TEST(incidence.transversal[5] == 1.3);
}

BOOST_AUTO_TEST_CASE(loop_pipes_pump_and_station) {
    const Scenario scenario = scenario_from(
        "loop:\n"
        "  glycol_share: 30 %\n"
        "  pressure: 1.8 bar\n"
        "  height: 11 m\n"
        "  hot_pipe: {length: 14 m}\n"  // written before, yet stronger than `pipes`
        "  pipes: {length: 11 m, outer_diameter: 15 mm, insulation: 13 mm}\n"
        "  station: {content: 0.8 l, heat_loss: 0.5 W/K}\n"
        "  pump: {full_flow: 2.4 l/min, least_level: 30 %, full_power: 45 W,\n"
        "         takes_speed_signal: yes, more_is_slower: yes}\n"
        "  pipe_cells: 8\n");
    const plant::Loop& loop = scenario.plant.loop;
    BOOST_TEST(loop.glycol_mass_share == 0.3);
    BOOST_TEST(loop.gauge_pressure_pa == 1.8e5);
    BOOST_TEST(loop.height_m == 11.0);
    BOOST_TEST(loop.hot_pipe.length_m == 14.0);
    BOOST_TEST(loop.cold_pipe.length_m == 11.0);
    BOOST_TEST(loop.hot_pipe.outer_diameter_m == 0.015);
    BOOST_TEST(loop.cold_pipe.insulation_m == 0.013);
    BOOST_TEST(loop.station_content_m3 == 0.0008);
    BOOST_TEST(loop.station_ua_w_k == 0.5);
    BOOST_TEST(loop.pump.full_flow_m3_s == 2.4 / 60000.0);
    BOOST_TEST(loop.pump.least_level == 0.3);
    BOOST_TEST(loop.pump.full_power_w == 45.0);
    BOOST_TEST(loop.pump.takes_speed_signal);
    BOOST_TEST(loop.pump.more_is_slower);
    BOOST_TEST(scenario.plant.pipe_cells == 8);
}

BOOST_AUTO_TEST_CASE(hydraulics_of_the_loop) {
    BOOST_TEST((scenario_from("length: 1 day").plant.loop.hydraulics == plant::Hydraulics::solved));
    const Scenario scenario = scenario_from(
        "loop:\n"
        "  hydraulics: given\n"
        "  check_valve: {opening: 15 hPa}\n"
        "  fittings: 35\n"
        "  pump: {shut_off_head: 4.5 m, free_flow: 30 l/min}\n"
        "store: {solar_coil: {bore: 20 mm}}\n");
    const plant::Loop& loop = scenario.plant.loop;
    BOOST_TEST((loop.hydraulics == plant::Hydraulics::given));
    BOOST_TEST(loop.check_valve_opening_pa == 1500.0);
    BOOST_TEST(loop.fittings_zeta == 35.0);
    BOOST_TEST(loop.pump.shut_off_head_m == 4.5);
    BOOST_TEST(loop.pump.free_flow_m3_s == 0.0005);
    BOOST_TEST(scenario.plant.store.solar_coil.bore_m == 0.02);
}

BOOST_AUTO_TEST_CASE(store_backup_and_circulation) {
    const Scenario scenario = scenario_from(
        "store:\n"
        "  {volume: 200 l, height: 1.4 m, heat_loss: 2.1 W/K, conductivity: 1.5 W/(m K),\n"
        "   solar_coil: {heat_transfer: 250 W/K, from_height: 6 %, to_height: 45 %},\n"
        "   start_top: 62 degC, start_bottom: 25 degC, layers: 20}\n"
        "backup:\n"
        "  kind: immersion\n"
        "  power: 3 kW\n"
        "  by_controller: no\n"
        "  own: {target: 52 degC, window_1_from: 05:30, window_1_until: 07:00}\n"
        "circulation: {fitted: yes, heat_loss: 8 W/K, window_2_from: 18:00}\n");
    const plant::Store& store = scenario.plant.store;
    BOOST_TEST(store.volume_m3 == 0.2);
    BOOST_TEST(store.height_m == 1.4);
    BOOST_TEST(store.side_ua_w_k == 2.1);
    BOOST_TEST(store.conductivity_w_mk == 1.5);
    BOOST_TEST(store.solar_coil.ua_w_k == 250.0);
    BOOST_TEST(store.solar_coil.from_height == 0.06);
    BOOST_TEST(scenario.start_temperatures.store_top_c == 62.0);
    BOOST_TEST(scenario.start_temperatures.store_bottom_c == 25.0);
    BOOST_TEST(scenario.plant.layers == 20);
    const plant::Backup& backup = scenario.plant.backup;
    BOOST_TEST((backup.kind == plant::BackupKind::immersion));
    BOOST_TEST(backup.power_w == 3000.0);
    BOOST_TEST(!backup.by_controller);
    BOOST_TEST(backup.own_target_c == 52.0);
    BOOST_TEST(backup.own_windows_s[0] == 19800);
    BOOST_TEST(backup.own_windows_s[1] == 25200);
    BOOST_TEST(scenario.plant.circulation.fitted);
    BOOST_TEST(scenario.plant.circulation.loop_ua_w_k == 8.0);
    BOOST_TEST(scenario.plant.circulation.running_s[2] == 64800);
}

BOOST_AUTO_TEST_CASE(household_of_people_profiles_or_single_draws) {
    const Scenario people =
        scenario_from("{seed: 7, household: {people: 3, litres_a_person: 40 l}}");
    BOOST_TEST((people.household.pattern.profile == plant::DrawProfile::people));
    BOOST_TEST(people.household.pattern.people == 3);
    BOOST_TEST(people.household.pattern.volume_m3_person_day == 0.04);
    BOOST_TEST(people.household.pattern.seed == 7U);
    const Scenario profile = scenario_from("household: {profile: XL, scale: 50 %}");
    BOOST_TEST((profile.household.pattern.profile == plant::DrawProfile::extra_large));
    BOOST_TEST(profile.household.pattern.scale == 0.5);
    const Scenario draws = scenario_from(
        "household:\n"
        "  draws:\n"
        "    - {at: 19:00, energy: 1.4 kWh, flow: 6 l/min, useful_from: 40 degC}\n"
        "    - {at: 07:05, energy: 2 kWh, peak: 55 degC}\n"
        "  absent:\n"
        "    - {from: 2026-08-01, until: 2026-08-15}\n"
        "tap: {mixer_set: 48 degC, comfort: 38 degC}\n"
        "mains: {mean: 11 degC, swing: 2 K, warmest_day: 220}\n");
    BOOST_TEST((draws.household.pattern.profile == plant::DrawProfile::none));
    BOOST_REQUIRE(draws.household.draws.size() == 2U);
    BOOST_TEST(draws.household.draws[0].at_s == 7 * 3600 + 300);  // sorted
    BOOST_TEST(draws.household.draws[0].energy_j == 7.2e6);
    BOOST_TEST(draws.household.draws[0].peak_c == 55.0);
    BOOST_TEST(draws.household.draws[1].flow_m3_s == 6.0 / 60000.0);
    BOOST_TEST(draws.household.draws[1].useful_from_c == 40.0);
    BOOST_REQUIRE(draws.household.pattern.away.size() == 1U);
    BOOST_TEST(draws.household.pattern.away[0].end_s - draws.household.pattern.away[0].first_s ==
               14 * 86400);
    BOOST_TEST(draws.plant.tap.mixer_set_c == 48.0);
    BOOST_TEST(draws.plant.tap.comfort_c == 38.0);
    BOOST_TEST(draws.mains.mean_c == 11.0);
    BOOST_TEST(draws.mains.amplitude_k == 2.0);
    BOOST_TEST(draws.mains.warmest_day == 220.0);
    BOOST_TEST((scenario_from("household: {draws: []}").household.pattern.profile ==
                plant::DrawProfile::none));
}

BOOST_AUTO_TEST_CASE(skies_of_three_kinds) {
    const Scenario clear = scenario_from(
        "start: 2026-04-15 12:00\n"
        "sky:\n"
        "  clear_day:\n"
        "    {air_least: -3 degC, air_most: 9 degC, turbidity: 2.5, wind: 4 m/s,\n"
        "     clouds: [{from: 13:10, lasts: 8 min, edge: 30 s, beam_share: 5 %},\n"
        "              {from: 09:00, diffuse_factor: 1.5, daily: yes}]}\n"
        "length: 2 days\n");
    BOOST_TEST((clear.sky.kind == SkyKind::clear_day));
    const plant::ClearDay& day = clear.sky.clear_day;
    BOOST_TEST(day.air_least_c == -3.0);
    BOOST_TEST(day.air_most_c == 9.0);
    BOOST_TEST(day.turbidity == 2.5);
    BOOST_TEST(day.wind_m_s == 4.0);
    BOOST_TEST(!day.sky_depression_k.has_value());
    BOOST_REQUIRE(day.clouds.size() == 2U);
    const CivilSeconds midnight = civil_seconds(2026, 4, 15);
    BOOST_TEST(day.clouds[0].from_s == midnight + 13 * 3600 + 600);
    BOOST_TEST(day.clouds[0].lasts_s == 480);
    BOOST_TEST(day.clouds[0].edge_s == 30);
    BOOST_TEST(day.clouds[0].beam_share == 0.05);
    BOOST_TEST(day.clouds[1].from_s == midnight + 33 * 3600);  // 09:00 comes after the start
    BOOST_TEST(day.clouds[1].daily);
    const Scenario year = scenario_from("sky: {seeded_year: {climate: colder}}");
    BOOST_TEST((year.sky.kind == SkyKind::seeded_year));
    BOOST_TEST((year.sky.seeded_year.climate == plant::Climate::colder));
    BOOST_TEST((scenario_from("sky: {seeded_year: }").sky.kind == SkyKind::seeded_year));
}

BOOST_AUTO_TEST_CASE(a_weather_file_is_seen_from_the_file_that_names_it) {
    const Folder folder;
    folder.write("sites/year.csv", "x");
    folder.write("sites/house.yaml", "sky: {weather: {file: year.csv, minute_clouds: yes}}\n");
    folder.write("run.yaml", "based_on: sites/house.yaml\ntitle: t\n");
    const Scenario scenario = read_scenario(folder.path / "run.yaml");
    BOOST_TEST((scenario.sky.kind == SkyKind::file));
    BOOST_TEST(scenario.sky.weather_file.path == folder.path / "sites/year.csv");
    BOOST_TEST(scenario.sky.weather_file.minute_clouds);
    BOOST_TEST(scenario.sky.weather_file.place.line == 1);
}

BOOST_AUTO_TEST_CASE(controller_and_its_clock) {
    const Scenario scenario = scenario_from(
        "controller:\n"
        "  stop_difference: 2.5 K\n"
        "  pump_drive: target_difference\n"
        "  window_1_from: 05:30\n"
        "  holiday_from: 2026-08-01\n"
        "  window_1_days: monday sunday\n"
        "  typed_in_flow: 180 l/h\n"
        "  clock: {offset: -60 min, drift: 20 s/day, is_set: no}\n");
    const firmware::Settings& settings = scenario.controller.settings;
    BOOST_TEST(settings[Setting::stop_difference] == 250);
    BOOST_TEST(settings[Setting::pump_drive] == 1);
    BOOST_TEST(settings[Setting::window_1_from] == 330);
    BOOST_TEST(settings[Setting::holiday_from] == civil_seconds(2026, 8, 1) / 86400);
    BOOST_TEST(settings[Setting::window_1_days] == 0b1000001);
    BOOST_TEST(settings[Setting::typed_in_flow] == 300);
    BOOST_TEST(scenario.controller.clock.offset_s == -3600);
    BOOST_TEST(scenario.controller.clock.drift_s_per_day == 20.0);
    BOOST_TEST(!scenario.controller.clock.is_set);
}

BOOST_AUTO_TEST_CASE(settings_of_the_site_follow_it_unless_given) {
    const std::string site =
        "loop: {pressure: 1.5 bar, height: 6 m, glycol_share: 50 %, pump: {full_flow: 4 l/min}}\n"
        "wiring: {second_collector: {type: platinum_1000}, pulse_meter: {pulses: 5 pulses/l}}\n";
    const firmware::Settings followed = scenario_from(site).controller.settings;
    BOOST_TEST(followed[Setting::site_pressure] == 150);
    BOOST_TEST(followed[Setting::collector_height] == 60);
    BOOST_TEST(followed[Setting::glycol_share] == 50);
    BOOST_TEST(followed[Setting::typed_in_flow] == 400);
    BOOST_TEST(followed[Setting::second_collector_fitted] == 1);
    BOOST_TEST(followed[Setting::station_return_fitted] == 0);
    BOOST_TEST(followed[Setting::pulses_per_litre] == 5);
    BOOST_TEST(followed[Setting::pump_drive] == 0);  // mains only: on and off
    const firmware::Settings given =
        scenario_from(site + "controller: {typed_in_flow: 2 l/min, second_collector_fitted: no}\n")
            .controller.settings;
    BOOST_TEST(given[Setting::typed_in_flow] == 200);
    BOOST_TEST(given[Setting::second_collector_fitted] == 0);
    BOOST_TEST(given[Setting::site_pressure] == 150);
}

BOOST_AUTO_TEST_CASE(wiring_of_each_sensor) {
    const Scenario scenario = scenario_from(
        "collectors: [{azimuth: 90 deg}, {azimuth: 270 deg}]\n"
        "wiring:\n"
        "  collector: {type: silicon_2k, offset: 1.5 K, lead_resistance: 10 ohm, contact: 60 %}\n"
        "  store_bottom: {leakage: 20 kohm, noise: 0.1 K, contact: 0 %}\n"
        "  store_top: {state: open}\n"
        "  second_collector: {type: ntc_10k, contact: 50 %}\n"
        "  swapped: [store_top, collector]\n"
        "  pulse_meter: {fitted: yes}\n"
        "  speed_wire_connected: no\n");
    BOOST_TEST((wire(scenario, Sensor::collector).type == SensorType::silicon_2k));
    BOOST_TEST(wire(scenario, Sensor::collector).offset_k == 1.5);
    BOOST_TEST(wire(scenario, Sensor::collector).lead_resistance_ohm == 10.0);
    BOOST_TEST((wire(scenario, Sensor::collector).plugged_into == Sensor::store_top));
    BOOST_TEST((wire(scenario, Sensor::store_top).plugged_into == Sensor::collector));
    BOOST_TEST((wire(scenario, Sensor::store_bottom).plugged_into == Sensor::store_bottom));
    BOOST_TEST(wire(scenario, Sensor::store_bottom).leakage_ohm == 20000.0);
    BOOST_TEST(wire(scenario, Sensor::store_bottom).noise_k == 0.1);
    BOOST_TEST((wire(scenario, Sensor::store_top).state == WireState::open));
    BOOST_TEST((wire(scenario, Sensor::station_return).type == SensorType::not_fitted));
    BOOST_TEST(scenario.plant.rows.at(0).sensor_contact == 0.6);
    BOOST_TEST(scenario.plant.rows.at(1).sensor_contact == 0.5);
    BOOST_TEST(scenario.plant.store.bottom_sensor_contact == 0.0);
    BOOST_TEST(scenario.plant.store.top_sensor_contact == 1.0);
    BOOST_TEST(scenario.wiring.pulse_meter.fitted);
    BOOST_TEST(!scenario.wiring.speed_wire_connected);
}

BOOST_AUTO_TEST_CASE(faults_and_moves_stand_in_one_list_by_time) {
    const Scenario scenario = scenario_from(
        "start: 2026-04-15 06:00\n"
        "length: 2 days\n"
        "moves:\n"
        "  - {hand: pump, to: off, at: 14:00}\n"
        "  - {setting: start_difference, to: 10 K, at: 2026-04-16 13:00:05}\n"
        "  - {wire: mains_power, to: off, at: 05:00}\n"  // next morning
        "faults:\n"
        "  - name: scale\n"
        "    moves:\n"
        "      - {lever: coil_fouling, to: 30 %, over: 2 h}\n"
        "      - {wire: collector.leakage, to: 20 kohm, at: 07:00}\n"
        "      - {wire: collector, to: shorted, at: start}\n"
        "      - {lever: pump_healthy, to: no, at: 08:00}\n");
    BOOST_REQUIRE(scenario.moves.size() == 7U);
    const CivilSeconds midnight = civil_seconds(2026, 4, 15);
    const Move& scale = scenario.moves[0];
    BOOST_TEST(scale.at_s == midnight + 6 * 3600);
    BOOST_TEST(scale.over_s == 7200);
    BOOST_TEST(scale.fault == "scale");
    BOOST_TEST(scale.name == "coil_fouling");
    BOOST_TEST(scale.place.line == 10);
    BOOST_TEST(std::get<LeverMove>(scale.what).to == 0.3);
    const auto& shorted = std::get<WireMove>(scenario.moves[1].what);
    BOOST_TEST((shorted.sensor == Sensor::collector && shorted.field == WireField::state));
    BOOST_TEST(shorted.to == 2.0);
    BOOST_TEST(std::get<WireMove>(scenario.moves[2].what).to == 20000.0);
    BOOST_TEST(std::get<LeverMove>(scenario.moves[3].what).to == 0.0);
    BOOST_TEST((std::get<HandMove>(scenario.moves[4].what).to == firmware::HandRequest::off));
    BOOST_TEST(scenario.moves[4].fault == "");
    const auto& power = std::get<OtherWireMove>(scenario.moves[5].what);
    BOOST_TEST((power.wire == OtherWire::mains_power && !power.connected));
    BOOST_TEST(scenario.moves[5].at_s == midnight + 29 * 3600);
    BOOST_TEST(std::get<SettingMove>(scenario.moves[6].what).to == 1000);
    BOOST_TEST(scenario.moves[6].at_s == midnight + 86400 + 13 * 3600 + 5);
}

BOOST_AUTO_TEST_CASE(based_on_merges_maps_and_replaces_lists) {
    const Folder folder;
    folder.write("sites/house.yaml",
                 "title: house\n"
                 "store: {volume: 200 l, room: 15 degC}\n"
                 "collectors: [{azimuth: 90 deg}, {azimuth: 270 deg}]\n"
                 "household: {profile: L}\n");
    folder.write("sites/summer.yaml", "based_on: house.yaml\nlength: 3 days\n");
    folder.write("run.yaml",
                 "based_on: sites/summer.yaml\n"
                 "title: run\n"
                 "store: {volume: 250 l}\n"
                 "collectors: [{azimuth: 180 deg}]\n"
                 "household: {people: 2}\n");
    const Scenario scenario = read_scenario(folder.path / "run.yaml");
    BOOST_TEST(scenario.name == "run");
    BOOST_TEST(scenario.title == "run");
    BOOST_TEST(scenario.length_s == 3 * 86400);
    BOOST_TEST(scenario.plant.store.volume_m3 == 0.25);
    BOOST_TEST(scenario.plant.store.room_c == 15.0);
    BOOST_TEST(scenario.plant.rows.size() == 1U);
    BOOST_TEST((scenario.household.pattern.profile == plant::DrawProfile::people));
    BOOST_TEST(scenario.household.pattern.people == 2);
}

BOOST_AUTO_TEST_CASE(any_map_may_be_based_on_a_part) {
    const Folder folder;
    folder.write("sites/big_store.yaml", "volume: 500 l\nheight: 1.9 m\n");
    folder.write("sites/fault.yaml", "name: leak\nmoves: [{lever: flow_factor, to: 0.5}]\n");
    folder.write("run.yaml",
                 "store: {based_on: sites/big_store.yaml, height: 1.7 m}\n"
                 "faults:\n"
                 "  - based_on: sites/fault.yaml\n");
    const Scenario scenario = read_scenario(folder.path / "run.yaml");
    BOOST_TEST(scenario.plant.store.volume_m3 == 0.5);
    BOOST_TEST(scenario.plant.store.height_m == 1.7);
    BOOST_REQUIRE(scenario.moves.size() == 1U);
    BOOST_TEST(scenario.moves[0].fault == "leak");
}

BOOST_AUTO_TEST_CASE(set_lays_values_over_the_file) {
    const Scenario scenario = scenario_from(
        "store: {volume: 200 l}\n"
        "collectors: [{number: 1}, {number: 2}]\n"
        "sky: {clear_day: {air_most: 20 degC}}\n",
        {"store.volume=300 l", "controller.start_difference=9 K", "collectors.1.number=4",
         "sky.seeded_year.climate=warmer", "wiring.swapped=[collector, store_bottom]",
         "title=a = b"});
    BOOST_TEST(scenario.plant.store.volume_m3 == 0.3);
    BOOST_TEST(scenario.controller.settings[Setting::start_difference] == 900);
    BOOST_TEST(scenario.plant.rows.at(0).collectors_in_series == 1);
    BOOST_TEST(scenario.plant.rows.at(1).collectors_in_series == 4);
    BOOST_TEST((scenario.sky.kind == SkyKind::seeded_year));
    BOOST_TEST((wire(scenario, Sensor::collector).plugged_into == Sensor::store_bottom));
    BOOST_TEST(scenario.title == "a = b");
}

BOOST_AUTO_TEST_CASE(every_scenario_on_the_shelf_reads) {
    int count = 0;
    const std::filesystem::path shelf = std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios";
    for (const auto& entry : std::filesystem::recursive_directory_iterator(shelf)) {
        const std::string folder = entry.path().parent_path().filename().string();
        if (entry.path().extension() != ".yaml" || folder == "proving" || folder == "checks" ||
            folder == "bands" || folder == "lessons")
            continue;
        ++count;
        BOOST_TEST_CONTEXT(entry.path().string())
        BOOST_CHECK_NO_THROW((void)read_scenario(entry.path()));
    }
    BOOST_TEST(count > 0);
}

BOOST_AUTO_TEST_SUITE_END()
}  // namespace reading
