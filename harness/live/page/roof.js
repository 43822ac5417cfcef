// SPDX-License-Identifier: MIT
// Roof and walls of the cut-open house, and the collectors on the side they look to.

import { svg, set_attribute } from "./dom.js";
import { heat_colour } from "./colour.js";

export const apex = { x: 420, y: 204 };
const pitch_deg = 26.06;  // of the drawing; the true slope stands beside it as a figure

const left_slope = `translate(${apex.x} ${apex.y}) rotate(${180 - pitch_deg}) scale(1 -1)`;
const right_slope = `translate(${apex.x} ${apex.y}) rotate(${pitch_deg})`;

/// In the slope's own axes: x down the slope, negative y outwards.
function glass(row, from, to) {
  const gradient = `glass-${row}`;
  const stops = [0, 1].map((offset) => svg("stop", { offset }));
  const bars = [];
  for (let x = from + 14; x < to - 4; x += 16) bars.push(svg("path", { class: "glass-bar", d: `M${x} -21V-9` }));
  return {
    node: svg("g", {}, svg("linearGradient", { id: gradient }, ...stops),
      svg("rect", { class: "collector-frame", x: from, y: -25, width: to - from, height: 19, rx: 3 }),
      svg("rect", { class: "absorber", x: from + 4, y: -21, width: to - from - 8, height: 11, fill: `url(#${gradient})` }), ...bars),
    stops,
  };
}

/// Which side of the picture a plane is drawn on: what looks west of south to the right.
const on_the_right = (row) => row.azimuth_deg > 200;

export class Roof {
  constructor(rows) {
    this.rows = rows.map((row) => ({ ...row, right: on_the_right(row) }));
    const sides = { false: svg("g", { transform: left_slope }), true: svg("g", { transform: right_slope }) };
    for (const right of [false, true]) {
      const here = this.rows.filter((row) => row.right === right);
      const room = Math.min(240, 20 + here.reduce((sum, row) => sum + (row.area_m2 ?? 4), 0) * 46);
      const each = room / Math.max(1, here.length);
      here.forEach((row, i) => {
        const made = glass(this.rows.indexOf(row), 54 + i * each, 54 + (i + 1) * each - 8);
        row.stops = made.stops;
        sides[right].append(made.node);
      });
    }
    this.steam = svg("g", { class: "steam" }, ...[0, 1, 2].map((i) =>
      svg("path", { d: `M${368 - i * 26} ${196 + i * 13}c-8-8 8-12 0-22s8-12 0-22` })));
    this.node = svg("g", { "aria-hidden": "true" },
      svg("path", { class: "roof", d: "M420 204 54 383 60 394 420 219 780 394 786 383Z" }), sides.false, sides.true, this.steam);
  }

  /// outlet(i), bottom(i): temperatures at the upper and lower end of row i.
  update(outlet, bottom, steam_l) {
    this.rows.forEach((row, i) => {
      set_attribute(row.stops[0], "stop-color", heat_colour(outlet(i)));
      set_attribute(row.stops[1], "stop-color", heat_colour(bottom(i)));
    });
    this.steam.style.display = steam_l > 0.01 ? "" : "none";
  }
}

/// Rooms, walls and floors behind everything that stands in them.
export function walls() {
  return svg("g", { "aria-hidden": "true" },
    svg("path", { class: "room loft", d: "M420 214 102 368H738Z" }),
    svg("rect", { class: "room", x: 102, y: 368, width: 636, height: 230 }),
    svg("rect", { class: "room kitchen", x: 644, y: 380, width: 94, height: 218 }),
    svg("path", { class: "wall", d: "M100 362V598M740 362V598" }),
    svg("path", { class: "floor", d: "M96 374H744M90 602H750" }),
    svg("path", { class: "inner-wall", d: "M644 378V404M644 582V598" }));
}
