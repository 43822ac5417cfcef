// SPDX-License-Identifier: MIT
// The small drawing of the first page: a roof, the sun's way over it, and the needle.

import { svg } from "./dom.js";
import { heat_colour } from "./colour.js";

export function hero() {
  const layers = Array.from({ length: 8 }, (_, i) => svg("rect", { x: 214, y: 190 - i * 11, width: 44, height: 11.5, fill: heat_colour(18 + i * 6) }));
  return svg("svg", { viewBox: "0 0 360 212", class: "hero", "aria-hidden": "true", focusable: "false" },
    svg("path", { class: "sun-arc", d: "M12 120C80 0 280 0 348 120" }), svg("circle", { class: "sun-halo", cx: 118, cy: 42, r: 28, opacity: 0.45 }), svg("circle", { class: "sun", cx: 118, cy: 42, r: 15 }),
    svg("path", { class: "hero-wall", d: "M80 128V202H292V128" }), svg("path", { class: "roof", d: "M186 62 44 136 48 144 186 73 324 144 328 136Z" }),
    svg("path", { class: "collector-frame", d: "M166 64 84 107 79 98 161 55Z" }), svg("path", { class: "hero-pipe hot", d: "M170 66V112H140V168H214" }), svg("path", { class: "hero-pipe", d: "M214 192H104V110" }),
    svg("rect", { class: "jacket", x: 208, y: 106, width: 56, height: 98, rx: 16 }), ...layers, svg("circle", { class: "pump-case", cx: 104, cy: 158, r: 13 }), svg("path", { class: "impeller", d: "M104 149 112 163H96Z" }));
}
