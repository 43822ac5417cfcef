// SPDX-License-Identifier: MIT
// All settings of the controller as a form, made from the bench's own list.

import { el } from "./dom.js";
import { ValueRow } from "./value_row.js";
import { plain_word } from "./numbers.js";
import { setting_groups, setting_name, note_on_unit } from "./words.js";

const kinds = { number: "number", choice: "choice", switch: "choice", time_of_day: "time_of_day" };

const is_clock_time = (setting) => setting.kind === "text" && /^\d\d:\d\d$/.test(setting.value);

/// The control of one setting; send(text, complain).
export function setting_row(setting, send) {
  const words = setting.words ?? (setting.kind === "switch" ? ["off", "on"] : []);
  return new ValueRow({
    label: setting_name(setting), kind: is_clock_time(setting) ? "time_of_day" : kinds[setting.kind] ?? "text", unit: setting.unit, least: setting.least, most: setting.most,
    step: setting.step, choices: words.map((w) => [w, plain_word(w)]), base: setting.value, back_word: "Back",
    about: [setting.meaning, kinds[setting.kind] || is_clock_time(setting) ? "" : `Allowed: ${setting.allowed}.`, setting.ground ? `Why this default: ${setting.ground}` : ""].filter(Boolean).join(" "), send,
  });
}

export class Settings {
  constructor(run, move) {
    this.run = run;
    this.rows = new Map();
    const left = new Set(run.opened.settings);
    const groups = setting_groups.map(([heading, pattern]) => {
      const here = [...left].filter((s) => pattern.test(s.name));
      here.forEach((s) => left.delete(s));
      if (!here.length) return "";
      return el("details", { class: "group", open: heading === setting_groups[0][0] }, el("summary", { text: heading }), ...here.map((setting) => {
        const row = setting_row(setting, (to, complain) => move({ kind: "setting", name: setting.name, to }, complain));
        this.rows.set(setting.name, row);
        return row.node;
      }));
    });
    this.node = el("form", { class: "rows", on: { submit: (e) => e.preventDefault() } },
      el("p", { class: "hint", text: `A change works at once. ${note_on_unit("K")}` }), ...groups);
  }

  update() {
    const changed = this.run.frame.benches[this.run.drawn]?.settings ?? {};
    for (const [name, row] of this.rows) row.update(changed[name]);
  }
}
