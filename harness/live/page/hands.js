// SPDX-License-Identifier: MIT
// What a pair of hands does at once: open the tap, pass a cloud, pump and backup by hand.

import { el, set_text, fresh_id } from "./dom.js";
import { figure, unit_text } from "./numbers.js";
import { number_of } from "./value_row.js";

const by_hand = [["automatic", "Automatic"], ["on", "On"], ["off", "Off"]];

function slider(label, lever, unit, send) {
  const id = fresh_id("hand");
  const value = el("output", { for: id });
  const write = () => set_text(value, `${figure(Number(input.value), 0)} ${unit_text(unit)}`);
  const input = el("input", { id, type: "range", min: lever.least, max: lever.most, step: lever.step, value: 0,
    on: { input: write, change: () => send(`${input.value} ${unit}`) } });
  write();
  return { input, write, node: el("div", { class: "hand" }, el("label", { for: id, text: label }), input, value) };
}

function switch_of(name, label, send) {
  const group = fresh_id("by-hand");
  const inputs = by_hand.map(([value]) => el("input", { type: "radio", name: group, value, on: { change: () => send(value) } }));
  inputs[0].checked = true;
  return { inputs, node: el("fieldset", { class: "hand segments small" }, el("legend", { text: label }),
    ...inputs.map((input, i) => el("label", {}, input, el("span", { text: by_hand[i][1] })))) };
}

export class Hands {
  constructor(run, move) {
    this.run = run;
    const named = (name, fallback) => ({ ...fallback, ...run.opened.levers.find((l) => l.name === name) });
    const lever = (name, extra = {}) => (to) => move({ kind: "lever", name, to, ...extra });
    const hand = (name) => (to) => move({ kind: "hand", name, to });
    this.tap = slider("Open the tap", { ...named("open_tap", { least: 0 }), most: 15, step: 1 }, "l/min", lever("open_tap"));
    this.cloud = slider("Pass a cloud", { least: 0, most: 95, step: 5 }, "%", lever("passing_cloud", { over_s: 20 }));
    this.pump = switch_of("pump", "Pump", hand("pump"));
    const backup = run.opened.house.backup_kind ?? "boiler";
    this.backup = backup === "none" ? null : switch_of("backup", backup === "boiler" ? "Boiler" : "Immersion", hand("backup"));
    this.note = el("p", { class: "hint" });
    this.node = el("div", { class: "hands", role: "group", "aria-label": "By hand" }, this.tap.node, this.cloud.node, this.pump.node, this.backup?.node, this.note);
  }

  update() {
    const bench = this.run.frame.benches[this.run.drawn] ?? {};
    this.follow(this.tap, bench.levers?.open_tap);
    this.follow(this.cloud, Math.round(100 * number_of(bench.levers?.passing_cloud ?? 0)));
    this.check(this.pump, bench.hands?.pump ?? hand_from(bench.pump?.reason));
    this.check(this.backup, bench.hands?.backup ?? hand_from(bench.backup?.reason));
    const on = this.pump.inputs[1].checked;
    set_text(this.note, this.run.frame.locked ? "Just now you may look, and not touch." : this.run.series.length > 1 ? "Your hands act on the bench that is drawn."
      : on ? "By hand the pump here still stops at “never above”; many real controllers do not." : "");
  }

  follow(control, value) {
    if (document.activeElement === control.input) return;
    const number = number_of(value ?? 0);
    if (Number(control.input.value) === number) return;
    control.input.value = number;
    control.write();
  }

  check(control, value) {
    for (const input of control?.inputs ?? []) input.checked = input.value === value;
  }
}

/// For benches that do not say it apart: the reason tells of a hand.
const hand_from = (reason) => ({ hand_on: "on", hand_off: "off" }[reason] ?? "automatic");
