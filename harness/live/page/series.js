// SPDX-License-Identifier: MIT
// What one bench has shown so far: a column of times and one per signal.

const most_rows = 120000;  // a day at one second and some; beyond that the older half is thinned

export class Series {
  constructor(width) {
    this.at = [];
    this.columns = Array.from({ length: width }, () => []);
  }

  get last_s() {
    return this.at.length ? this.at[this.at.length - 1] : -1;
  }

  /// One row [at_s, value...]; rows that are not later than the last are known already, and a row with
  /// too few values is none.
  push(row) {
    if (row[0] <= this.last_s || row.length !== this.columns.length + 1) return;
    this.at.push(row[0]);
    for (let i = 0; i < this.columns.length; ++i) this.columns[i].push(row[i + 1] ?? null);
    if (this.at.length > most_rows) this.thin();
  }

  thin() {
    const half = this.at.length >> 1;
    const keep = (list) => list.filter((_, i) => i >= half || i % 2 === 0);
    this.at = keep(this.at);
    this.columns = this.columns.map(keep);
  }

  /// How many rows are not later than a moment.
  count_until(at_s) {
    let low = 0;
    let high = this.at.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.at[middle] <= at_s) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /// Forgets all after a moment.
  cut(at_s) {
    const count = this.count_until(at_s);
    this.at.length = count;
    for (const column of this.columns) column.length = count;
  }

  copy() {
    const other = new Series(0);
    other.at = this.at.slice();
    other.columns = this.columns.map((c) => c.slice());
    return other;
  }

  /// Runs of one value in a column up to now: [{from_s, to_s, value}]; for the bands of reasons.
  runs(column, to_s) {
    const out = [];
    const values = this.columns[column];
    for (let i = 0; i < values.length; ++i) {
      const last = out[out.length - 1];
      if (last && last.value === values[i]) continue;
      if (last) last.to_s = this.at[i];
      out.push({ from_s: this.at[i], to_s, value: values[i] });
    }
    return out;
  }
}
