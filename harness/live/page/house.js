// SPDX-License-Identifier: MIT
// The house, cut open: sky, roof, pipes, station, store, and the figures where one would read them.

import { svg, el, set_text } from "./dom.js";
import { figure } from "./numbers.js";
import { heat_colour, coldest_c, hottest_c } from "./colour.js";
import { Sky } from "./sky.js";
import { Roof, walls } from "./roof.js";
import { Station, cold_x, hot_x } from "./station.js";
import { Store, store } from "./store.js";
import { Pipe, animate, motion_is_unwanted, speed_m_s } from "./pipes.js";
import { Tag } from "./tag.js";

/// signal, caption, place: where a person would look for that figure.
const places = [
  ["sun_row_1_w_m2", "sun on the glass", { x: 64, y: 292, kind: "outside" }],
  ["collector_reading_c", "collector", { x: 244, y: 232, anchor: "end", kind: "large outside" }],
  ["second_collector_reading_c", "other roof", { x: 600, y: 232, kind: "outside" }],
  ["steam_l", "steam", { x: 410, y: 164, anchor: "end", kind: "sometimes outside" }],
  ["air_c", "air", { x: 664, y: 284, kind: "outside" }],
  ["station_cold_c", "cold pipe", { x: 192, y: 434, anchor: "end" }],
  ["station_hot_c", "hot pipe", { x: 319, y: 434 }],
  ["gauge_bar", "", { x: 257, y: 492, anchor: "middle", kind: "small" }],
  ["flow_lpm", "flow", { x: 240, y: 550 }],
  ["can_l", "", { x: 143, y: 590, kind: "small" }],
  ["store_top_reading_c", "top", { x: 558, y: 444 }],
  ["store_bottom_reading_c", "bottom", { x: 540, y: 572 }],
  ["tap_c", "tap", { x: 652, y: 501 }],
];

const narrow = matchMedia("(max-width: 640px)");  // a phone sees the house closer, with less of its hills

function scale() {
  const stops = Array.from({ length: 11 }, (_, i) =>
    svg("rect", { x: 430 + i * 20, y: 615, width: 20.5, height: 13, fill: heat_colour(i * 10) }));
  return svg("g", { class: "scale", "aria-hidden": "true" }, ...stops,
    svg("text", { class: "earth-text", x: 422, y: 627, "text-anchor": "end", text: `${coldest_c}` }),
    svg("text", { class: "earth-text", x: 657, y: 627, text: `≥ ${hottest_c} °C` }));
}

export class House {
  constructor(opened, open_card) {
    this.about = opened.house;
    const names = new Map(opened.signals.map((s) => [s.name, s]));
    const reach = this.about.hot_pipe_m ?? 12;
    this.sky = new Sky();
    this.roof = new Roof(this.about.rows ?? []);
    this.station = new Station(this.about);
    this.store = new Store(this.about, open_card);
    this.hot = new Pipe([`M372 216 382 238V308Q382 322 368 322H${hot_x + 14}Q${hot_x} 322 ${hot_x} 336V424`,
      `M${hot_x} 424V${this.store.inlet_y - 8}Q${hot_x} ${this.store.inlet_y} ${hot_x + 8} ${this.store.inlet_y}H${store.x}`], reach);
    this.cold = new Pipe([`M${store.x} ${this.store.outlet_y}H${cold_x + 10}Q${cold_x} ${this.store.outlet_y} ${cold_x} ${this.store.outlet_y - 10}V424`,
      `M${cold_x} 424V344Q${cold_x} 334 ${cold_x - 6} 328L${lower_end(this.roof)}`], this.about.cold_pipe_m ?? reach);
    this.tags = places.filter(([name]) => names.has(name)).map(([name, caption, place]) => new Tag(names.get(name), caption, place, open_card));
    this.node = svg("svg", { class: "house", role: "group", "aria-label": "Drawing of the house. Every figure in it opens a card; the list of all values says the same in words." },
      this.sky.node, walls(), ...other_side(this.roof), this.hot.node, this.cold.node, this.roof.node, this.store.node, this.station.node, scale(), ...this.tags.map((t) => t.node));
    const fit = () => this.node.setAttribute("viewBox", narrow.matches ? "50 34 724 602" : "0 0 840 640");
    fit();
    narrow.addEventListener("change", fit);
    const stop = animate((seconds) => {
      this.hot.tick(seconds);
      this.cold.tick(seconds);
      this.station.tick(seconds);
    });
    this.close = () => {
      stop();
      narrow.removeEventListener("change", fit);
    };
  }

  /// now(name): the value at this moment; second: of the day.
  update(now, second, cloud_share) {
    this.sky.update(second, this.roof.rows[0], now("sun_row_1_w_m2"), cloud_share);
    this.node.classList.toggle("by-night", this.sky.dark);
    const flows = Math.abs(now("flow_lpm") ?? 0) > 0.02;
    this.roof.update((i) => now(`row_${i + 1}_outlet_c`), (i) => (flows ? now("station_cold_c") : now(`row_${i + 1}_outlet_c`)), now("steam_l"));
    this.hot.colour([flows ? now("row_1_outlet_c") : now("station_hot_c"), now("station_hot_c")]);
    this.cold.colour([now("station_cold_c")]);
    this.speed_m_s = speed_m_s(now("flow_lpm"), this.about.bore_mm);
    this.hot.run(this.speed_m_s);
    this.cold.run(this.speed_m_s);
    this.station.update(now);
    this.store.update(now);
    for (const tag of this.tags) {
      const value = now(tag.signal.name);
      tag.update(value);
      if (tag.node.classList.contains("sometimes")) tag.node.style.display = value > 0.01 ? "" : "none";
    }
  }

  /// What the moving dots mean, in words.
  write_speed(node, pace) {
    const metres = figure(Math.abs(this.speed_m_s), 2);
    if (Math.abs(this.speed_m_s) < 0.001) return set_text(node, "The fluid stands still.");
    const manner = motion_is_unwanted() ? "" : pace > 1 ? ", drawn at its true speed (×1) though time runs faster" : ", drawn at its true speed";
    return set_text(node, `The fluid moves at ${metres} m/s${this.speed_m_s < 0 ? " backwards" : ""}${manner}.`);
  }
}

/// Pipes to collectors on the other side of the roof. How the flow divides is not known here, so
/// nothing moves in them.
function other_side(roof) {
  if (!roof.rows.some((row) => row.right)) return [];
  return [svg("path", { class: "side-pipe", d: `M382 300H470V232M${cold_x} 352H${roof.rows.every((row) => row.right) ? 640 : 652}V322` })];
}

/// Where the cold pipe meets the lower end of the lowest collector on the left.
function lower_end(roof) {
  const area = roof.rows.filter((row) => !row.right).reduce((sum, row) => sum + (row.area_m2 ?? 4), 0);
  const along = 54 + Math.min(240, 20 + area * 46) - 8;
  const x = 420 - along * 0.8983;
  const y = 204 + along * 0.4393;
  return `${(x + 14).toFixed(0)} ${(y + 6).toFixed(0)} ${(x - 6).toFixed(0)} ${(y - 12).toFixed(0)}`;
}

/// A switch between two benches that run side by side.
export function bench_choice(benches, chosen, choose) {
  if (benches < 2) return null;
  return el("fieldset", { class: "segments" }, el("legend", { class: "unseen", text: "Which of the two benches is drawn" }),
    ...["This bench", "Other setting"].map((word, i) => {
      const input = el("input", { type: "radio", name: "drawn", value: i, on: { change: () => choose(i) } });
      input.checked = i === chosen;
      return el("label", {}, input, el("span", { text: word }));
    }));
}
