// SPDX-License-Identifier: MIT
// Who is where: one row a seat, the stuck ones first. Rows stay the same nodes, so that a hand or a
// reading voice does not lose its place each second.

import { el, svg, button, set_text, set_attribute } from "./dom.js";
import { figure } from "./numbers.js";
import { step_word } from "./lesson_steps.js";
import { ask_once } from "./ask_once.js";

const columns = ["How it goes", "Name", "Where", "On the bench", "Last hand", "Right", "Hands on"];

const idle_words = (s) => (!Number.isFinite(s) ? "–" : s < 60 ? "just now" : `${Math.floor(s / 60)} min ago`);
const degrees = (c) => (Number.isFinite(c) ? `${figure(c, 0)}°` : "–");

function seat_sign(kind) {
  const shapes = { stuck: [svg("path", { class: "sign-stuck", d: "M10 1.5 19 18H1Z" }), svg("path", { class: "sign-stuck-mark", d: "M10 7v5M10 14.4v1.2" })], away: [svg("circle", { class: "sign-away", cx: 10, cy: 10, r: 7 })], works: [svg("circle", { class: "sign-works", cx: 10, cy: 10, r: 5 })] };
  return svg("svg", { class: "seat-sign", viewBox: "0 0 20 20", "aria-hidden": "true" }, ...shapes[kind]);
}

/// Steps as small squares: done, at hand, to come.
function squares(step, steps) {
  const each = Array.from({ length: steps }, (_, i) => svg("rect", { class: i < step ? "square done" : i === step ? "square here" : "square", x: 1 + i * 11, y: 1, width: 8, height: 8 }));
  return svg("svg", { class: "squares", viewBox: `0 0 ${steps * 11} 10`, width: steps * 11, height: 10, "aria-hidden": "true" }, ...each);
}

class Row {
  constructor(name, say) {
    this.name = name;
    this.cells = columns.map((_, i) => (i === 1 ? el("th", { scope: "row", role: "rowheader", text: name }) : el("td", { role: "cell" })));
    this.show = button("Show", () => say({ do: "class_show", seat: this.shown ? null : name }), { "aria-pressed": "false" });
    this.bench = el("span", { class: "seat-bench" });
    this.degrees = el("span", { class: "seat-step" });
    this.cells[3].append(this.bench, this.degrees);
    this.cells[6].append(el("div", { class: "seat-hands" }, this.show, ask_once("Dismiss", "", "Yes, dismiss", () => say({ do: "class_dismiss", seat: name }), { class: "quiet", "aria-label": `Dismiss ${name}` })));
    this.node = el("tr", { role: "row" }, ...this.cells);
  }

  /// title: what the seat has open, as the shelf calls it.
  update(s, shown, title) {
    const kind = !s.here ? "away" : s.stuck ? "stuck" : "works";
    if (kind !== this.kind) this.cells[0].replaceChildren(seat_sign(kind), el("span", { text: { away: " away", stuck: " stuck", works: " at it" }[kind] }));
    this.kind = kind;
    this.node.className = kind;
    const where = `${title} ${s.step} ${s.steps} ${s.step_kind}`;
    if (where !== this.where) this.cells[2].replaceChildren(...this.place(s, title));
    this.where = where;
    set_text(this.bench, s.clock ? `${s.clock}, ${s.pump || "no pump"}` : "–");
    set_text(this.degrees, s.clock ? `collector ${degrees(s.collector_c)}, store ${degrees(s.store_c)}` : "");
    set_text(this.cells[4], idle_words(s.idle_s));
    this.cells[5].classList.toggle("none", !s.asked);
    set_text(this.cells[5], s.asked ? `${s.right} of ${s.asked}` : "–");
    this.shown = shown;
    set_text(this.show, shown ? "Stop showing" : "Show");
    set_attribute(this.show, "aria-pressed", shown);
    set_attribute(this.show, "aria-label", shown ? `Stop showing ${this.name} on the projector` : `Show ${this.name} on the projector`);
  }

  place(s, words_of_it) {
    const title = el("span", { class: "seat-title", text: words_of_it || "on the first page" });
    if (!Number.isFinite(s.step) || !s.steps) return [title];
    const words = s.step >= s.steps ? "at the end" : `${s.step + 1} of ${s.steps}${s.step_kind ? `, ${step_word({ kind: s.step_kind }).toLowerCase()}` : ""}`;
    return [title, el("span", { class: "seat-step" }, squares(s.step, s.steps), ` ${words}`)];
  }
}

const rank = (s) => (s.here && s.stuck ? 0 : s.here ? 1 : 2);

export class SeatTable {
  /// title_of(path): what the shelf calls it, or nothing.
  constructor(say, title_of) {
    this.say = say;
    this.title_of = title_of;
    this.rows = new Map();
    this.body = el("tbody", { role: "rowgroup" });  // the roles stay when a narrow page lays rows out as cards
    this.nobody = el("p", { class: "hint", text: "Nobody has come yet." });
    this.sum = el("p", { class: "seat-sum" });
    this.table = el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "Seats of the class" }, el("table", { class: "seat-table", id: "seat-table", role: "table" }, el("caption", { class: "unseen", text: "Seats of the class, those that are stuck first" }),
      el("thead", { role: "rowgroup" }, el("tr", { role: "row" }, ...columns.map((text) => el("th", { scope: "col", role: "columnheader", text })))), this.body));
    this.node = el("div", {}, this.sum, this.nobody, this.table);
  }

  update(seats, shown) {
    const sorted = seats.slice().sort((a, b) => rank(a) - rank(b) || a.seat.localeCompare(b.seat));
    for (const name of this.rows.keys()) if (!seats.some((s) => s.seat === name)) {
      this.rows.get(name).node.remove();
      this.rows.delete(name);
    }
    sorted.forEach((s, i) => {
      if (!this.rows.has(s.seat)) this.rows.set(s.seat, new Row(s.seat, this.say));
      const row = this.rows.get(s.seat);
      row.update(s, shown === s.seat, this.title_of(s.path) ?? s.title);
      this.put(row.node, i);
    });
    this.nobody.hidden = seats.length > 0;
    this.table.hidden = !seats.length;
    const stuck = seats.filter((s) => s.here && s.stuck).length;
    const here = seats.filter((s) => s.here).length;
    set_text(this.sum, seats.length ? `${here} here${here < seats.length ? `, ${seats.length - here} away` : ""}${stuck ? `, ${stuck} stuck` : ""}.` : "");
  }

  /// A row that moves keeps the focus that is in it.
  put(node, i) {
    if (this.body.children[i] === node) return;
    const focused = node.contains(document.activeElement) ? document.activeElement : null;
    this.body.insertBefore(node, this.body.children[i] ?? null);
    focused?.focus();
  }
}
