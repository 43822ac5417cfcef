// SPDX-License-Identifier: MIT
// The card of a figure: what it is, where it is measured, who could see it, and its trace.

import { el, button, set_text, by_id } from "./dom.js";
import { with_unit, clock_text, figure } from "./numbers.js";
import { short_name, where_measured, who_sees, note_on_unit, caution_for } from "./words.js";
import { style_colour } from "./theme.js";

const points = 600;
const gap = { name: "gap", title: "Difference now", kind: "number", unit: "K", decimals: 1, seen_by: "customers_log",
  meaning: "Collector minus store bottom, both as the controller reads them: what it compares with stop and start", where: "Worked out from the two sensors." };
const name_of = (signal) => signal.title ?? short_name(signal);

export class Card {
  constructor(run, say, charts) {
    this.run = run;
    this.say = say;
    this.charts = charts;
    this.dialog = by_id("card");
    this.dialog.onclose = () => this.shut();
    this.dialog.onclick = (event) => {
      if (event.target === this.dialog) this.dialog.close();
    };
  }

  open(name) {
    const signal = this.run.signal(name);
    if (signal) this.show(signal);
  }

  /// The needle's own figure is no signal of the bench: it is two readings, one less the other.
  open_gap() {
    const parts = ["collector_reading_c", "store_bottom_reading_c"].map((n) => this.run.columns.get(n));
    if (parts.includes(undefined)) return;
    const less = (a, b) => (Number.isFinite(a) && Number.isFinite(b) ? a - b : null);
    this.show({ ...gap, now: (bench) => this.run.frame?.benches[bench]?.needle?.gap_k ?? null,
      trace: (series) => series.columns[parts[0]].map((v, i) => less(v, series.columns[parts[1]][i])) });
  }

  now(bench) {
    return this.signal.now ? this.signal.now(bench) : this.run.now(this.signal.name, bench);
  }

  show(signal) {
    this.signal = signal;
    this.value = el("p", { class: "card-value" });
    this.trace = el("div", { class: "card-trace", role: "img", "aria-label": `Trace of ${name_of(signal)}` });
    const facts = [["What it is", sentence_of(signal.meaning)], ["Where", signal.where ?? where_measured(signal)], ["Who sees it", who_sees[signal.seen_by] ?? signal.seen_by], ["Unit", note_on_unit(signal.unit)]];
    const caution = caution_for(signal);
    this.dialog.replaceChildren(
      el("div", { class: "card-head" }, el("h2", { id: "card-title", text: name_of(signal) }), button("Close", () => this.dialog.close(), { class: "quiet" })),
      this.value, this.neighbours(signal.name), el("dl", {}, ...facts.filter(([, text]) => text).flatMap(([term, text]) => [el("dt", { text: term }), el("dd", { text })])),
      caution ? el("p", { class: "caution", text: caution }) : "", this.trace, signal.kind === "number" && !signal.trace ? this.chart_box(signal.name) : "");
    if (!this.dialog.open) this.dialog.showModal();
    this.update();
    this.draw();
    if (signal.kind !== "choice" && !signal.trace && this.run.at_s > 0) this.say({ do: "course", signal: signal.name, from_s: 0, to_s: this.run.at_s, points, ...(this.run.drawn ? { bench: this.run.drawn } : {}) });
  }

  /// From one layer of the store to the next, for hands that cannot touch so finely.
  neighbours(name) {
    const layer = Number(/^store_layer_(\d+)_c$/.exec(name)?.[1]);
    if (!layer) return "";
    const step = (by, word) => {
      const next = `store_layer_${String(layer + by).padStart(2, "0")}_c`;
      return button(word, () => {
        this.open(next);
        this.dialog.querySelector(by > 0 ? ".layer-up:enabled, .layer-down" : ".layer-down:enabled, .layer-up")?.focus();
      }, { disabled: !this.run.columns.has(next), class: by > 0 ? "layer-up" : "layer-down" });
    };
    return el("p", { class: "card-layers" }, step(1, "One layer up"), " ", step(-1, "One layer down"));
  }

  chart_box(name) {
    const box = el("input", { type: "checkbox", on: { change: () => this.charts.choose(name, box.checked) } });
    box.checked = this.charts.chosen.has(name);
    return el("label", { class: "check" }, box, " Show this line in the charts");
  }

  update() {
    if (!this.dialog.open || !this.signal) return;
    const both = this.run.series.map((_, i) => with_unit(this.signal, this.now(i)));
    set_text(this.value, both.length > 1 ? `${both[0]} · other setting ${both[1]}` : both[0]);
  }

  /// What came with the frames at first; the bench's own course of every second when it answers.
  draw(course) {
    if (this.signal.kind === "choice") return;
    const series = this.run.series[this.run.drawn];
    const values = this.signal.trace ? this.signal.trace(series) : series.columns[this.run.columns.get(this.signal.name)].slice();
    const data = course ? [course.map((p) => p[0]), course.map((p) => p[1]), course.map((p) => p[2])]
      : [series.at.slice(), values, values];
    if (!data[0].length) return;
    this.plot?.destroy();
    const [ink, line, colour] = ["--soft", "--line", "--teal"].map(style_colour);
    const axis = { stroke: ink, font: "13px system-ui, sans-serif", grid: { stroke: line, width: 1 }, ticks: { show: false } };
    this.plot = new uPlot({
      width: this.trace.clientWidth || 320, height: 170, legend: { show: false }, cursor: { show: false }, scales: { x: { time: false } },
      axes: [{ ...axis, size: 24, space: 70, incrs: [60, 300, 600, 1800, 3600, 7200, 10800, 21600, 43200, 86400], values: (_, l) => l.map((v) => clock_text(this.run.start_ms, v, false)) },
        { ...axis, size: 52, values: (_, l) => l.map((v) => figure(v, Math.abs(l[1] - l[0]) < 1 ? 1 : 0)) }],
      series: [{}, { stroke: colour, width: 2, points: { show: false } }, { stroke: colour, width: 2, points: { show: false } }],
      bands: [{ series: [2, 1], fill: style_colour("--teal-tint") }],
    }, data, this.trace);
  }

  course(message) {
    if ((message.bench ?? 0) !== this.run.drawn) return;
    if (this.dialog.open && this.signal?.name === message.signal && Array.isArray(message.points) && message.points.length) this.draw(message.points);
  }

  shut() {
    this.plot?.destroy();
    this.plot = null;
    this.signal = null;
  }
}

const sentence_of = (text) => (text ? text[0].toUpperCase() + text.slice(1) + (/[.?!]$/.test(text) ? "" : ".") : "");
