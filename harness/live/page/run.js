// SPDX-License-Identifier: MIT
// What the page knows of the run that is open: plain data, changed only by what the bench says.

import { Series } from "./series.js";
import { civil_ms } from "./numbers.js";

export class Run {
  constructor(opened) {
    this.opened = opened;
    this.start_ms = civil_ms(opened.start);
    this.length_s = opened.length_s;
    this.columns = new Map(opened.signals.map((s, i) => [s.name, i]));
    this.series = [new Series(opened.signals.length)];
    this.events = [[]];
    this.sun = new Map();
    this.drawn = 0;
    this.at_s = 0;
    this.frame = null;
    this.title_hidden = false;  // what is wrong is not told
    this.sealed = false;        // the bench does, and nobody here can ask
  }

  signal(name) {
    return this.opened.signals[this.columns.get(name)];
  }

  /// What was seen of the same run before the line broke.
  inherit(other) {
    if (other.opened.path !== this.opened.path || other.opened.start !== this.opened.start || other.opened.signals.length !== this.opened.signals.length) return;
    this.series = [other.series[0]];
    this.events = [other.events[0]];
    this.at_s = other.at_s;
  }

  get second_of_day() {
    return ((this.start_ms / 1000 + this.at_s) % 86400 + 86400) % 86400;
  }

  get day() {
    const into_first = (this.start_ms / 1000) % 86400;
    return Math.floor((into_first + this.at_s) / 86400);
  }

  /// The value of a signal now, on the drawn bench or on a given one.
  now(name, bench = this.drawn) {
    return this.frame?.benches[bench]?.now[this.columns.get(name)] ?? null;
  }

  rewind(at_s) {
    for (const s of this.series) s.cut(at_s);
    for (let i = 0; i < this.events.length; ++i) this.events[i] = this.events[i].filter((e) => e.at_s <= at_s);
    this.at_s = at_s;
  }

  take(frame) {
    if (!Array.isArray(frame.benches) || !frame.benches.length) return;
    if (frame.at_s < this.at_s) this.rewind(frame.at_s);
    this.match(frame.benches.length, frame.at_s);
    frame.benches.forEach((bench, i) => {
      for (const row of bench.rows ?? []) this.series[i].push(row);
      this.series[i].push([frame.at_s, ...bench.now]);
      const fresh = (bench.events ?? []);
      this.events[i] = bench.events_from === 0 ? fresh.slice() : this.events[i].concat(fresh);
    });
    this.frame = frame;
    this.at_s = frame.at_s;
  }

  /// A fork begins with a copy of the morning that both share.
  match(count, at_s) {
    if (count === this.series.length) return;
    this.series.length = 1;
    this.events.length = 1;
    this.drawn = 0;
    if (count === 2) {
      this.series.push(this.series[0].copy());
      this.series[1].cut(at_s);
      this.events.push(this.events[0].slice());
    }
  }
}
