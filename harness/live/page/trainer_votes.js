// SPDX-License-Identifier: MIT
// What the class foresees: how many said what, the right ones marked, as bars and as a table.

import { el, svg, set_text, fresh_id } from "./dom.js";
import { figure, localised, unit_text } from "./numbers.js";

const most_bars = 9;
const width = 420;
const height = 150;
const clock_steps_min = [1, 5, 10, 15, 30, 60, 120, 240];

const is_clock = (answer) => /^\d\d:\d\d$/.test(answer);
const minutes_of = (clock) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
const clock_of = (minutes) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

function round_step(reach, most) {
  const power = 10 ** Math.floor(Math.log10(reach / most));
  return [1, 2, 5, 10].map((k) => k * power).find((k) => reach / k < most) ?? 10 * power;
}

/// Bars of equal width over all answers: [{from, word, right, wrong}]. Few answers stand as they are.
export function bars_of(answers, unit) {
  const clock = answers.every((a) => is_clock(a.answer));
  const value = (a) => (clock ? minutes_of(a.answer) : Number(a.answer));
  const word = (v, decimals = 0) => (clock ? clock_of(v) : figure(v, decimals));
  const known = answers.filter((a) => Number.isFinite(value(a)));
  if (!known.length) return [];
  const values = known.map(value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const choice = !clock && !unit && values.every((v) => Number.isInteger(v)) && high <= most_bars;
  const step = choice ? 1 : clock ? clock_steps_min.find((s) => (high - low) / s < most_bars - 1) ?? 240 : high > low ? round_step(high - low, most_bars - 1) : 1;
  const first = choice ? 1 : Math.floor(low / step) * step;
  const count = Math.floor((high - first) / step + 1e-9) + 1;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const bars = Array.from({ length: count }, (_, i) => ({ word: choice ? `answer ${i + 1}` : word(first + i * step, decimals), right: 0, wrong: 0 }));
  for (const a of known) bars[Math.floor((value(a) - first) / step + 1e-9)][a.right ? "right" : "wrong"] += a.seats.length;
  return bars;
}

function drawing(bars) {
  const most = Math.max(1, ...bars.map((b) => b.right + b.wrong));
  const slot = (width - 10) / bars.length;
  const bar = Math.min(56, slot * 0.74);
  const unit = (height - 26) / most;
  const parts = bars.flatMap((b, i) => {
    const x = 5 + i * slot + (slot - bar) / 2;
    const [right, wrong] = [b.right * unit, b.wrong * unit];
    const middle = x + bar / 2;
    return [right ? svg("rect", { class: "vote right", x, y: height - right, width: bar, height: right, fill: "url(#vote-right)" }) : "", wrong ? svg("rect", { class: "vote", x, y: height - right - wrong, width: bar, height: wrong }) : "",
      right || wrong ? svg("text", { class: "vote-count", x: middle, y: height - right - wrong - 6, "text-anchor": "middle", text: b.right + b.wrong }) : "",
      svg("text", { class: "vote-word", x: middle, y: height + 17, "text-anchor": "middle", text: b.word }),
      right ? svg("text", { class: "vote-right-word", x: middle, y: height + 33, "text-anchor": "middle", text: "▲ right" }) : ""];
  });
  const hatch = svg("defs", {}, svg("pattern", { id: "vote-right", width: 8, height: 8, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, svg("rect", { class: "works-ground", width: 8, height: 8 }), svg("path", { class: "vote-hatch", d: "M0 0V8" })));
  return svg("svg", { class: "votes", viewBox: `0 0 ${width} ${height + 40}`, role: "img", "aria-label": `${bars.map((b) => `${b.word}: ${b.right + b.wrong}${b.right ? `, of them right ${b.right}` : ""}`).join("; ")}` }, hatch, svg("path", { class: "vote-ground", d: `M0 ${height}H${width}` }), ...parts.filter(Boolean));
}

export class Votes {
  /// title_of(path): what the shelf calls a lesson.
  constructor(title_of) {
    this.title_of = title_of;
    const id = fresh_id("question");
    this.pick = el("select", { id, on: { change: () => this.show() } });
    this.picking = el("p", { class: "vote-pick" }, el("label", { for: id, text: "Question " }), this.pick);
    this.question = el("p", { class: "question" });
    this.body = el("div", { id: "votes" });
    this.none = el("p", { class: "hint", text: "Nothing yet. What they foresee is counted here as they commit to it." });
    this.node = el("div", { class: "votes-box" }, this.none, this.picking, this.question, this.body);
    this.list = [];
  }

  /// The question at hand is the one where most seats stand, until another is picked.
  update(predictions, seats) {
    const key_of = (p) => `${p.path} ${p.step}`;
    const standing = (p) => seats.filter((s) => s.path === p.path && s.step === p.step).length;
    const keys = predictions.map(key_of);
    if (keys.join() !== this.keys?.join()) {
      const picked = this.by_hand ? this.pick.value : "";
      this.pick.replaceChildren(...predictions.map((p) => el("option", { value: key_of(p), text: `${this.title_of(p.path) ?? p.path.split("/").pop().replaceAll("_", " ")}, step ${p.step + 1}` })));
      if (keys.includes(picked)) this.pick.value = picked;
      this.keys = keys;
      this.pick.onchange = () => {
        this.by_hand = true;
        this.show();
      };
    }
    this.list = predictions;
    if (!this.by_hand && predictions.length) this.pick.value = key_of(predictions.reduce((best, p) => (standing(p) >= standing(best) ? p : best)));
    this.none.hidden = predictions.length > 0;
    this.picking.hidden = predictions.length < 2;
    this.show();
  }

  show() {
    const p = this.list.find((each) => `${each.path} ${each.step}` === this.pick.value);
    const key = JSON.stringify(p ?? null);
    if (key === this.key) return;
    this.key = key;
    set_text(this.question, p ? localised(p.question) : "");
    this.question.hidden = !p;
    this.body.replaceChildren(...(p ? [drawing(bars_of(p.answers, p.unit)), this.table(p)] : []));
  }

  table(p) {
    const unit = unit_text(p.unit ?? "");
    const sorted = p.answers.slice().sort((a, b) => a.answer.localeCompare(b.answer, undefined, { numeric: true }));
    return el("details", { class: "vote-table" }, el("summary", { text: "Who said what" }), el("table", {}, el("caption", { class: "unseen", text: "Answers and who gave them" }), el("thead", {}, el("tr", {}, ...["Answer", "Count", "Who", "Right?"].map((text) => el("th", { scope: "col", text })))),
      el("tbody", {}, ...sorted.map((a) => el("tr", {}, el("th", { scope: "row", text: localised(unit ? `${a.answer} ${unit}` : a.answer) }), el("td", { text: a.seats.length }), el("td", { text: a.seats.join(", ") }), el("td", { text: a.right ? "yes" : "no" }))))));
  }
}
