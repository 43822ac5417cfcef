// SPDX-License-Identifier: MIT
// How lines are drawn: colour, dash and width, so that no line is told apart by colour alone.

const known = {
  collector_reading_c: ["--ochre", [], 2], store_bottom_reading_c: ["--teal", [], 3], store_top_reading_c: ["--plum", [9, 3], 2],
  air_c: ["--soft", [2, 3], 1.5], flow_lpm: ["--teal", [], 2], pump_speed_pct: ["--plum", [9, 3], 1.5], sun_row_1_w_m2: ["--ochre", [], 2],
  second_collector_reading_c: ["--ochre", [12, 3, 2, 3], 2],
};
const spare = [["--blue", [], 1.5], ["--rose", [6, 2], 1.5], ["--ink", [2, 2], 1.5], ["--blue", [12, 3, 2, 3], 1.5], ["--rose", [], 2.5]];
const runs = [["--teal", [], 2.5], ["--ochre", [9, 3], 2], ["--plum", [3, 3], 2], ["--blue", [12, 3, 2, 3], 2], ["--rose", [6, 2], 2.5], ["--ink", [], 1.2]];

/// The manner of a signal; signals without one of their own take the spare ones in turn.
export const manner_of = (name, turn) => known[name] ?? spare[turn % spare.length];
export const has_manner = (name) => name in known;
/// The manner of the n-th of several runs of one signal.
export const manner_of_run = (n) => runs[n % runs.length];
