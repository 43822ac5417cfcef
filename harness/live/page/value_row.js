// SPDX-License-Identifier: MIT
// One thing that can be changed: its name, a control that checks what is typed, its value now, and
// the way back to what it was.

import { el, button, set_text, fresh_id } from "./dom.js";
import { figure, unit_text, localised, plain_word } from "./numbers.js";

/// Leading number of a text such as "8 K"; NaN if there is none.
export const number_of = (text) => Number.parseFloat(String(text ?? ""));

const decimals_of = (step) => Math.min(4, (String(step ?? 0).split(".")[1] ?? "").length);
const capital = (text) => text && text[0].toUpperCase() + text.slice(1);

/// spec: {label, about, kind: number|choice|time_of_day|text, unit, least, most, step,
///        slider: true for a slider beside, choices: [[value, word]...], base: as begun, healthy: what
///        "back" goes to (base if missing), back_word, send(text)}
export class ValueRow {
  constructor(spec) {
    this.spec = spec;
    this.id = fresh_id("value");
    this.healthy = spec.healthy ?? spec.base;
    this.control = this.make_control();
    this.present = el("output", { class: "present", for: this.id });
    this.back = button(spec.back_word ?? "Back", () => this.send(this.healthy), { class: "quiet back", "aria-label": `${spec.back_word ?? "Back"}: ${spec.label}, ${this.words(this.healthy)}` });
    this.error = el("p", { class: "row-error", id: `${this.id}-error`, role: "alert" });
    this.node = el("div", { class: "value-row" }, el("label", { for: this.id, text: capital(spec.label) }),
      el("div", { class: "value-control" }, this.slide(), this.control, spec.kind === "number" && spec.unit !== "1" ? el("span", { class: "unit", text: unit_text(spec.unit) }) : ""),
      this.present, this.back, spec.about ? el("p", { class: "row-about", id: `${this.id}-about`, text: spec.about }) : "", this.error);
    this.control.setAttribute("aria-describedby", `${spec.about ? `${this.id}-about ` : ""}${this.id}-error`);
    this.update(undefined);
  }

  make_control() {
    const s = this.spec;
    const on = { change: () => this.changed() };
    if (s.kind === "choice" || s.kind === "time_of_day") {
      const choices = s.kind === "choice" ? s.choices : quarter_hours();
      return el("select", { id: this.id, on }, ...choices.map(([value, word]) => el("option", { value, text: word })));
    }
    if (s.kind === "text") return el("input", { id: this.id, type: "text", maxlength: 60, on });
    return el("input", { id: this.id, type: "number", inputmode: "decimal", min: s.least, max: s.most, step: s.step ?? "any", on });
  }

  slide() {
    const s = this.spec;
    if (!s.slider || s.kind !== "number") return "";
    this.slider = el("input", { type: "range", min: s.least, max: s.most, step: s.step ?? (s.most - s.least) / 100, "aria-label": `${s.label}, slider`,
      on: { input: () => { this.control.value = this.slider.value; }, change: () => this.changed() } });
    return this.slider;
  }

  changed() {
    const s = this.spec;
    if (s.kind !== "number") return this.send(this.control.value.trim());
    if (!this.control.value || !this.control.checkValidity()) {
      if (s.least === undefined) return this.complain("Type a number.");
      const d = decimals_of(s.step);
      const steps = s.step ? ` in steps of ${figure(s.step, d)}` : "";
      return this.complain(`Allowed: ${figure(s.least, d)} to ${figure(s.most, d)} ${unit_text(s.unit)}${steps}.`);
    }
    return this.send(s.unit === "1" ? this.control.value : `${this.control.value} ${s.unit}`);
  }

  send(text) {
    this.complain("");
    this.spec.send(text, (problem) => this.complain(problem));
  }

  complain(problem) {
    set_text(this.error, localised(problem));
    if (problem) this.control.setAttribute("aria-invalid", "true");
    else this.control.removeAttribute("aria-invalid");
  }

  words(value) {
    const s = this.spec;
    if (s.kind === "choice") return s.choices.find(([v]) => String(v) === String(value))?.[1] ?? plain_word(value);
    if (s.kind === "number") {
      const number = number_of(value);
      const unit = unit_text(s.unit);
      const d = s.step ? decimals_of(s.step) : decimals_of(number);
      return Number.isFinite(number) ? `${figure(number, d)}${unit ? `\u00a0${unit}` : ""}` : String(value);
    }
    return plain_word(value ?? "");
  }

  /// The value now as the bench says it; undefined when it is what it was at the start.
  update(value) {
    const key = String(value);
    if (key === this.shown) return;
    this.shown = key;
    const moved = value !== undefined && value !== this.spec.base;
    const present = value ?? this.spec.base;
    set_text(this.present, moved ? `now ${this.words(present)}` : this.spec.rest_word === "untouched" ? "untouched" : `${this.spec.rest_word ?? "as begun"}: ${this.words(present)}`);
    this.node.classList.toggle("moved", moved);
    this.back.hidden = String(present) === String(this.healthy);
    if (document.activeElement === this.control && !moved) return;
    this.control.value = this.spec.kind === "number" ? number_of(present) : present;
    if (this.slider) this.slider.value = this.control.value;
  }
}

function quarter_hours() {
  return Array.from({ length: 97 }, (_, i) => {
    const text = `${String(Math.floor(i / 4)).padStart(2, "0")}:${String((i % 4) * 15).padStart(2, "0")}`;
    return [text, text];
  });
}
