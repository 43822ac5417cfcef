// SPDX-License-Identifier: MIT
// Strip charts of the run, one under the other, with one crosshair: drawn by uPlot.

import { el, set_text, by_id } from "./dom.js";
import { figure, clock_text, day_text, unit_text, value_text, with_unit, moment_text } from "./numbers.js";
import { short_name, who_sees } from "./words.js";
import { style_colour } from "./theme.js";
import { manner_of, has_manner } from "./manners.js";
import { Bands, axis_px, rem } from "./bands.js";

const steps_s = [10, 30, 60, 300, 600, 1800, 3600, 7200, 10800, 21600, 43200, 86400];
const strips = [
  { name: "Temperatures", short: "°C", units: ["degC"], height: 1.6 },
  { name: "Flow and pump speed", short: "l/min, %", units: ["l/min", "%"], height: 0.8 },
  { name: "Sun", short: "W/m²", units: ["W/m2"], height: 0.7 },
  { name: "Also chosen", short: "", units: null, height: 0.8 },
];
const usual = ["collector_reading_c", "second_collector_reading_c", "store_bottom_reading_c", "store_top_reading_c", "air_c",
  "flow_lpm", "pump_speed_pct", "sun_row_1_w_m2", "sun_row_2_w_m2"];

const other_dash = [3, 4];
const windows = [["Whole run", 0], ["Six hours", 21600], ["One hour", 3600], ["Ten minutes", 600]];

const same_unit = (strip, unit) => (strip.units ? strip.units.includes(unit) : !strips.some((s) => s.units?.includes(unit)));

export class Charts {
  constructor(run, open_card) {
    this.run = run;
    this.open_card = open_card;
    this.chosen = new Set(usual.filter((n) => run.columns.has(n)));
    this.window_s = 0;
    this.plots = [];
    this.bands = new Bands(run);
    this.area = el("div", { class: "strips" });
    this.node = el("div", { class: "charts" }, this.tools(), this.area);
    new ResizeObserver(() => this.fit()).observe(this.area);
    document.addEventListener("theme", () => this.build());
  }

  tools() {
    const name = "chart-window";
    const radios = windows.map(([word, seconds], i) => {
      const input = el("input", { type: "radio", name, value: seconds, on: { click: () => this.set_window(seconds) } });
      input.checked = i === 0;
      return el("label", {}, input, el("span", { text: word }));
    });
    this.radios = radios.map((label) => label.firstChild);
    this.crosshair = el("p", { class: "crosshair", text: "" });
    this.key_note = el("p", { class: "hint key-note", text: "Dotted: other setting" });
    return el("div", { class: "chart-tools" },
      el("fieldset", { class: "segments small" }, el("legend", { class: "unseen", text: "How much of the run the charts show" }), ...radios), this.chooser(), this.key_note, this.crosshair);
  }

  chooser() {
    const groups = Object.entries(who_sees).map(([key, heading]) => {
      const list = this.run.opened.signals.filter((s) => s.kind === "number" && s.seen_by === key);
      return el("fieldset", {}, el("legend", { text: heading }), ...list.map((s) => {
        const box = el("input", { type: "checkbox", on: { change: () => this.choose(s.name, box.checked) } });
        box.checked = this.chosen.has(s.name);
        box.dataset.signal = s.name;
        return el("label", { class: "check" }, box, ` ${short_name(s)} (${unit_text(s.unit) || "share"})`);
      }));
    });
    this.choices = el("div", { class: "choices" }, ...groups);
    return el("details", { class: "chooser" }, el("summary", { text: "Choose lines" }), this.choices);
  }

  choose(name, wanted) {
    if (wanted) this.chosen.add(name);
    else this.chosen.delete(name);
    for (const box of this.choices.querySelectorAll("input")) if (box.dataset.signal === name) box.checked = wanted;
    this.build();
  }

  set_window(seconds) {
    this.window_s = seconds;
    this.set_zoom(null);
  }

  /// [from_s, to_s], or null for the window that is chosen.
  set_zoom(range) {
    this.zoom = range;
    for (const input of this.radios) input.checked = !range && Number(input.value) === this.window_s;
    this.draw(true);
  }

  range() {
    if (this.zoom) return this.zoom;
    if (!this.window_s) return [0, this.run.length_s];
    const to = Math.max(this.window_s, this.run.at_s);
    return [to - this.window_s, to];
  }

  build() {
    for (const p of this.plots) p.plot.destroy();
    this.plots = [];
    const benches = this.run.series.length;
    const nodes = [];
    for (const strip of strips) {
      const signals = [...this.chosen].map((n) => this.run.signal(n)).filter((s) => s && same_unit(strip, s.unit));
      if (signals.length) nodes.push(this.build_strip(strip, signals, benches));
    }
    this.area.replaceChildren(...nodes, this.bands.node);
    this.benches = benches;
    this.key_note.hidden = benches < 2;
    this.plots.forEach((p, i) => this.make_plot(p, i === this.plots.length - 1));
    this.fit();
    this.draw(true);
  }

  build_strip(strip, signals, benches) {
    const lines = [];
    let spared = 0;
    const chips = signals.map((signal) => {
      const manner = manner_of(signal.name, has_manner(signal.name) ? 0 : spared++);
      const own = Array.from({ length: benches }, (_, bench) => ({ signal, bench, manner, value: el("b") }));
      lines.push(...own);
      return this.chip(own);
    });
    const legend = el("div", { class: "legend" }, ...chips);
    const frame = el("div", { class: "strip-frame", tabindex: "0", role: "group",
      "aria-label": `${strip.name} over time. Arrow keys move the crosshair, plus and minus zoom, 0 shows the whole run.` });
    const entry = { strip, lines, frame };
    frame.addEventListener("keydown", (event) => this.key(event, entry));
    this.plots.push(entry);
    return el("section", { class: "strip" }, el("div", { class: "strip-head" }, el("h2", {}, el("span", { class: "unseen", text: `${strip.name} ` }), strip.short), legend), frame);
  }

  /// The sample, name and value of a signal; with two benches one under the other, first this one's.
  chip(lines) {
    const sample = el("canvas", { width: 26, height: 14, "aria-hidden": "true" });
    const pen = sample.getContext("2d");
    lines.forEach(({ bench, manner }, i) => {
      const y = lines.length > 1 ? 4 + 7 * i : 7;
      Object.assign(pen, { strokeStyle: style_colour(manner[0]), lineWidth: bench ? 1.5 : manner[2] });
      pen.setLineDash(bench ? other_dash : manner[1]);
      pen.beginPath();
      pen.moveTo(0, y);
      pen.lineTo(26, y);
      pen.stroke();
    });
    const values = lines.flatMap(({ value, bench }) => (bench ? [el("span", { class: "unseen", text: " other setting" }), " | ", value] : [value]));
    return el("button", { type: "button", class: "chip", on: { click: () => this.open_card(lines[0].signal.name) } }, sample, ` ${short_name(lines[0].signal)} `, ...values);
  }

  make_plot(entry, is_last) {
    const units = [...new Set(entry.lines.map((l) => l.signal.unit))].slice(0, 2);
    const ink = style_colour("--soft");
    const font = `${Math.round(rem() * 0.8)}px system-ui, sans-serif`;
    const grid = { stroke: style_colour("--line"), width: 1 };
    const axis = (unit, side) => ({ scale: unit, side, size: axis_px(), stroke: ink, font, grid: side === 3 ? grid : { show: false },
      ticks: { show: false }, label: undefined, values: (_, list) => list.map((v) => figure(v, Math.abs(list[1] - list[0]) < 1 ? 1 : 0)) });
    const y_axes = units.map((unit, i) => axis(unit, i ? 1 : 3));
    if (units.length === 1) y_axes.push({ ...axis(units[0], 1), values: (_, list) => list.map(() => "") });
    const scales = { x: { time: false, range: () => this.range() } };
    for (const unit of units) scales[unit] = { range: (_, low, high) => y_range(unit, low, high) };
    entry.plot = new uPlot({
      width: 300, height: 120, legend: { show: false }, scales, padding: [8, 0, 0, 0],
      cursor: { sync: { key: "noonbench" }, drag: { x: true, y: false, setScale: false }, y: false, points: { size: 7 } },
      axes: [{ incrs: steps_s, space: rem() * 4.4, size: is_last ? rem() * 1.4 : 4, stroke: ink, font, grid, ticks: { show: false },
        values: (_, list) => list.map((v) => (is_last ? this.tick_text(v, list[1] - list[0]) : "")) }, ...y_axes],
      series: [{}, ...entry.lines.map((l) => ({ scale: l.signal.unit, stroke: style_colour(l.manner[0]), width: l.bench ? 1.5 : l.manner[2],
        dash: l.bench ? other_dash : l.manner[1], points: { show: false } }))],
      hooks: { setCursor: [(u) => this.cursor(entry, u)], setSelect: [(u) => this.select(u)], draw: [(u) => this.draw_now(u)] },
    }, [[0], ...entry.lines.map(() => [null])], entry.frame);
    entry.plot.over.addEventListener("dblclick", () => this.set_window(this.window_s));
    entry.plot.root.setAttribute("aria-hidden", "true");
  }

  /// A clock time; at the midnights of a longer run the day.
  tick_text(at_s, apart_s) {
    const clock = clock_text(this.run.start_ms, at_s, apart_s < 60);
    return this.run.length_s > 86400 && clock === "00:00" ? day_text(this.run.start_ms, at_s) : clock;
  }

  draw_now(u) {
    const x = u.valToPos(this.run.at_s, "x", true);
    if (x < u.bbox.left || x > u.bbox.left + u.bbox.width) return;
    const pen = u.ctx;
    pen.save();
    pen.strokeStyle = style_colour("--ink");
    pen.globalAlpha = 0.55;
    pen.lineWidth = devicePixelRatio;
    pen.beginPath();
    pen.moveTo(x, u.bbox.top);
    pen.lineTo(x, u.bbox.top + u.bbox.height);
    pen.stroke();
    pen.restore();
  }

  select(u) {
    if (u.select.width < 12) return;
    const from = u.posToVal(u.select.left, "x");
    const to = u.posToVal(u.select.left + u.select.width, "x");
    u.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
    this.set_zoom([from, to]);
  }

  cursor(entry, u) {
    const i = u.cursor.idx;
    const shown = u.cursor.left >= 0 && i !== null && i !== undefined;
    entry.shown = shown ? i : null;
    if (entry === this.plots[0]) {
      set_text(this.crosshair, shown ? `At ${moment_text(this.run.start_ms, u.data[0][i], this.run.length_s, true)}` : "");
    }
    this.write(entry);
  }

  write(entry) {
    entry.lines.forEach((line, k) => {
      const value = entry.shown === null || entry.shown === undefined
        ? this.run.now(line.signal.name, line.bench) : entry.plot.data[k + 1][entry.shown];
      const alone = this.benches > 1 && line.bench === 0;
      set_text(line.value, alone ? value_text(line.signal, value) : with_unit(line.signal, value));
    });
  }

  key(event, entry) {
    const u = entry.plot;
    const xs = u.data[0];
    const to_index = (i) => u.setCursor({ left: u.valToPos(xs[Math.max(0, Math.min(xs.length - 1, i))], "x"), top: 10 });
    const now = u.cursor.idx ?? xs.length - 1;
    const stride = event.shiftKey ? 60 : Math.max(1, Math.round(xs.length / 300));
    const [from, to] = this.range();
    const middle = xs[now] ?? (from + to) / 2;
    const zoom = (by) => this.set_zoom([Math.max(0, middle - (middle - from) * by), Math.min(this.run.length_s, middle + (to - middle) * by)]);
    const act = { ArrowLeft: () => to_index(now - stride), ArrowRight: () => to_index(now + stride), Home: () => to_index(0),
      End: () => to_index(xs.length - 1), "+": () => zoom(0.6), "=": () => zoom(0.6), "-": () => zoom(1.6), 0: () => this.set_window(0) }[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  /// The other bench has rows of its own; they are put beside the first one's times.
  columns(entry) {
    const [first, second] = this.run.series;
    const beside = second && rows_beside(first.at, second.at);
    return [first.at, ...entry.lines.map((l) => {
      const column = this.run.series[l.bench].columns[this.run.columns.get(l.signal.name)];
      return l.bench ? beside.map((i) => (i < 0 ? null : column[i])) : column;
    })];
  }

  fit() {
    const width = this.area.clientWidth;
    if (!width) return;
    const sum = this.plots.reduce((s, p) => s + p.strip.height, 0);
    const heads = [...this.area.querySelectorAll(".strip-head")].reduce((s, h) => s + h.offsetHeight, 0);
    const others = heads + rem() * 1.6 + this.bands.height() + 4;
    const room = document.body.clientWidth < 1100 ? 0 : by_id("panels").clientHeight - this.node.firstChild.offsetHeight - 12 - others;
    const unit = Math.max(58, Math.min(240, room / sum));
    this.plots.forEach(({ plot, strip }, i) => plot.setSize({ width, height: Math.round(unit * strip.height) + (i === this.plots.length - 1 ? 18 : 0) }));
    this.bands.fit(width);
    this.bands.draw(this.range());
  }

  /// At most four times a second; not at all while nobody can see it.
  draw(now = false) {
    if (!this.area.isConnected || !this.area.clientWidth) return;
    if (this.benches !== this.run.series.length) {
      this.build();
      return;
    }
    const time = performance.now();
    clearTimeout(this.later);
    if (!now && time - (this.drawn_ms ?? 0) < 250) {
      this.later = setTimeout(() => this.draw(true), 260);  // the last picture of a halted run counts too
      return;
    }
    this.drawn_ms = time;
    for (const entry of this.plots) {
      entry.plot.setData(this.columns(entry));
      this.write(entry);
    }
    this.bands.draw(this.range());
  }
}

function rows_beside(times, others) {
  let j = -1;
  return times.map((t) => {
    while (j + 1 < others.length && others[j + 1] <= t) ++j;
    return t > (others[others.length - 1] ?? -1) ? -1 : j;
  });
}

function y_range(unit, low, high) {
  if (low === null || high === null || low === undefined) return [0, 1];
  const least = { "W/m2": [0, 1000], "l/min": [0, 3], "%": [0, 100], degC: [0, 60] }[unit] ?? [low, low + 1];
  const [from, to] = [Math.min(low, least[0]), Math.max(high, least[1])];
  return [from < 0 ? from - 1 : from, to + (to - from) * 0.05];
}
