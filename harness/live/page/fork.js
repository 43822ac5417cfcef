// SPDX-License-Identifier: MIT
// The same morning with another setting: pick a moment and a setting; both run on side by side.

import { el, button, by_id, fresh_id } from "./dom.js";
import { clock_text, day_text, moment_text } from "./numbers.js";
import { setting_row } from "./settings.js";
import { setting_name } from "./words.js";

export class Fork {
  /// then(at_s, pace): runs on at that pace once the benches stand there.
  constructor(run, say, then) {
    this.then = then;
    this.run = run;
    this.say = say;
    this.dialog = by_id("fork");
  }

  open() {
    const run = this.run;
    const days = Math.ceil(run.length_s / 86400);
    const morning_s = Math.max(run.frame?.back_to_s ?? 0, Math.min(run.at_s, Math.floor(run.at_s / 86400) * 86400 + 6 * 3600));
    this.day = el("select", { id: fresh_id("fork-day") }, ...Array.from({ length: days }, (_, i) => el("option", { value: i, text: day_text(run.start_ms, i * 86400) })));
    this.day.value = Math.floor(morning_s / 86400);
    this.time = el("input", { id: fresh_id("fork-time"), type: "time", required: true, value: clock_text(run.start_ms, morning_s, false) });
    this.pick = el("select", { id: fresh_id("fork-setting"), on: { change: () => this.show_setting() } },
      ...run.opened.settings.map((s) => el("option", { value: s.name, text: setting_name(s) })));
    this.place = el("div");
    this.error = el("p", { class: "row-error", role: "alert" });
    const form = el("form", { on: { submit: (e) => this.submit(e) } },
      el("div", { class: "card-head" }, el("h2", { id: "fork-title", text: "Same morning, other setting" }), button("Close", () => this.dialog.close(), { class: "quiet" })),
      el("p", { text: `Both benches stand at the moment you pick; the other one gets your setting; then both run on side by side. You can go back to ${run.frame?.back_to_s > 0 ? moment_text(run.start_ms, run.frame.back_to_s, run.length_s) : "the beginning of the run"}.` }),
      el("div", { class: "fork-fields" }, ...(days > 1 ? [el("label", { for: this.day.id, text: "Day" }), this.day] : []),
        el("label", { for: this.time.id, text: "From" }), this.time, el("label", { for: this.pick.id, text: "Setting" }), this.pick),
      this.place, this.error,
      el("div", { class: "card-foot" }, el("button", { type: "submit", class: "strong", text: "Run both" }),
        run.series.length > 1 ? button("Back to one bench", () => this.undo()) : ""));
    this.dialog.replaceChildren(form);
    this.show_setting();
    this.dialog.showModal();
  }

  show_setting() {
    const setting = this.run.opened.settings.find((s) => s.name === this.pick.value);
    this.row = setting_row({ ...setting, label: `${setting_name(setting)} on the other bench` }, (text) => {
      this.text = text;
      this.row.update(text);
    });
    this.text = setting.value;
    this.place.replaceChildren(this.row.node);
  }

  submit(event) {
    event.preventDefault();
    if (this.row.control.getAttribute("aria-invalid")) return;
    const [h, m] = this.time.value.split(":").map(Number);
    const into_first = (this.run.start_ms / 1000) % 86400;
    const at_s = Number(this.day.value) * 86400 + h * 3600 + m * 60 - into_first;
    const least = this.run.frame?.back_to_s ?? 0;
    if (!(at_s >= least && at_s <= this.run.length_s)) {
      this.error.textContent = `Pick a moment from ${moment_text(this.run.start_ms, least, this.run.length_s)} on.`;
      return;
    }
    const pace = this.run.frame?.pace || 600;
    this.say({ do: "fork", at_s, moves: [{ kind: "setting", name: this.pick.value, to: this.text }] });
    this.then(at_s, pace);
    this.dialog.close();
  }

  undo() {
    this.say({ do: "unfork" });
    this.dialog.close();
  }
}
