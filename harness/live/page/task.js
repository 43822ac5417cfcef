// SPDX-License-Identifier: MIT
// A task: what must hold of the learner's own run, and the judging of it.

import { el, button } from "./dom.js";
import { localised } from "./numbers.js";
import { paragraphs, outcome_line, sign } from "./telling.js";

const quick = 3600;

export class TaskStep {
  constructor(step, index, tools) {
    this.tools = tools;
    this.go = button("Judge my run", () => tools.say({ do: "judge_task", step: index }), { id: "judge-my-run", class: "strong act" });
    this.rest = button("Run the rest first", () => this.run_rest(), { id: "run-the-rest" });
    this.must = el("ul", { class: "must-hold" }, ...step.require.map((text) => el("li", { text: localised(text) })));
    this.wanted = el("div", {}, el("h4", { text: "What must hold" }), this.must);
    this.result = el("div", { class: "judged" });
    this.node = el("div", { class: "task" }, ...paragraphs(step.say), this.wanted, this.result, el("p", { class: "act-row" }, this.go, " ", this.rest),
      el("p", { class: "hint", text: "Judged is the whole run with every move you made. You may judge as often as you like." }));
  }

  run_rest() {
    const run = this.tools.run();
    this.tools.travel({ from_s: null, stops: [{ until_s: run.length_s, pace: quick }] });
    this.tools.look();
  }

  tick() {
    const run = this.tools.run();
    if (run) this.rest.hidden = run.at_s >= run.length_s;
  }

  take(result, busy) {
    this.go.disabled = busy;
    this.tick();
    this.wanted.hidden = Boolean(result);
    if (!result || result === this.shown) return;
    this.shown = result;
    const parts = result.parts.map((part) => el("li", {}, el("p", { class: "part" }, sign(part.held), el("span", {}, el("b", { text: localised(part.name) }), `: ${localised(part.words)}`)),
      !result.met && !part.held && part.hint ? el("p", { class: "hint-line" }, el("b", { text: "Hint: " }), localised(part.hint)) : ""));
    this.result.replaceChildren(outcome_line(result.met, result.met ? "The task is met" : "Not met yet"), el("ul", { class: "parts" }, ...parts));
  }
}
