// SPDX-License-Identifier: MIT
// What stands in place of house and charts while a hunt runs: the customer's kitchen table.

import { el, svg } from "./dom.js";

export function kitchen_table() {
  const drawing = svg("svg", { class: "kitchen-table", viewBox: "0 0 360 150", "aria-hidden": "true", focusable: "false" },
    svg("path", { class: "table-top", d: "M30 96H330l14 16H16Z" }), svg("path", { class: "table-leg", d: "M44 112v34M316 112v34" }),
    svg("path", { class: "table-cup", d: "M96 72h34v16q0 8-8 8h-18q-8 0-8-8ZM130 76q12 0 12 8t-12 8" }), svg("path", { class: "table-steam", d: "M106 64c-5-6 5-8 0-15M120 64c-5-6 5-8 0-15" }),
    svg("path", { class: "table-sheet", d: "M196 94 206 62 286 62 280 94Z" }), svg("path", { class: "table-lines", d: "M212 70H276M210 78H262M207 86H270" }));
  return el("section", { class: "kitchen", id: "kitchen", "aria-label": "Where you are", hidden: true }, drawing, el("p", { class: "kitchen-words", text: "You are at the customer's kitchen table. Only looks that cost minutes will tell." }));
}
