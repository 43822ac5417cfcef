// SPDX-License-Identifier: MIT
// Short names of what is shown, and where a person would read it. Common practice, no source.

/// name: [short name, where it is measured]
const known = {
  collector_reading_c: ["Collector", "Sensor in a pocket of the absorber, at its hot end."],
  second_collector_reading_c: ["Second collector", "Sensor in the absorber on the other side of the roof."],
  store_bottom_reading_c: ["Store bottom", "Sensor in a pocket at the height of the solar coil."],
  store_top_reading_c: ["Store top", "Sensor in a pocket in the part that the backup heats."],
  station_return_reading_c: ["Cold pipe, sensor", "Sensor strapped to the cold pipe at the pump station."],
  difference_k: ["Difference that decided", "Worked out by the controller: collector minus store bottom, as it stood when the reason last changed."],
  threshold_k: ["Held against", "The figure that the controller compares the difference with."],
  pump_speed_pct: ["Pump speed", "What the controller asks of the pump. It is not proof of flow."],
  pump_relay: ["Pump contact", "The controller's contact for the pump. Closed does not mean that anything flows."],
  backup_relay: ["Backup contact", "The controller's contact for the boiler or the immersion heater."],
  pump_reason: ["Why the pump", "The controller's own reason."],
  backup_reason: ["Why the backup", "The controller's own reason."],
  heat_counter_kwh: ["Heat counter", "Worked out by the controller from flow and two temperatures; only as true as the flow it is given."],
  station_hot_c: ["Hot pipe", "Dial thermometer in the hot pipe at the pump station."],
  station_cold_c: ["Cold pipe", "Dial thermometer in the cold pipe at the pump station."],
  flow_lpm: ["Flow", "Sight glass at the pump station."],
  gauge_bar: ["Gauge", "Pressure gauge at the pump station, above the atmosphere."],
  pump_powered: ["Mains at the pump", "A voltage tester at the pump's terminals, used by someone qualified."],
  pump_turning: ["Pump turns", "Heard and felt at the pump."],
  tap_c: ["Tap", "Thermometer in the stream at the tap, after the mixing valve. Above 48 °C it scalds in minutes, at 60 °C in seconds."],
  tap_flow_lpm: ["Flow at the tap", "A bucket and a watch at the tap."],
  air_c: ["Air", "Thermometer in the shade outside."],
  top_bar: ["Pressure at the top", "Nobody measures up there: gauge less the height of the fluid."],
  can_l: ["In the can", "The marked can under the safety valve's discharge pipe. What is in it came out scalding."],
  tundish_l: ["Through the tundish", "The open funnel under the store's own safety valves."],
  lost_fluid_l: ["Fluid lost", "Only the bench knows; on site it shows as pressure missing at the gauge."],
  steam_l: ["Steam in the loop", "Only the bench knows; on site a loop that cracks and a gauge that climbs. Stay away from the pipes."],
  gas_l: ["Air in the loop", "Only the bench knows; on site a gurgle at the station."],
  ice_share: ["Ice in the loop", "Only the bench knows until it thaws and leaks."],
  absorbed_w: ["Taken up by the glass", "Only the bench knows."],
  collector_loss_w: ["Lost by the collector", "Only the bench knows."],
  pipe_loss_w: ["Lost by the pipes", "Only the bench knows."],
  to_store_w: ["Heat into the store", "Only the bench knows; estimated from flow and the station's two thermometers."],
  store_loss_w: ["Lost by the store", "Only the bench knows."],
  backup_w: ["Backup heat", "The boiler's own meter, if it has one."],
  tapped_w: ["Heat at the taps", "Only the bench knows."],
  pump_w: ["Pump, electricity", "A plug-in power meter."],
};

const numbered = [
  [/^store_layer_(\d+)_c$/, (n) => [`Store, layer ${+n} from below`, "Nobody has a sensor here: the water at this height of the store."]],
  [/^sun_row_(\d+)_w_m2$/, (n) => [+n === 1 ? "Sun on the glass" : `Sun on row ${+n}`, "A hand-held sun meter laid on the glass."]],
  [/^row_(\d+)_outlet_c$/, (n) => [`Row ${+n}, outlet`, "Fluid where it leaves the row on the roof."]],
  [/^row_(\d+)_hottest_c$/, (n) => [`Row ${+n}, hottest`, "The hottest place of the absorber."]],
];

function entry(signal) {
  if (known[signal.name]) return known[signal.name];
  for (const [pattern, words] of numbered) {
    const found = pattern.exec(signal.name);
    if (found) return words(found[1]);
  }
  return [signal.meaning, ""];
}

export const short_name = (signal) => entry(signal)[0];
export const where_measured = (signal) => entry(signal)[1];

export const who_sees = {
  customers_log: "Stands in the log that a customer can send",
  read_on_site: "Read by eye on the visit",
  bench_only: "Only the bench knows it",
};

const degrees_note = " K stands for degrees of difference: 5 K is the step from 20 to 25 °C.";
export const note_on_unit = (unit) => (unit === "K" ? degrees_note.trim() : "");

/// Groups of what can be tampered with: [heading, caution, [name, label, word when 0, word when 1]...]
export const tamper_groups = [
  ["In the loop", "On site: never loosen anything on a hot or pressurised loop. Wait until the collector is below 60 °C.", [
    ["flow_factor", "Flow, against what it was set to"],
    ["loop_valve_opening", "Shut-off valve, how far open"],
    ["strainer_clogging", "Dirt in the strainer"],
    ["check_valve_leak", "Check valve leaks backwards"],
    ["check_valve_held_open", "Check valve pushed open", "no", "yes"],
    ["fluid_thickening", "Thickness of the fluid (1 is fresh)"],
    ["lost_fluid_m3", "Fluid missing from the loop"],
    ["loop_leak", "Leak at a joint"],
    ["vessel_precharge_factor", "Gas in the expansion vessel (1 is right)"],
    ["vessel_waterlogged_share", "Water on the vessel's gas side"],
    ["vessel_cap_closed", "Cap valve of the vessel", "open", "shut"],
    ["relief_valve_reseat", "Safety valve shuts again at (share)"],
    ["relief_valve_weeping", "Safety valve weeps once it has lifted"],
    ["hot_pipe_loss_factor", "Heat loss of the hot pipe (1 is insulated)"],
    ["cold_pipe_loss_factor", "Heat loss of the cold pipe (1 is insulated)"],
    ["hot_pipe_convection", "Heat climbs inside the hot pipe"],
    ["pump_healthy", "Pump", "seized", "sound"],
    ["isolator_closed", "Isolating switch of the pump", "off", "on"],
    ["high_limit_closed", "High-limit stat", "tripped", "closed"],
  ]],
  ["At the roof", "On site: no climbing as a first step. Most of this can be told from below.", [
    ["glass_clearness", "Clear glass (dirt, snow, shade take from it)"],
    ["collector_pipes_crossed", "Hot and cold pipe at the roof", "right", "crossed"],
    ["row_1_flow_factor", "Share of flow through row 1"],
    ["row_2_flow_factor", "Share of flow through row 2"],
    ["row_3_flow_factor", "Share of flow through row 3"],
    ["row_4_flow_factor", "Share of flow through row 4"],
    ["row_5_flow_factor", "Share of flow through row 5"],
    ["roof_vent_open", "Vent on the roof", "shut", "open"],
    ["top_draws_air", "Joint at the top draws air", "no", "yes"],
    ["trapped_air_m3", "Air left at the top"],
  ]],
  ["At the store and the taps", "On site: water above 60 °C scalds in seconds; measure at the tap after any change.", [
    ["coil_fouling", "Coil transfer left by scale"],
    ["coil_ports_crossed", "Solar coil fed from", "its upper end", "its lower end"],
    ["store_loss_factor", "Heat loss of the store's jacket (1 is sound)"],
    ["connection_loss_factor", "Heat that climbs out by connections (1 is sound)"],
    ["inlet_jet", "Cold inlet stirs the store"],
    ["circulation_forced", "Hot-water circulation runs day and night", "no", "yes"],
    ["potable_vessel_healthy", "The store's own expansion vessel", "failed", "sound"],
    ["backup_blocked", "Backup cannot heat", "it can", "blocked"],
    ["backup_forced", "Backup heats whatever is asked", "no", "yes"],
    ["mixer_set_shift_k", "Mixing valve has drifted by"],
    ["mixer_stuck_share", "Mixing valve stuck at this hot share (below 0: works)"],
  ]],
  ["Sensors and wires", "On site: isolate and prove dead before opening the controller. Sensor plugs can be measured from outside.", [
    ["collector_sensor_contact", "Collector sensor home in its pocket"],
    ["second_collector_sensor_contact", "Second collector sensor home in its pocket"],
    ["store_bottom_sensor_contact", "Lower store sensor home in its pocket"],
    ["store_top_sensor_contact", "Upper store sensor home in its pocket"],
    ["speed_profile_swapped", "Pump takes the speed signal", "the right way", "the other way round"],
  ]],
];

/// Levers that have a place of their own among the hands.
export const levers_of_the_hands = new Set(["open_tap", "passing_cloud"]);

/// A fill for the band of reasons: sun, rest, guard (something bars the pump), or hand.
export function reason_family(word) {
  const text = String(word);
  if (/^(collecting|in_window|least_run|sampling|exercising|sanitising)$/.test(text)) return "works";
  if (/hand_/.test(text)) return "hand";
  if (/lost|cut_out|ceiling|frost|shedding|full/.test(text)) return "guards";
  return "rests";
}

export const setting_groups = [
  ["Start and stop", /^(start_difference|stop_difference|least_run_time|least_rest_time)$/],
  ["Pump speed", /^(pump_drive|target_|start_boost|least_level|level_|speed_signal)/],
  ["Store and collector limits", /^(store_|collector_(cut_out|release)|day_shedding|night_shedding|holiday)/],
  ["Frost and test runs", /^(frost|sampling|exercise)/],
  ["Backup heat", /^(backup|window|solar_first|clock|summer)/],
  ["Heat against legionella", /^sanitise/],
  ["Heat counter and the loop", /./],
];

const hot_parts = "Hot parts: pipe, pump and fittings can be above 100 °C. Do not touch, and do not open anything.";
const cautions = {
  collector_reading_c: "No measurement on the roof as a first step; ohms at the sensor's plug tell as much.",
  station_hot_c: hot_parts,
  row_1_outlet_c: hot_parts,
  steam_l: "Steam burns. Let a boiling loop cool by itself; a sound one heals in the evening.",
  gauge_bar: "The safety valve lifts at 6 bar and lets out scalding fluid through its pipe into the can. Never shut it off, never plug its pipe.",
  can_l: "What the safety valve lets out can be above 100 °C: metal pipe, marked can, and keep clear of it. Fluid goes back to a can, never to a drain.",
  tap_c: "Set and test the mixing valve with a thermometer at the tap; small children and old people scald first.",
  store_top_reading_c: "Above 60 °C at the top no tap may be without a mixing valve. Too cool for too long, legionella grow: the local rule goes first.",
  pump_powered: "Mains: only someone qualified measures here, after isolating and proving dead.",
  pump_relay: "Mains behind the cover: isolate and prove dead first.",
  tundish_l: "Discharge of the store's own valves is scalding; those valves are for licensed people only.",
};
export const caution_for = (signal) => cautions[signal.name] ?? "";

/// Names of settings where the trade's word is not the setting's own.
const setting_names = {
  start_difference: "Start difference (on)", stop_difference: "Stop difference (off)", store_limit: "Store maximum", store_limit_release: "Store collects again after cooling by",
  store_ceiling: "Store never above", collector_cut_out: "Collector too hot: pump barred above", collector_release: "Collector: pump free again below",
  day_shedding: "Cooling the collector by day", day_shedding_start: "Cooling by day begins at", night_shedding: "Giving heat back at night", night_shedding_target: "Giving heat back down to",
  sampling: "Look-and-see runs", sampling_every: "Look-and-see run every", sampling_for: "Look-and-see run lasts", sampling_from: "Look-and-see runs from", sampling_until: "Look-and-see runs until",
  sanitise: "Legionella heat-up", sanitise_temperature: "Legionella heat-up to", sanitise_hold: "Legionella heat-up: hold for", sanitise_every: "Legionella heat-up every", sanitise_from: "Legionella heat-up from",
  sanitise_longest: "Legionella heat-up given up after", sanitise_sensor: "Legionella heat-up: sensor that must show it", least_level: "Least pump speed", level_gain: "Speed change for each K", level_reset_time: "Speed reset time", start_boost_time: "Full speed after each start",
  backup_hysteresis: "Backup: cools by before it starts again", tally_source: "Heat counter: flow from", exercise_after: "Turn an idle pump after", exercise_for: "Turn an idle pump for",
};
export const setting_name = (setting) => setting.label ?? setting_names[setting.name] ?? setting.name.replaceAll("_", " ");
