// SPDX-License-Identifier: MIT
// Pipes whose fluid is seen to move at its true speed: metres a second from flow and bore, metres of
// drawing from the true length. Time lapse does not hurry it.

import { svg, set_attribute } from "./dom.js";
import { heat_colour, ink_on_heat } from "./colour.js";

const dash = 4;
const gap = 17;
const still = matchMedia("(prefers-reduced-motion: reduce)");

export class Pipe {
  /// parts: path data of the stretches in the direction of flow; length_m: of all of them together.
  constructor(parts, length_m) {
    this.stretches = parts.map((d) => ({
      case: svg("path", { class: "pipe-case", d }),
      fluid: svg("path", { class: "pipe-fluid", d }),
      dots: svg("path", { class: "pipe-dots", d, "stroke-dasharray": `${dash} ${gap}` }),
    }));
    this.node = svg("g", { class: "pipe" }, ...this.stretches.map((s) => s.case),
      ...this.stretches.flatMap((s) => [s.fluid, s.dots]));
    this.length_m = length_m;
    this.offset = 0;
    this.speed_m_s = 0;
  }

  /// Drawing units per metre; the path must stand in the document.
  measure() {
    const drawn = this.stretches.reduce((sum, s) => sum + s.fluid.getTotalLength(), 0);
    this.units_per_m = drawn / Math.max(1, this.length_m);
  }

  /// One temperature for each stretch.
  colour(temperatures) {
    this.stretches.forEach((s, i) => {
      const value = temperatures[Math.min(i, temperatures.length - 1)];
      set_attribute(s.fluid, "stroke", heat_colour(value));
      set_attribute(s.dots, "stroke", ink_on_heat(value));
    });
  }

  run(speed_m_s) {
    this.speed_m_s = Number.isFinite(speed_m_s) ? speed_m_s : 0;
    this.node.classList.toggle("standing", Math.abs(this.speed_m_s) < 0.001);
  }

  tick(seconds) {
    if (Math.abs(this.speed_m_s) < 0.001) return;
    if (!this.units_per_m) this.measure();
    this.offset = (this.offset - this.speed_m_s * this.units_per_m * seconds) % (dash + gap);
    for (const s of this.stretches) s.dots.setAttribute("stroke-dashoffset", this.offset.toFixed(2));
  }
}

/// Calls tick(seconds) with each picture while motion is wanted and the page is seen; gives back its end.
export function animate(tick) {
  let ended = false;
  let before = performance.now();
  const next = (now) => {
    if (ended) return;
    const seconds = Math.min(0.1, (now - before) / 1000);
    before = now;
    if (!still.matches) tick(seconds);
    requestAnimationFrame(next);
  };
  requestAnimationFrame(next);
  return () => { ended = true; };
}

export const motion_is_unwanted = () => still.matches;

/// Mean speed in m/s of a flow in l/min through a bore in mm.
export function speed_m_s(flow_lpm, bore_mm) {
  if (!(bore_mm > 0) || !Number.isFinite(flow_lpm)) return 0;
  const area_m2 = (Math.PI / 4) * (bore_mm / 1000) ** 2;
  return flow_lpm / 60000 / area_m2;
}
