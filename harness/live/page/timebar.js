// SPDX-License-Identifier: MIT
// Time: hold, one second, faster, on to the next event, to a clock time, back.

import { el, button, by_id, set_text, set_attribute } from "./dom.js";
import { clock_text, day_text, moment_text } from "./numbers.js";

const paces = [1, 10, 60, 600, 3600];

export class Timebar {
  constructor(run, say, open_fork, save) {
    this.run = run;
    this.say = say;
    this.pace = 600;
    this.clock = el("p", { class: "clock" });
    this.day = el("span", { class: "clock-day" });
    this.time = el("span", { class: "clock-time" });
    this.clock.append(this.day, this.time);
    this.hold = button("Pause", () => this.toggle(), { class: "strong hold" });
    this.slider = el("input", { type: "range", min: 0, max: run.length_s, step: 1, value: 0, class: "moment", "aria-label": "Moment of the run; release to go there",
      on: { input: () => this.drag(), change: () => this.go(Number(this.slider.value)) } });
    this.back = el("p", { class: "back-note" });
    this.why = el("p", { class: "time-why", role: "status" });
    this.locked = "";
    this.nodes = [this.clock, el("div", { class: "time-hands" }, this.hold, button("+1 s", () => this.step(), { class: "rare", "aria-label": "+1 s: one second on" }),
      button("Next event", () => say({ do: "jump", to: "event" })), this.more(), this.paces()),
    el("div", { class: "moment-row" }, this.slider, this.back, this.why),
    el("div", { class: "time-more rare" }, this.go_to(), button("Same morning, other setting", open_fork), button("Save", save, { "aria-label": "Save this run as a file" }))];
  }

  /// On a phone the rarer hands wait behind this.
  more() {
    const node = button("More", () => {
      const is_open = by_id("timebar").classList.toggle("more-open");
      node.setAttribute("aria-expanded", is_open);
    }, { class: "more", "aria-expanded": "false" });
    return node;
  }

  paces() {
    this.radios = paces.map((times) => {
      const input = el("input", { type: "radio", name: "pace", value: times, on: { change: () => this.run_at(times) } });
      return input;
    });
    return el("fieldset", { class: "segments pace" }, el("legend", { class: "unseen", text: "Simulated seconds in a second" }),
      ...this.radios.map((input, i) => el("label", {}, input, el("span", { text: `×${paces[i]}` }))));
  }

  go_to() {
    const days = Math.ceil(this.run.length_s / 86400);
    this.day_pick = days > 1 ? el("select", { "aria-label": "Day" }, ...Array.from({ length: days }, (_, i) =>
      el("option", { value: i, text: day_text(this.run.start_ms, i * 86400) }))) : null;
    this.wanted = el("input", { type: "time", step: 60, required: true, value: "12:00", "aria-label": "Clock time to go to" });
    const form = el("form", { class: "go-to" }, this.day_pick, this.wanted, el("button", { type: "submit", text: "Go" }));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const [h, m] = this.wanted.value.split(":").map(Number);
      if (!Number.isFinite(h) || !Number.isFinite(m)) return;
      const midnight_s = -((this.run.start_ms / 1000) % 86400);
      this.go(midnight_s + Number(this.day_pick?.value ?? 0) * 86400 + h * 3600 + m * 60);
    });
    return form;
  }

  toggle() {
    this.run_at(this.run.frame?.pace > 0 || this.run.frame?.jumping ? 0 : this.pace);
  }

  run_at(times) {
    if (times > 0) this.pace = times;
    this.say({ do: "pace", times });
  }

  step() {
    this.say({ do: "step" });
  }

  go(to_s) {
    const least = this.run.frame?.back_to_s ?? 0;
    this.say({ do: "jump", to_s: Math.round(Math.min(this.run.length_s, Math.max(least, to_s))) });
    this.dragging = false;
  }

  drag() {
    this.dragging = true;
    const at = Number(this.slider.value);
    set_text(this.time, clock_text(this.run.start_ms, at));
    set_text(this.day, `go to, ${day_text(this.run.start_ms, at)}`);
  }

  /// Nobody moves time while there are words why.
  lock(why) {
    if (why === this.locked) return;
    this.locked = why;
    set_text(this.why, why);
    by_id("timebar").classList.toggle("time-locked", Boolean(why));
    for (const control of by_id("timebar").querySelectorAll("button:not(.more), input, select")) control.disabled = Boolean(why);
  }

  update(frame) {
    const run = this.run;
    set_text(this.hold, frame.pace > 0 || frame.jumping ? "Pause" : "Run");
    this.hold.disabled = Boolean(this.locked) || run.at_s >= run.length_s;
    for (const input of this.radios) input.checked = Number(input.value) === (frame.pace > 0 ? frame.pace : this.pace);
    const ended = run.at_s >= run.length_s ? " The run ends here." : "";
    const least = frame.back_to_s ?? 0;
    set_text(this.back, `You can go back to ${least > 0 ? moment_text(run.start_ms, least, run.length_s) : "the beginning of the run"}.${ended}`);
    if (this.dragging) return;
    set_text(this.day, frame.jumping ? "on the way" : day_text(run.start_ms, run.at_s));
    set_text(this.time, clock_text(run.start_ms, run.at_s));
    this.slider.value = run.at_s;
    this.slider.style.setProperty("--past", `${(100 * run.at_s) / run.length_s}%`);
    set_attribute(this.slider, "aria-valuetext", moment_text(run.start_ms, run.at_s, run.length_s));
  }
}
