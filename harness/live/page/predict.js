// SPDX-License-Identifier: MIT
// A question before time moves: one answer, or the answers of a whole room by a show of hands; then
// what came of it.

import { el, button, fresh_id, set_text } from "./dom.js";
import { typed_number, unit_text, localised } from "./numbers.js";
import { paragraphs, outcome_line, sign, answer_words } from "./telling.js";
import { HandsCount } from "./hands_count.js";
import { small_trace } from "./small_trace.js";
import { manner_of } from "./manners.js";

const before_s = 900;
const after_s = 300;
const watching_pace = 60;

/// "1 starts" as one says it.
const singular = (amount) => amount.replace(/^(1 [a-z]{3,})s$/, "$1");

/// The control of one answer: {node, read()} with read giving the text the bench wants, or "".
export function answer_control(step, name, described) {
  if (step.form === "choice") {
    const inputs = step.choices.map((_, i) => el("input", { type: "radio", name, value: i + 1, required: true }));
    const node = el("fieldset", { class: "choices-of-answer" }, el("legend", { text: "Your answer" }), ...inputs.map((input, i) => el("label", { class: "radio" }, input, el("span", { text: localised(step.choices[i]) }))));
    return { node, read: () => inputs.find((input) => input.checked)?.value ?? "" };
  }
  const id = fresh_id("answer");
  const clock = step.form === "clock";
  const input = el("input", { id, type: clock ? "time" : "text", inputmode: clock ? null : "decimal", autocomplete: "off", "aria-describedby": described, class: "answer" });
  const unit = clock ? "" : unit_text(step.unit ?? "");
  const read = () => {
    if (clock) return input.value.slice(0, 5);
    const number = typed_number(input.value);
    return Number.isFinite(number) ? String(number) : "";
  };
  return { node: el("p", { class: "answer-row" }, el("label", { for: id, text: "Your answer" }), input, unit ? el("span", { class: "unit", text: unit }) : ""), read, input };
}

export class Prediction {
  /// tools: {say, run(), travel(plan), complain(words), look()}
  constructor(step, index, tools) {
    this.step = step;
    this.index = index;
    this.tools = tools;
    this.form = el("form", { class: "predict-form", novalidate: true, on: { submit: (e) => this.commit(e) } });
    this.result = el("div", { class: "predict-result" });
    this.node = el("div", { class: "predict" }, ...paragraphs(step.question).map((p) => (p.classList.add("question"), p)), this.form, this.result);
    this.build_form();
  }

  build_form() {
    const note = fresh_id("answer-note");
    this.answer = answer_control(this.step, fresh_id("choice"), note);
    this.hands = new HandsCount(this.step);
    this.hands.node.hidden = true;
    this.many = el("input", { type: "checkbox", role: "switch", id: "by-hands", on: { change: () => this.switch_over() } });
    this.go = el("button", { type: "submit", class: "strong", id: "commit", text: "Commit" });
    const within = this.step.tolerance ? `Within ${localised(singular(this.step.tolerance))} counts as right. ` : "";
    this.form.append(this.answer.node, this.hands.node, el("p", { class: "hint", id: note, text: `${within}One answer, and it stands.` }),
      el("p", { class: "commit-row" }, this.go), el("label", { class: "check quiet-switch" }, this.many, " By a show of hands"));
  }

  switch_over() {
    this.hands.node.hidden = !this.many.checked;
    this.answer.node.hidden = this.many.checked;
    set_text(this.go, this.many.checked ? "Commit the room's answers" : "Commit");
  }

  commit(event) {
    event.preventDefault();
    if (this.many.checked) {
      const hands = this.hands.read();
      if (typeof hands === "string") return this.tools.complain(hands);
      return this.tools.say({ do: "predict", step: this.index, hands });
    }
    const answer = this.answer.read();
    if (!answer) return this.tools.complain(this.missing());
    return this.tools.say({ do: "predict", step: this.index, answer });
  }

  missing() {
    return { clock: "Put in a time of day first.", number: "Put in a number first.", choice: "Pick one of the answers first." }[this.step.form] ?? "Put in an answer first.";
  }

  /// result: what the bench answered, or nothing yet; busy: it is working it out.
  take(result, busy) {
    this.go.disabled = busy;
    this.form.hidden = Boolean(result);
    if (!result || result === this.shown) return;
    this.shown = result;
    this.result.replaceChildren(...this.outcome(result));
  }

  outcome(r) {
    const truth = answer_words(this.step, r.truth, r.unit);
    const parts = [];
    if (r.hands) parts.push(this.hands_line(r.hands), el("p", { class: "truth-line" }, "It was ", el("b", { text: truth }), "."));
    else {
      parts.push(outcome_line(r.right, r.right ? "Right" : "Not this time"));
      parts.push(el("p", { class: "truth-line" }, "You said ", el("b", { text: answer_words(this.step, r.answer, r.unit) }), r.right && r.answer === r.truth ? "." : el("span", {}, ". It was ", el("b", { text: truth }), ".")));
    }
    parts.push(...paragraphs(r.say));
    if (r.hands) parts.push(this.hands_table(r.hands));
    if (r.trace?.signals?.length) parts.push(this.drawing(r, truth));
    if (Number.isFinite(r.truth_s)) parts.push(el("p", {}, button("Watch it happen", () => this.watch(r.truth_s), { id: "watch-it", class: "strong act" })));
    return parts;
  }

  hands_line(hands) {
    const all = hands.reduce((sum, h) => sum + h.count, 0);
    const right = hands.filter((h) => h.right).reduce((sum, h) => sum + h.count, 0);
    return outcome_line(right > 0, right === 0 ? `None of ${all} had it` : `${right} of ${all} had it right`);
  }

  hands_table(hands) {
    const sorted = hands.slice().sort((a, b) => (this.step.form === "number" ? a.answer - b.answer : a.answer < b.answer ? -1 : 1));
    const heads = ["Answer", "Hands", "Right?"].map((text) => el("th", { scope: "col", text }));
    return el("table", { class: "hands-told" }, el("caption", { class: "unseen", text: "The room's answers" }), el("thead", {}, el("tr", {}, ...heads)),
      el("tbody", {}, ...sorted.map((h) => el("tr", {}, el("th", { scope: "row", text: answer_words(this.step, h.answer) }), el("td", { class: "now", text: h.count }), el("td", {}, sign(h.right), h.right ? " yes" : " no")))));
  }

  drawing(r, truth) {
    const run = this.tools.run();
    const clock = this.step.form === "clock";
    const marks = [];
    if (Number.isFinite(r.answer_s)) marks.push({ at_s: r.answer_s, word: clock ? `you said ${r.answer}` : "your answer" });
    if (Number.isFinite(r.truth_s)) marks.push({ at_s: r.truth_s, truth: true, word: clock ? `it was ${truth}` : `here: ${truth}` });
    const inside = marks.filter((m) => m.at_s >= r.trace.from_s && m.at_s <= r.trace.to_s);
    return small_trace({ ...r.trace, start_ms: run.start_ms, marks: inside, label: `The run about it. ${inside.map((m) => m.word).join(", ")}.`,
      lines: r.trace.signals.map((s, i) => ({ name: this.tools.name_of(s.name), unit: s.unit, points: s.points, manner: manner_of(s.name, i) })) });
  }

  watch(truth_s) {
    this.tools.travel({ from_s: Math.max(0, truth_s - before_s), stops: [{ until_s: truth_s + after_s, pace: watching_pace }] });
    this.tools.look();
  }
}
