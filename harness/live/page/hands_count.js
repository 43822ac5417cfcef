// SPDX-License-Identifier: MIT
// A show of hands in a room with one projector: rows of an answer and how many hands were up for it.

import { el, button, fresh_id } from "./dom.js";
import { typed_number, unit_text, localised } from "./numbers.js";

const rows_at_first = 3;
const most_rows = 40;
const most_hands = 99;

export class HandsCount {
  constructor(step) {
    this.step = step;
    this.rows = [];
    this.body = el("tbody");
    const unit = unit_text(step.unit ?? "");
    this.node = el("div", { class: "hands-count" }, el("table", {}, el("caption", { text: "How many hands for each answer" }),
      el("thead", {}, el("tr", {}, el("th", { scope: "col", text: unit && step.form === "number" ? `Answer (${unit})` : "Answer" }), el("th", { scope: "col", text: "Hands" }))), this.body));
    if (step.form === "choice") step.choices.forEach((word, i) => this.add(String(i + 1), localised(word)));
    else {
      for (let i = 0; i < rows_at_first; ++i) this.add();
      this.more = button("One more answer", () => this.add().focus(), { class: "quiet" });
      this.node.append(this.more);
    }
  }

  /// A row; of a choice its answer stands fast.
  add(answer, word) {
    const n = this.rows.length + 1;
    const label = fresh_id("hands-answer");
    const input = answer ? null : el("input", { type: this.step.form === "clock" ? "time" : "text", inputmode: this.step.form === "clock" ? null : "decimal", autocomplete: "off", "aria-label": `Answer ${n}` });
    const count = el("input", { type: "number", min: 0, max: most_hands, step: 1, class: "hands-number", "aria-label": `Hands for ${word ?? `answer ${n}`}` });
    this.rows.push({ read: () => answer ?? this.typed(input), filled: () => Boolean(answer ? count.value : input.value || count.value), count });
    this.body.append(el("tr", {}, answer ? el("th", { scope: "row", id: label, text: word }) : el("td", {}, input), el("td", {}, count)));
    if (this.more) this.more.disabled = this.rows.length >= most_rows;
    return input ?? count;
  }

  typed(input) {
    if (this.step.form === "clock") return input.value.slice(0, 5);
    const number = typed_number(input.value);
    return Number.isFinite(number) ? String(number) : "";
  }

  /// The entries, or what is missing in words.
  read() {
    const sums = new Map();
    for (const row of this.rows.filter((r) => r.filled())) {
      const answer = row.read();
      const count = Number(row.count.value);
      if (!Number.isInteger(count) || count < 0 || count > most_hands) return `Hands are whole numbers from 0 to ${most_hands}.`;
      if (!count) continue;
      if (!answer) return "There are hands without an answer beside them.";
      sums.set(answer, (sums.get(answer) ?? 0) + count);
    }
    return sums.size ? [...sums].map(([answer, count]) => ({ answer, count })) : "No hands are counted yet.";
  }
}
