// SPDX-License-Identifier: MIT
// Why the pump and the backup did what they did, as bands under the charts, with marks for events.

import { svg, el } from "./dom.js";
import { plain_word, moment_text } from "./numbers.js";
import { reason_family } from "./words.js";

/// Height of a letter of the page; the charts grow with it on a projector.
export const rem = () => Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
export const axis_px = () => rem() * 3.1;
const row_px = () => rem() * 1.5;
const mark_px = 12;
const rows_per_bench = 2;

function patterns() {
  return svg("defs", {},
    svg("pattern", { id: "band-works", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
      svg("rect", { class: "works-ground", width: 7, height: 7 }), svg("path", { class: "works-line", d: "M0 0V7" })),
    svg("pattern", { id: "band-guards", width: 6, height: 6, patternUnits: "userSpaceOnUse" },
      svg("rect", { class: "guards-ground", width: 6, height: 6 }), svg("path", { class: "guards-line", d: "M0 3H6" })));
}

export class Bands {
  constructor(run) {
    this.run = run;
    this.drawing = svg("svg", { class: "bands", role: "img" });
    this.node = el("section", { class: "strip" }, el("h2", { class: "unseen", text: "Reasons" }), this.drawing);
    this.width = 300;
  }

  height() {
    return this.run.series.length * rows_per_bench * (row_px() + 3) + mark_px + 2;
  }

  fit(width) {
    this.width = width;
  }

  draw([from, to]) {
    const x = (s) => axis_px() + ((s - from) / Math.max(1, to - from)) * (this.width - 2 * axis_px());
    const rows = [];
    for (const [column, word] of [["pump_reason", "pump"], ["backup_reason", "backup"]]) {
      if (!this.run.columns.has(column)) continue;
      this.run.series.forEach((series, bench) => rows.push({ series, column, label: bench ? "other" : word, word: bench ? `${word}, other setting` : word }));
    }
    const parts = rows.flatMap((row, i) => this.row(row, i * (row_px() + 3), x, from, to));
    const height = this.height();
    this.drawing.setAttribute("viewBox", `0 0 ${this.width} ${height}`);
    this.drawing.setAttribute("width", this.width);
    this.drawing.setAttribute("height", height);
    this.drawing.setAttribute("aria-label", this.spoken(rows));
    this.drawing.replaceChildren(patterns(), ...parts, ...this.marks(x, from, to, height - mark_px));
  }

  row(row, y, x, from, to) {
    const signal = this.run.signal(row.column);
    const out = [svg("text", { class: "band-name", x: axis_px() - 4, y: y + row_px() * 0.67, "text-anchor": "end", text: row.label })];
    for (const span of row.series.runs(this.run.columns.get(row.column), this.run.at_s)) {
      if (span.value === null || span.to_s < from || span.from_s > to) continue;
      const word = plain_word(typeof span.value === "string" ? span.value : signal.words?.[span.value] ?? span.value);
      const [left, right] = [x(Math.max(from, span.from_s)), x(Math.min(to, span.to_s))];
      out.push(svg("rect", { class: `band ${reason_family(word.replaceAll(" ", "_"))}`, x: left.toFixed(1), y, width: Math.max(0.8, right - left).toFixed(1), height: row_px() },
        svg("title", { text: `${row.word}: ${word}, from ${moment_text(this.run.start_ms, span.from_s, this.run.length_s)}` })));
      if (right - left > rem() * (1 + word.length * 0.46)) out.push(svg("text", { class: "band-word", x: ((left + right) / 2).toFixed(1), y: y + row_px() * 0.67, "text-anchor": "middle", text: word }));
    }
    return out;
  }

  marks(x, from, to, y) {
    const shown = this.run.events[0].filter((e) => e.at_s >= from && e.at_s <= to && !(this.run.title_hidden && e.what === "lever"));
    return shown.slice(-300).map((e) => svg("path", { class: `event-mark ${e.what === "relay" ? "" : "soft"}`, d: `M${x(e.at_s).toFixed(1)} ${y}l4 9h-8z` }));
  }

  spoken(rows) {
    const pump = rows[0];
    if (!pump) return "Reasons over time";
    const signal = this.run.signal(pump.column);
    const words = pump.series.runs(this.run.columns.get(pump.column), this.run.at_s).slice(-6)
      .map((s) => `${moment_text(this.run.start_ms, s.from_s, this.run.length_s)} ${plain_word(typeof s.value === "string" ? s.value : signal.words?.[s.value] ?? "")}`);
    return `Reasons of the pump, latest last: ${words.join("; ")}`;
  }
}
