// SPDX-License-Identifier: MIT
// The pump station: pump, two thermometers, gauge, safety valve with its can, expansion vessel.
// Symbols after ISO 14617 where it has one: pump, valve, vessel with membrane.

import { svg, set_attribute } from "./dom.js";
import { heat_colour } from "./colour.js";

export const cold_x = 205;
export const hot_x = 305;
const gauge = { x: 255, y: 446, r: 24 };
const full_scale_bar = 8;

function thermometer(x, y) {
  const column = svg("rect", { class: "mercury", x: x - 2, y: y - 18, width: 4, height: 26 });
  return {
    node: svg("g", {}, svg("rect", { class: "glass-tube", x: x - 5, y: y - 24, width: 10, height: 36, rx: 5 }), column,
      svg("circle", { class: "mercury-bulb", cx: x, cy: y + 10, r: 6 })),
    column,
  };
}

function gauge_face(relief_bar) {
  const ticks = [];
  for (let bar = 0; bar <= full_scale_bar; bar += 1) {
    const a = gauge_angle(bar);
    ticks.push(`M${gauge.x + 18 * Math.sin(a)} ${gauge.y - 18 * Math.cos(a)}L${gauge.x + 21 * Math.sin(a)} ${gauge.y - 21 * Math.cos(a)}`);
  }
  const lift = gauge_angle(relief_bar);
  return svg("g", {}, svg("circle", { class: "gauge-face", cx: gauge.x, cy: gauge.y, r: gauge.r }),
    svg("path", { class: "gauge-ticks", d: ticks.join("") }),
    svg("path", { class: "gauge-lift", d: `M${gauge.x + 13 * Math.sin(lift)} ${gauge.y - 13 * Math.cos(lift)}L${gauge.x + 22 * Math.sin(lift)} ${gauge.y - 22 * Math.cos(lift)}` }));
}

const gauge_angle = (bar) => ((-130 + (260 * Math.min(full_scale_bar, Math.max(0, bar))) / full_scale_bar) * Math.PI) / 180;

export class Station {
  constructor(house) {
    this.cold = thermometer(cold_x, 424);
    this.hot = thermometer(hot_x, 424);
    this.needle = svg("path", { class: "gauge-needle", d: `M${gauge.x} ${gauge.y + 5}V${gauge.y - 17}` });
    this.impeller = svg("path", { class: "impeller", d: "M0-15 13 8H-13Z" });
    this.pump = svg("g", { class: "pump", transform: `translate(${cold_x} 512)` },
      svg("circle", { class: "pump-case", r: 21 }), this.impeller,
      svg("path", { class: "pump-ring", d: "M0-27a27 27 0 0 1 27 27" }), svg("path", { class: "pump-ring", d: "M0 27a27 27 0 0 1-27-27" }));
    this.ring_turn = 0;
    this.level = svg("rect", { class: "can-fluid", x: 113, width: 22, y: 588, height: 0 });
    this.node = svg("g", { "aria-hidden": "true" },
      svg("path", { class: "thin-pipe", d: `M${cold_x} 466H140M132 466H124V570` }),
      svg("path", { class: "thin-pipe", d: `M${cold_x} 446H234` }),
      svg("path", { class: "thin-pipe", d: `M164 466V488` }),
      svg("rect", { class: "vessel", x: 144, y: 486, width: 40, height: 62, rx: 19 }),
      svg("path", { class: "membrane", d: "M145 520c11 11 27-8 38 0" }),
      svg("path", { class: "valve", d: "M126 458 146 474V458L126 474Z" }), svg("path", { class: "valve-spring", d: "M136 466v-12m-6 0h12m-12-4h12" }),
      svg("path", { class: "can", d: "M111 562V591H137V562" }), this.level,
      gauge_face(house.relief_valve_bar ?? 6), this.needle, this.pump, this.cold.node, this.hot.node);
  }

  update(now) {
    const bar = now("gauge_bar");
    if (Number.isFinite(bar)) {
      set_attribute(this.needle, "transform", `rotate(${((gauge_angle(bar) * 180) / Math.PI).toFixed(1)} ${gauge.x} ${gauge.y})`);
    }
    set_column(this.cold.column, now("station_cold_c"));
    set_column(this.hot.column, now("station_hot_c"));
    const can = Math.min(1, (now("can_l") ?? 0) / 10);
    set_attribute(this.level, "height", (28 * can).toFixed(1));
    set_attribute(this.level, "y", (588 - 28 * can).toFixed(1));
    this.turning = Boolean(now("pump_turning"));
    this.pump.classList.toggle("turning", this.turning);
    this.share = this.turning ? 0.3 + 0.7 * ((now("pump_speed_pct") ?? 100) / 100) : 0;
  }

  /// The ring about the pump turns while it turns: a sign, not a measure.
  tick(seconds) {
    if (!this.turning) return;
    this.ring_turn = (this.ring_turn + 200 * this.share * seconds) % 360;
    for (const ring of this.pump.querySelectorAll(".pump-ring")) set_attribute(ring, "transform", `rotate(${this.ring_turn.toFixed(0)})`);
  }
}

function set_column(column, celsius) {
  const height = 26 * Math.min(1, Math.max(0.06, (celsius ?? 0) / 120));
  set_attribute(column, "height", height.toFixed(1));
  set_attribute(column, "y", (432 - height).toFixed(1));
  set_attribute(column, "fill", heat_colour(celsius));
}
