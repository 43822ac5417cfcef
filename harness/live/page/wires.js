// SPDX-License-Identifier: MIT
// The wires in plain words. A bench says what it did to a wire as an event; how a wire began it does
// not say, so a wire nobody has touched counts as it was.

const sensors = { collector: "Collector sensor", second_collector: "Second collector sensor", store_bottom: "Lower store sensor", store_top: "Upper store sensor", station_return: "Cold pipe sensor" };
const fields = {
  state: ["cable", "sound"], type: ["what hangs on the cable", null], offset: ["reads too high by", "0 K", -50, 50],
  lead_resistance: ["resistance added by cable or clip", "0 ohm", 0, 1000], leakage: ["damp across the cable (0: dry)", "0 kohm", 0, 1000],
  noise: ["readings jump about by", "0 K", 0, 10], plugged_into: ["is plugged into the socket of", null],
};
const others = { mains_power: ["Mains at the controller", "yes"], speed_wire: ["Speed wire to the pump", "yes"], pulse_meter: ["Wire of the flow meter", "yes"], pump_bridge: ["Pump bridged to permanent mains", "no"] };
const element_names = { platinum_1000: "platinum, 1000 Ω", ntc_10k: "NTC, 10 kΩ", silicon_2k: "silicon, 2 kΩ", not_fitted: "nothing" };
const flags = { connected: "yes", cut: "no" };

const plain = (word) => element_names[word] ?? sensors[word]?.replace(" sensor", "") ?? String(word).replaceAll("_", " ");

/// Whether the wire belongs to something that this house has.
export function is_fitted(wire, has_signal) {
  const sensor = wire.name.split(".")[0];
  return !sensors[sensor] || has_signal(`${sensor}_reading_c`);
}

/// How a wire is shown: {label, choices or null, healthy, least, most, value_of(event's word)}.
export function wire_words(wire) {
  const [sensor, field] = wire.name.split(".");
  if (others[sensor]) {
    const [label, healthy] = others[sensor];
    const bridge = sensor === "pump_bridge";
    return { label, healthy, choices: [["yes", bridge ? "bridged" : "connected"], ["no", bridge ? "not bridged" : "cut"]], value_of: (word) => flags[word] ?? word };
  }
  const [what, healthy, least, most] = fields[field ?? "state"] ?? [field, null];
  return {
    label: `${sensors[sensor] ?? plain(sensor)}: ${what}`, least, most,
    healthy: healthy ?? (field === "plugged_into" ? sensor : wire.value ?? wire.words?.[0] ?? "0"),
    choices: wire.words?.length ? wire.words.map((w) => [w, plain(w)]) : null,
    value_of: (word) => (wire.words?.length || !Number.isFinite(Number(word)) ? word : `${word} ${wire.unit}`),
  };
}
