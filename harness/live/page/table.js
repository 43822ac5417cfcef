// SPDX-License-Identifier: MIT
// All values as a table: the drawing in words, and everything the drawing has no room for.

import { el, button, set_text } from "./dom.js";
import { with_unit } from "./numbers.js";
import { short_name, who_sees, where_measured } from "./words.js";

export class ValueTable {
  constructor(run, open_card) {
    this.run = run;
    this.cells = [];
    this.node = el("div", { class: "values" }, ...Object.entries(who_sees).map(([key, heading]) => {
      const signals = run.opened.signals.filter((s) => s.seen_by === key);
      if (!signals.length) return "";
      return el("table", {}, el("caption", { text: heading }), el("thead", {}, el("tr", {}, el("th", { scope: "col", text: "What" }),
        el("th", { scope: "col", text: "Now" }), el("th", { scope: "col", class: "second", text: "Other setting" }), el("th", { scope: "col", class: "where", text: "Where" }))),
      el("tbody", {}, ...signals.map((s) => this.row(s, open_card))));
    }));
  }

  row(signal, open_card) {
    const now = el("td", { class: "now" });
    const other = el("td", { class: "now second" });
    this.cells.push({ signal, now, other });
    return el("tr", {}, el("th", { scope: "row" }, button(short_name(signal), () => open_card(signal.name), { class: "link" })), now, other, el("td", { class: "where", text: where_measured(signal) }));
  }

  update() {
    const time = performance.now();
    clearTimeout(this.later);
    if (time - (this.drawn_ms ?? 0) < 500) {
      this.later = setTimeout(() => this.update(), 510);
      return;
    }
    this.drawn_ms = time;
    const two = this.run.series.length > 1;
    this.node.classList.toggle("two", two);
    for (const { signal, now, other } of this.cells) {
      set_text(now, with_unit(signal, this.run.now(signal.name, 0)));
      if (two) set_text(other, with_unit(signal, this.run.now(signal.name, 1)));
    }
  }
}
