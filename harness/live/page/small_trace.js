// SPDX-License-Identifier: MIT
// A small drawing of a stretch of a run: a few lines over the time of day, with marks at moments.

import { el, svg } from "./dom.js";
import { clock_text, figure, unit_text } from "./numbers.js";

const width = 360;
const left = 36;
const right = 10;
const row = 15;         // of words above the lines, of bands below
const letter_width = 7.4;
const plot_height = 118;
const steps_s = [300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800];

const is_number = (v) => typeof v === "number" && Number.isFinite(v);
const is_on_off = (line) => ["", "1", "switch"].includes(line.unit) && line.points.every(([, v]) => v === null || v === 0 || v === 1 || typeof v === "boolean");

/// Round figures of an axis, about four of them.
function round_steps(low, high) {
  const rough = Math.max(1e-6, (high - low) / 4);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((k) => k * power).find((k) => k >= rough);
  const out = [];
  for (let v = Math.ceil(low / step) * step; v <= high + step * 1e-6; v += step) out.push(v);
  return { out, decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) };
}

function span(lines) {
  const values = lines.flatMap((l) => l.points.map((p) => p[1])).filter(is_number);
  if (!values.length) return [0, 1];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const margin = Math.max(0.5, (high - low) * 0.06);
  return [low - margin, high + margin];
}

function path_of(points, x, y) {
  let d = "";
  let down = false;
  for (const [s, v] of points) {
    if (!is_number(v)) {
      down = false;
      continue;
    }
    d += `${down ? "L" : "M"}${x(s).toFixed(1)} ${y(v).toFixed(1)}`;
    down = true;
  }
  return d;
}

function pen(node, [colour, dash, thick]) {
  node.style.stroke = `var(${colour})`;
  node.style.strokeWidth = thick;
  node.style.strokeDasharray = dash.join(" ") || "none";
  return node;
}

/// Blocks where an on/off signal is on.
function blocks(line, x, y) {
  let d = "";
  let from = null;
  line.points.forEach(([s, v], i) => {
    if (v && from === null) from = s;
    if (from === null || (v && i < line.points.length - 1)) return;
    d += `M${x(from).toFixed(1)} ${y}H${x(s).toFixed(1)}v${row - 5}H${x(from).toFixed(1)}Z`;
    from = null;
  });
  return svg("path", { class: "trace-block", d });
}

/// Letters at the ends of lines, pushed apart so that all can be read.
function end_letters(lines, x, y, bottom) {
  const ends = lines.filter((l) => l.letter).map((l) => ({ l, last: l.points.filter((p) => is_number(p[1])).pop() })).filter((e) => e.last)
    .map((e) => ({ ...e, at: y(e.last[1]) })).sort((a, b) => a.at - b.at);
  ends.forEach((e, i) => { if (i) e.at = Math.max(e.at, ends[i - 1].at + 12); });
  for (let i = ends.length - 1, most = bottom - 4; i >= 0; --i, most = ends[i + 1].at - 12) ends[i].at = Math.min(ends[i].at, most);
  return ends.map((e) => svg("text", { class: "trace-letter", x: Math.min(width - right + 1, x(e.last[0]) + 3), y: e.at + 4, text: e.l.letter }));
}

function mark(m, i, x, top, bottom) {
  const at = x(m.at_s);
  const beyond = at + 8 + m.word.length * letter_width > width - 2;
  const sign = m.truth ? svg("path", { class: "mark-sign truth", d: `M${at} ${top - 2}l-5 -8h10z` }) : svg("circle", { class: "mark-sign", cx: at, cy: top - 6, r: 3.6 });
  return svg("g", {}, svg("path", { class: m.truth ? "mark-line truth" : "mark-line", d: `M${at} ${top - 2}V${bottom}` }), sign,
    svg("text", { class: "mark-word", x: at + (beyond ? -8 : 8), y: row * (i + 1) - 3, "text-anchor": beyond ? "end" : "start", text: m.word }));
}

/// spec: {from_s, to_s, start_ms, label, lines: [{name, unit, points, manner, letter}],
///        marks: [{at_s, word, truth}]}; label says in words what is drawn.
export function small_trace(spec) {
  const curves = spec.lines.filter((l) => !is_on_off(l));
  const bands = spec.lines.filter(is_on_off);
  const marks = spec.marks ?? [];
  const top = row * marks.length + 6;
  const bottom = top + (curves.length ? plot_height : 0);
  const x = (s) => left + ((s - spec.from_s) / Math.max(1, spec.to_s - spec.from_s)) * (width - left - right - (curves.some((l) => l.letter) ? 8 : 0));
  const units = [...new Set(curves.map((l) => l.unit))];
  const scale = new Map(units.map((unit) => [unit, span(curves.filter((l) => l.unit === unit))]));
  const y_of = (unit) => {
    const [low, high] = scale.get(unit);
    return (v) => bottom - ((v - low) / (high - low)) * plot_height;
  };
  const parts = [];
  if (units.length) {
    const { out, decimals } = round_steps(...scale.get(units[0]));
    for (const v of out) {
      const y = y_of(units[0])(v);
      parts.push(svg("path", { class: "trace-grid", d: `M${left} ${y.toFixed(1)}H${width - right}` }), svg("text", { class: "trace-tick", x: left - 4, y: y + 4, "text-anchor": "end", text: figure(v, decimals) }));
    }
  }
  const step = steps_s.find((s) => (spec.to_s - spec.from_s) / s <= 5) ?? 604800;
  const foot = bottom + bands.length * (row + 2);
  const into_day = (spec.start_ms / 1000) % step;
  for (let s = Math.ceil((spec.from_s + into_day) / step) * step - into_day; s <= spec.to_s; s += step) {
    parts.push(svg("path", { class: "trace-grid", d: `M${x(s).toFixed(1)} ${top}V${foot}` }));
    if (x(s) > left + 12 && x(s) < width - 14) parts.push(svg("text", { class: "trace-tick", x: x(s), y: foot + 14, "text-anchor": "middle", text: clock_text(spec.start_ms, s, false) }));
  }
  bands.forEach((line, i) => {
    const y = bottom + 3 + i * (row + 2);
    parts.push(blocks(line, x, y));
    if (line.letter) parts.push(svg("text", { class: "trace-letter", x: left - 6, y: y + row - 6, "text-anchor": "end", text: line.letter }));
  });
  for (const line of curves) parts.push(pen(svg("path", { class: "trace-line", d: path_of(line.points, x, y_of(line.unit)) }), line.manner));
  parts.push(...end_letters(curves, x, units.length ? y_of(units[0]) : () => 0, bottom));
  parts.push(...marks.map((m, i) => mark(m, i, x, top, foot)));
  const drawing = svg("svg", { class: "small-trace", viewBox: `0 0 ${width} ${foot + 20}`, role: "img", "aria-label": spec.label }, ...parts);
  return el("figure", { class: "trace-figure" }, drawing, el("figcaption", {}, ...spec.lines.filter((l) => l.name).map((l) => key_of(l, is_on_off(l), units))));
}

/// A sample of a line with its name; a unit that is not the axis's own is said with its reach.
function key_of(line, on_off, units) {
  const sample = on_off ? svg("path", { class: "trace-block", d: "M1 3H25V11H1Z" }) : pen(svg("path", { class: "trace-line", d: "M0 7H26" }), line.manner);
  const unit = unit_text(line.unit);
  const [low, high] = span([line]);
  const reach = !on_off && units.indexOf(line.unit) > 0 ? ` (${figure(low, 1)} to ${figure(high, 1)} ${unit})` : unit && !on_off ? ` (${unit})` : "";
  return el("span", { class: "trace-key" }, svg("svg", { viewBox: "0 0 26 14", width: 26, height: 14, "aria-hidden": "true" }, sample), ` ${line.name}${on_off ? ": on" : ""}${reach}`);
}
