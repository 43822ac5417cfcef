// SPDX-License-Identifier: MIT
// Things to tamper with, grouped as one would meet them: loop, roof, store, sensors and wires.

import { el, button, set_text } from "./dom.js";
import { ValueRow } from "./value_row.js";
import { tamper_groups, levers_of_the_hands } from "./words.js";
import { is_fitted, wire_words } from "./wires.js";

/// A meaning as a sentence, without its asides on how the bench reckons.
function sentence(text) {
  const plain = String(text ?? "").replace(/\s*\([^)]*(solved|scenario)[^)]*\)/g, "");
  return plain && plain[0].toUpperCase() + plain.slice(1);
}

function lever_row(lever, label, words, send) {
  const is_switch = lever.unit === "switch";
  const text = (number) => (is_switch || lever.unit === "1" ? String(number) : `${number} ${lever.unit}`);
  return new ValueRow({
    label: label ?? sentence(lever.meaning), about: label ? sentence(lever.meaning) : "", kind: is_switch ? "choice" : "number", unit: lever.unit, least: lever.least, most: lever.most,
    choices: is_switch ? [["0", words[0] ?? "no"], ["1", words[1] ?? "yes"]] : [], slider: true,
    base: text(lever.healthy), rest_word: "healthy", healthy: text(lever.healthy), back_word: "Back to healthy", send,
  });
}

function wire_row(wire, words, send) {
  return new ValueRow({
    label: words.label, kind: words.choices ? "choice" : "number", unit: wire.unit || "1", least: words.least, most: words.most, choices: words.choices ?? [],
    base: String(wire.value ?? words.healthy), healthy: words.healthy, rest_word: "untouched", back_word: "Back to healthy", send,
  });
}

export class Tamper {
  constructor(run, move) {
    this.run = run;
    this.levers = new Map();
    this.wires = new Map();
    const send = (kind, name) => (to, complain) => move({ kind, name, to }, complain);
    const left = new Map(run.opened.levers.filter((l) => !levers_of_the_hands.has(l.name)).map((l) => [l.name, l]));
    const groups = tamper_groups.map(([heading, caution, entries]) => {
      const rows = entries.filter(([name]) => left.has(name)).map(([name, label, ...words]) => {
        const row = lever_row(left.get(name), label, words, send("lever", name));
        left.delete(name);
        this.levers.set(name, row);
        return row.node;
      });
      if (heading.startsWith("Sensors")) rows.push(...this.wire_rows(send));
      return this.group(heading, caution, rows);
    });
    const others = [...left.values()].map((lever) => {
      const row = lever_row(lever, null, [], send("lever", lever.name));
      this.levers.set(lever.name, row);
      return row.node;
    });
    this.healthy = button("Everything back to healthy", () => this.all_back(), { class: "strong" });
    this.veil = el("p", { class: "notice", text: "The fault is hidden, so the values here are too. Ask for it under “About this run”." });
    this.body = el("div", {}, this.healthy, ...groups, others.length ? this.group("Other things", "", others) : "");
    this.node = el("form", { class: "rows", on: { submit: (e) => e.preventDefault() } },
      el("p", { class: "hint", text: "Break something and watch. On the bench nobody gets hurt; on a roof the cautions hold." }), this.veil, this.body);
  }

  wire_rows(send) {
    const fitted = (this.run.opened.wires ?? []).filter((wire) => is_fitted(wire, (name) => this.run.columns.has(name)));
    return fitted.map((wire) => {
      const words = wire_words(wire);
      const row = wire_row(wire, words, send("wire", wire.name));
      row.value_of = words.value_of;
      this.wires.set(wire.name, row);
      return row.node;
    });
  }

  group(heading, caution, rows) {
    if (!rows.length) return "";
    return el("details", { class: "group" }, el("summary", { text: heading }), caution ? el("p", { class: "caution", text: caution }) : "", ...rows);
  }

  all_back() {
    for (const rows of [this.levers, this.wires]) for (const row of rows.values()) if (!row.back.hidden) row.send(row.healthy);
  }

  update() {
    const bench = this.run.frame.benches[this.run.drawn] ?? {};
    this.veil.hidden = !this.run.title_hidden;
    if (this.run.sealed) set_text(this.veil, "The fault is sealed, so the values here are hidden.");
    this.body.hidden = this.run.title_hidden;
    for (const [name, row] of this.levers) row.update(plain_number(bench.levers?.[name], row));
    const touched = new Map((this.run.events[this.run.drawn] ?? []).filter((e) => e.what === "wire").map((e) => [e.name, e.to]));
    for (const [name, row] of this.wires) row.update(touched.has(name) ? row.value_of(touched.get(name)) : undefined);
    this.healthy.disabled = ![...this.levers.values(), ...this.wires.values()].some((row) => !row.back.hidden);
  }
}

/// A bench may say 0.5 or "0.5 l/day"; a row compares texts.
function plain_number(value, row) {
  if (value === undefined || typeof value === "string") return value;
  return row.spec.unit === "1" || row.spec.unit === "switch" ? String(value) : `${value} ${row.spec.unit}`;
}
