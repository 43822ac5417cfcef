// SPDX-License-Identifier: MIT
// A step in which one looks: what to keep an eye on, and time that runs to where it is to be seen.

import { el, button, set_text } from "./dom.js";
import { moment_text, with_unit } from "./numbers.js";
import { paragraphs } from "./telling.js";
import { short_name } from "./words.js";

const last_stretch_s = 5400;  // of this one sees every minute; what lies before passes faster
const quick = 3600;
const calm = 600;

/// Stops on the way to a moment: quickly at first, calmly at the end.
export const calm_stops = (until_s) => [{ until_s: until_s - last_stretch_s, pace: quick }, { until_s, pace: calm }];

export class WatchStep {
  constructor(step, index, tools) {
    this.step = step;
    this.tools = tools;
    this.chips = (step.look_at ?? []).map((name) => ({ name, value: el("b") }));
    this.go = button("", () => this.run(), { id: "run-to", class: "strong act" });
    this.list = el("ul", { class: "look-at", "aria-label": "What to keep an eye on" });
    this.node = el("div", { class: "watch" }, ...paragraphs(step.say), this.list, el("p", {}, this.go));
  }

  take() {
    this.tick();
  }

  /// Values and the button's words follow the run.
  tick() {
    const run = this.tools.run();
    if (!run) return;
    if (run !== this.run_shown) {
      this.run_shown = run;
      this.list.replaceChildren(...this.chips.filter(({ name }) => run.signal(name)).map(({ name, value }) =>
        el("li", {}, el("button", { type: "button", class: "look-chip", "aria-haspopup": "dialog", on: { click: () => this.tools.open_card(name) } }, `${short_name(run.signal(name))} `, value))));
    }
    for (const { name, value } of this.chips) if (run.signal(name)) set_text(value, with_unit(run.signal(name), run.now(name)));
    const until = this.step.until_s;
    const moment = Number.isFinite(until) ? moment_text(run.start_ms, until, run.length_s) : "";
    set_text(this.go, !moment ? "Run on" : run.at_s >= until ? `Show it again, up to ${moment}` : `Run to ${moment}`);
  }

  run() {
    const run = this.tools.run();
    const until = this.step.until_s ?? run.length_s;
    this.tools.travel({ from_s: run.at_s >= until ? Math.max(0, until - last_stretch_s) : null, stops: calm_stops(until) });
    this.tools.look();
  }
}
