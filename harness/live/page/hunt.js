// SPDX-License-Identifier: MIT
// A hunt: looks that cost minutes, a budget, and causes to be named once.

import { el, svg, fresh_id, set_text, set_attribute } from "./dom.js";
import { localised } from "./numbers.js";
import { paragraphs, outcome_line, sign } from "./telling.js";

const counted = ["none", "one", "two", "three", "four", "five", "six"];
const minutes = (n) => (n === 1 ? "1 minute" : `${n} minutes`);
const capital = (text) => text && text[0].toUpperCase() + text.slice(1);

export class Hunt {
  constructor(step, index, tools) {
    this.step = step;
    this.index = index;
    this.tools = tools;
    this.many = step.how_many > 1;
    this.bar = svg("rect", { width: "100%", height: "100%" });
    this.meter = el("div", { class: "meter", role: "meter", "aria-valuemin": 0, "aria-valuemax": step.budget, "aria-valuenow": step.budget, "aria-label": "Minutes left" }, svg("svg", { "aria-hidden": "true" }, this.bar));
    this.left_words = el("p", { class: "minutes-left" });
    this.looks = step.measurements.map((m, k) => el("button", { type: "button", class: "look", on: { click: () => tools.say({ do: "look", step: index, measurement: k }) } },
      el("span", { text: capital(localised(m.name)) }), el("span", { class: "price", text: `${m.price} min` })));
    this.read = el("ul", { class: "read-list" });
    this.nothing = el("p", { class: "hint", text: "Nothing yet." });
    this.form = this.causes_form();
    this.running = el("div", {}, el("div", { class: "budget" }, this.meter, this.left_words), el("h4", { text: "Looks, and what they cost" }), el("div", { class: "looks" }, ...this.looks));
    this.told = el("div", { class: "read-so-far" }, el("h4", { class: "read-title", tabindex: "-1", text: "Read so far" }), this.nothing, this.read);
    this.result = el("div", { class: "hunt-result" });
    this.node = el("div", { class: "hunt" }, ...paragraphs(step.say), this.running, this.result, this.told, this.form);
  }

  causes_form() {
    const n = this.step.how_many;
    const name = fresh_id("cause");
    this.boxes = this.step.causes.map((_, k) => el("input", { type: this.many ? "checkbox" : "radio", name, value: k, on: { change: () => this.weigh() } }));
    this.name_them = el("button", { type: "submit", class: "strong act", id: "name-causes", disabled: true, text: this.many ? "These it is" : "This it is" });
    return el("form", { class: "causes", on: { submit: (e) => this.name(e) } }, el("fieldset", {}, el("legend", { text: this.many ? `Name ${counted[n] ?? n} causes` : "Name the cause" }),
      ...this.boxes.map((box, k) => el("label", { class: "radio" }, box, el("span", { text: capital(localised(this.step.causes[k])) })))), el("p", {}, this.name_them), el("p", { class: "hint", text: "Named once, and it stands." }));
  }

  picked() {
    return this.boxes.filter((b) => b.checked).map((b) => Number(b.value));
  }

  weigh() {
    const picked = this.picked().length;
    if (this.many) for (const box of this.boxes) box.disabled = !box.checked && picked >= this.step.how_many;
    this.name_them.disabled = this.busy || picked !== this.step.how_many;
  }

  name(event) {
    event.preventDefault();
    const causes = this.picked();
    if (causes.length === this.step.how_many) this.tools.say({ do: "name_causes", step: this.index, causes });
  }

  take(result, busy) {
    this.busy = busy;
    const r = result ?? { looks: [], spent: 0, left: this.step.budget };
    const over = r.is === "hunt_over";
    const looks = r.looks ?? [];
    this.running.hidden = over;
    this.form.hidden = over;
    set_attribute(this.bar, "width", `${(100 * r.left) / this.step.budget}%`);
    set_attribute(this.meter, "aria-valuenow", r.left);
    set_attribute(this.meter, "aria-valuetext", `${minutes(r.left)} left`);
    set_text(this.left_words, `${r.left} of ${minutes(this.step.budget)} left`);
    const done = new Set(looks.map((l) => l.measurement));
    this.looks.forEach((node, k) => {
      node.disabled = busy || done.has(k) || this.step.measurements[k].price > r.left;
      node.classList.toggle("done", done.has(k));
    });
    this.nothing.hidden = looks.length > 0;
    this.read.replaceChildren(...looks.map((l) => el("li", {}, el("span", { text: `${capital(localised(this.step.measurements[l.measurement]?.name ?? ""))}: ` }), el("b", { text: localised(String(l.reads)) }))));
    this.weigh();
    if (over && result !== this.shown) this.tell(result);
    this.shown = result;
  }

  tell(r) {
    const item = (k) => {
      const was = r.were.includes(k);
      const named = r.named.includes(k);
      const say = r.feedback?.find((f) => f.cause === k)?.say ?? "";
      const words = was ? (named ? "it was, and you named it" : "it was, and you did not name it") : named ? "it was not" : "was not, not named";
      return el("li", {}, el("p", { class: "part" }, sign(was === named), el("span", {}, el("b", { text: capital(localised(this.step.causes[k])) }), `: ${words}.`)), say ? el("p", { class: "cause-say", text: localised(say) }) : "");
    };
    const shown = this.step.causes.map((_, k) => k).filter((k) => r.were.includes(k) || r.named.includes(k));
    const others = this.step.causes.map((_, k) => k).filter((k) => !shown.includes(k) && r.feedback?.some((f) => f.cause === k && f.say));
    this.result.replaceChildren(outcome_line(r.right, r.right ? (this.many ? "All found" : "Found") : "Not found"),
      el("p", {}, "This was ", el("b", { text: localised(`“${r.house}”`) }), `, after ${minutes(r.spent)} of looking. The picture is open again.`), el("ul", { class: "parts" }, ...shown.map(item)),
      others.length ? el("details", {}, el("summary", { text: "The other causes" }), el("ul", { class: "parts" }, ...others.map(item))) : "");
  }
}
