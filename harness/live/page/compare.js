// SPDX-License-Identifier: MIT
// A step in which the same morning is run several times, side by side: a table and small drawings.

import { el, button } from "./dom.js";
import { localised, unit_text } from "./numbers.js";
import { paragraphs } from "./telling.js";
import { small_trace } from "./small_trace.js";
import { manner_of_run } from "./manners.js";

const few = 2;  // so many figures fit across the lesson's column

const letter = (i) => String.fromCharCode(65 + i);
const capital = (text) => text && text[0].toUpperCase() + text.slice(1);

function head_of(column) {
  const unit = column.unit === "clock" ? "" : unit_text(column.unit ?? "");
  return unit ? `${capital(column.name)} (${unit})` : capital(column.name);
}

export class TryStep {
  constructor(step, index, tools) {
    this.step = step;
    this.tools = tools;
    this.go = button("Run them side by side", () => tools.say({ do: "try", step: index }), { id: "run-side-by-side", class: "strong act" });
    this.result = el("div", { class: "compared" });
    this.forks = el("div", {}, step.forks?.length ? this.names(step.forks) : "");
    this.node = el("div", { class: "try" }, ...paragraphs(step.say), this.forks, el("p", {}, this.go), this.result);
  }

  take(result, busy) {
    this.go.disabled = busy;
    this.forks.hidden = Boolean(result);
    if (!result || result === this.shown) return;
    this.shown = result;
    this.go.textContent = "Run them again";
    this.go.classList.remove("strong");
    this.result.replaceChildren(this.table(result), ...(result.traces ?? []).map((t) => this.drawing(result, t)));
  }

  /// Runs one under the other; where much is compared, the figures one under the other instead.
  table(r) {
    const across = r.columns.length <= few;
    const cell = (run, column) => el("td", { class: "now", text: localised(String(r.cells[run][column])) });
    const head = across ? r.columns.map((c) => el("th", { scope: "col", text: head_of(c) })) : r.rows.map((row, i) => el("th", { scope: "col" }, el("b", { text: letter(i) }), el("span", { class: "unseen", text: ` ${localised(row)}` })));
    const body = across ? r.rows.map((row, i) => el("tr", {}, el("th", { scope: "row" }, el("b", { text: `${letter(i)} ` }), localised(row)), ...r.columns.map((_, k) => cell(i, k))))
      : r.columns.map((c, k) => el("tr", {}, el("th", { scope: "row", text: head_of(c) }), ...r.rows.map((_, i) => cell(i, k))));
    return el("div", {}, across ? "" : this.names(r.rows), el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "The runs side by side" },
      el("table", { class: "compare-table", tabindex: "-1" }, el("caption", { text: "Side by side" }), el("thead", {}, el("tr", {}, el("th", { scope: "col", text: across ? "Run" : "What" }), ...head)), el("tbody", {}, ...body))));
  }

  names(rows) {
    return el("ul", { class: "plain-list" }, ...rows.map((name, i) => el("li", {}, el("b", { text: `${letter(i)} ` }), localised(name))));
  }

  drawing(r, trace) {
    const lines = trace.each.map((points, i) => ({ unit: trace.unit, points, letter: letter(i), manner: manner_of_run(i) }));
    const times = lines.flatMap((l) => (l.points.length ? [l.points[0][0], l.points[l.points.length - 1][0]] : []));
    if (!times.length) return "";
    const name = this.tools.name_of(trace.signal);
    const unit = unit_text(trace.unit);
    return el("section", { class: "compare-trace" }, el("h4", { text: unit ? `${name} (${unit})` : name }), small_trace({ from_s: Math.min(...times), to_s: Math.max(...times), start_ms: this.tools.run()?.start_ms ?? 0, lines,
      label: `${name} of each run over time, lines lettered as in the table` }));
  }
}
