// SPDX-License-Identifier: MIT
// The difference needle: where collector minus store bottom stands against stop and start.

import { el, svg, set_text, set_attribute } from "./dom.js";
import { figure } from "./numbers.js";

const pivot = { x: 220, y: 206 };
const radius = 168;
const band = 34;
const end_deg = 84;
const scale_deg = 72;

/// A half-span shows twice and a half what lies between stop and start, at least 16 K.
const half_span_k = (n) => Math.max(16, 2.5 * (n.start_k - n.stop_k));

function angle_deg(n, k) {
  const middle = (n.stop_k + n.start_k) / 2;
  return Math.min(end_deg, Math.max(-end_deg, ((k - middle) / half_span_k(n)) * scale_deg));
}

function point(angle, at) {
  const a = (angle * Math.PI) / 180;
  return `${(pivot.x + at * Math.sin(a)).toFixed(1)} ${(pivot.y - at * Math.cos(a)).toFixed(1)}`;
}

function arc(from, to) {
  return `M${point(from, radius)}A${radius} ${radius} 0 0 1 ${point(to, radius)}L${point(to, radius - band)}A${radius - band} ${radius - band} 0 0 0 ${point(from, radius - band)}Z`;
}

function ticks(n) {
  const middle = (n.stop_k + n.start_k) / 2;
  const half = (half_span_k(n) * end_deg) / scale_deg;
  let d = "";
  for (let k = Math.ceil((middle - half) / 5) * 5; k <= middle + half; k += 5) {
    const a = angle_deg(n, k);
    if (Math.abs(a) < end_deg) d += `M${point(a, radius - band)}L${point(a, radius - band - 7)}`;
  }
  return d;
}

const hand = (cls) => svg("path", { class: cls, d: `M${pivot.x - 6} ${pivot.y}L${pivot.x - 1.2} ${pivot.y - radius + 6}h2.4L${pivot.x + 6} ${pivot.y}Z` });

export class Needle {
  /// open(): shows the card of the difference.
  constructor(open) {
    this.rest = svg("path", { class: "dial-rest" });
    this.between = svg("path", { class: "dial-between" });
    this.go = svg("path", { class: "dial-go" });
    this.go_lines = svg("path", { class: "dial-go-lines" });
    this.ticks = svg("path", { class: "dial-ticks" });
    this.stop = this.mark();
    this.start = this.mark();
    this.other = hand("hand other");
    this.hand = hand("hand");
    this.text = svg("text", { class: "dial-figure", x: pivot.x, y: 262, "text-anchor": "middle" });
    this.drawing = svg("svg", { class: "needle", viewBox: "0 0 440 298" }, this.rest, this.between, this.go, this.go_lines,
      this.ticks, this.stop.node, this.start.node, this.other, this.hand, svg("circle", { class: "dial-pivot", cx: pivot.x, cy: pivot.y, r: 11 }),
      this.text, svg("text", { class: "dial-note", x: pivot.x, y: 290, "text-anchor": "middle", text: "collector minus store bottom" }),
      svg("text", { class: "dial-side", x: 66, y: 232, "text-anchor": "middle", text: "stops" }),
      svg("text", { class: "dial-side", x: 374, y: 232, "text-anchor": "middle", text: "may start" }));
    this.node = el("button", { type: "button", class: "needle-button", "aria-haspopup": "dialog", on: { click: open } }, el("span", { class: "unseen", text: "Difference needle: " }), this.drawing);
  }

  mark() {
    const line = svg("path", { class: "dial-mark" });
    const text = svg("text", { class: "dial-word" });
    return { line, text, node: svg("g", {}, line, text) };
  }

  set_mark(mark, word, k, angle, left) {
    mark.line.setAttribute("d", `M${point(angle, radius - band - 4)}L${point(angle, radius + 8)}`);
    const [x] = point(angle, radius + 8).split(" ").map(Number);
    mark.text.setAttribute("text-anchor", left ? "end" : "start");
    mark.text.setAttribute("x", x + (left ? -4 : 4));
    mark.text.setAttribute("y", 22);
    set_text(mark.text, `${word} ${figure(k, k % 1 ? 1 : 0)} K`);
  }

  dial(n) {
    const key = `${n.stop_k} ${n.start_k}`;
    if (key === this.key) return;
    this.key = key;
    const [stop, start] = [angle_deg(n, n.stop_k), angle_deg(n, n.start_k)];
    this.rest.setAttribute("d", arc(-end_deg, stop));
    this.between.setAttribute("d", arc(stop, start));
    this.go.setAttribute("d", arc(start, end_deg));
    let lines = "";
    for (let a = start + 3; a < end_deg; a += 4) lines += `M${point(a, radius - 1)}L${point(Math.min(end_deg, a + 4), radius - band + 1)}`;
    this.go_lines.setAttribute("d", lines);
    this.ticks.setAttribute("d", ticks(n));
    this.set_mark(this.stop, "stop", n.stop_k, stop, true);
    this.set_mark(this.start, "start", n.start_k, start, false);
  }

  /// n: {gap_k, start_k, stop_k}; other: the second bench's needle, or nothing.
  update(n, other) {
    if (!n) return;
    this.dial(n);
    const known = Number.isFinite(n.gap_k);
    this.drawing.classList.toggle("lost", !known);
    if (known) set_attribute(this.hand, "transform", `rotate(${angle_deg(n, n.gap_k).toFixed(1)} ${pivot.x} ${pivot.y})`);
    this.other.style.display = other && Number.isFinite(other.gap_k) ? "" : "none";
    if (other && Number.isFinite(other.gap_k)) set_attribute(this.other, "transform", `rotate(${angle_deg(n, other.gap_k).toFixed(1)} ${pivot.x} ${pivot.y})`);
    const text = known ? `${figure(n.gap_k, 1)} K` : "no reading";
    set_text(this.text, text);
  }
}
