// SPDX-License-Identifier: MIT
// The bench's own page: drawing, reason line, needle, tabs and time about one open run.

import { el, by_id, button, set_text } from "./dom.js";
import { day_text, clock_text, figure } from "./numbers.js";
import { House, bench_choice } from "./house.js";
import { Needle } from "./needle.js";
import { ReasonLine } from "./reason.js";
import { Charts } from "./charts.js";
import { Card } from "./card.js";
import { Timebar } from "./timebar.js";
import { Hands } from "./hands.js";
import { Settings } from "./settings.js";
import { Tamper } from "./tamper.js";
import { Wiring } from "./wiring.js";
import { ValueTable } from "./table.js";
import { Events } from "./events.js";
import { Fork } from "./fork.js";
import { Tabs } from "./tabs.js";
import { kitchen_table } from "./kitchen.js";

export class Bench {
  /// tools: {say, say_of_time: what a hand on the time says, move(what, complain), then(at_s, pace), tab,
  /// why_time_stands(): {words, onwards}}
  constructor(run, { say, say_of_time, move, then, tab, why_time_stands, reveal }) {
    this.run = run;
    this.reveal = reveal;
    this.say = say;
    this.why_time_stands = why_time_stands;
    const open_card = (name) => this.card.open(name);
    this.charts = new Charts(run, open_card);
    this.card = new Card(run, say, this.charts);
    this.house = new House(run.opened, open_card);
    this.needle = new Needle(() => this.card.open_gap());
    this.reason = new ReasonLine();
    this.hands = new Hands(run, move);
    this.settings = new Settings(run, move);
    this.tamper = new Tamper(run, move);
    this.wiring = new Wiring(run, say);
    this.table = new ValueTable(run, open_card);
    this.fork = new Fork(run, say, then);
    this.time = new Timebar(run, say_of_time, () => this.fork.open(), () => say({ do: "save" }));
    this.events = new Events(run, (s) => this.time.go(s));
    by_id("kitchen")?.remove();
    document.querySelector(".board").append(kitchen_table());
    for (const part of document.querySelectorAll(".board > :is(.reason, .picture, .panel)")) part.hidden = false;
    by_id("needle").replaceChildren(this.needle.node);
    by_id("reason").replaceChildren(this.reason.node);
    by_id("reason-short").replaceChildren(this.reason.short);
    by_id("house").replaceChildren(this.house.node);
    by_id("hands").replaceChildren(this.hands.node);
    by_id("timebar").replaceChildren(...this.time.nodes);
    this.tabs = new Tabs(this.entries(), tab);
    this.head();
    this.choice();
    document.title = `${by_id("run-title").textContent} · Noonbench`;
  }

  entries() {
    const when_seen = (part) => () => this.run.frame && part.update();
    return [["charts", "Charts", this.charts.node, () => this.charts.draw()], ["settings", "Settings", this.settings.node, when_seen(this.settings)],
      ["tamper", "Tamper", this.tamper.node, when_seen(this.tamper)], ["wiring", "Wiring", this.wiring.node, when_seen(this.wiring)],
      ["values", "All values", this.table.node, when_seen(this.table)], ["events", "What happened", this.events.node, () => this.events.update()]];
  }

  head() {
    const { opened, title_hidden, sealed } = this.run;
    set_text(by_id("run-title"), title_hidden && !sealed ? "A fault drawn by lot" : opened.title);
    const about = by_id("run-about");
    const toggle = by_id("run-about-button");
    const lines = sealed ? [el("p", { text: "Something is wrong in this house. What it is, is sealed." })] : title_hidden
      ? [el("p", { text: "Something is wrong in this house. Look at the charts, touch the figures, and say what it is before you ask. Once it is told, the run begins anew and goes to here; what your hands did is undone." }), button("Tell me what it is", () => this.reveal(), { id: "tell-me" })]
      : [el("p", { text: opened.about }), el("p", { text: facts(opened) })];
    about.replaceChildren(...lines);
    const set_open = (is_open) => {
      about.hidden = !is_open;
      toggle.setAttribute("aria-expanded", is_open);
    };
    toggle.onclick = () => set_open(about.hidden);
    set_open(title_hidden && !document.body.classList.contains("in-lesson"));
  }

  /// What was sealed may be looked at.
  unseal() {
    if (!this.run.sealed) return;
    Object.assign(this.run, { sealed: false, title_hidden: false });
    this.head();
    this.events.key = null;
    this.stale = true;
  }

  choice() {
    this.benches = this.run.series.length;
    document.body.classList.toggle("two-benches", this.benches > 1);
    const node = bench_choice(this.benches, this.run.drawn, (i) => {
      this.run.drawn = i;
      this.stale = true;
    });
    by_id("bench-choice").replaceChildren(...(node ? [node, button("Back to one bench", () => this.say({ do: "unfork" }), { class: "quiet" })] : []));
  }

  sun(message) {
    this.run.sun.set(message.day, message.path);
    this.sky_day = null;
    this.stale = true;
  }

  /// Covers the house while there is nothing to be seen of it, and bars time while it may not move.
  bars() {
    const hunting = document.body.classList.contains("hunting");
    if (by_id("kitchen").hidden === hunting) {
      by_id("kitchen").hidden = !hunting;
      for (const part of document.querySelectorAll(".board > :is(.reason, .picture, .panel)")) part.hidden = hunting;
      this.tabs.update();  // what was drawn while nothing could be seen
    }
    const why = this.why_time_stands();
    this.time.lock(why.words, why.onwards);
  }

  update() {
    const { run } = this;
    this.bars();
    if (!run.frame) return;
    if (this.benches !== run.series.length) this.choice();
    const path = run.sun.get(run.day) ?? run.sun.get(0);
    if (path && this.sky_day !== run.day) {
      this.sky_day = run.day;
      this.house.sky.set_path(path);
    }
    const drawn = run.frame.benches[run.drawn];
    const other = run.frame.benches[1 - run.drawn];
    this.house.update((name) => run.now(name), run.second_of_day, drawn.levers?.passing_cloud > 0 ? drawn.levers.passing_cloud : undefined);
    this.house.write_speed(by_id("speed-note"), run.frame.pace);
    this.needle.update(drawn.needle, other?.needle);
    this.reason.update(drawn, other, `${day_text(run.start_ms, run.at_s)}, ${clock_text(run.start_ms, run.at_s)}`);
    this.hands.update();
    this.time.update(run.frame);
    this.card.update();
    this.tabs.update();
    document.body.classList.toggle("locked", Boolean(run.frame.locked));
    for (const id of ["hands", "panel-settings", "panel-tamper"]) by_id(id).inert = Boolean(run.frame.locked);
  }

  /// Another run takes this place.
  close() {
    this.time.lock("");
    this.house.close();
    this.reason.close();
    for (const p of this.charts.plots) p.plot.destroy();
    for (const id of ["card", "fork"]) if (by_id(id).open) by_id(id).close();
  }
}

function facts(opened) {
  const h = opened.house;
  const rows = (h.rows ?? []).map((r) => `${figure(r.area_m2, 1)} m² of collector, slope ${figure(r.slope_deg, 0)}°`).join("; ");
  const parts = [h.place, rows, h.store_l && `store ${figure(h.store_l, 0)} l`, h.people && `${h.people} people`, h.hot_pipe_m && `${figure(h.hot_pipe_m, 0)} m of pipe up and ${figure(h.cold_pipe_m, 0)} m down`];
  return `${parts.filter(Boolean).join(" · ")}. Begins ${opened.start.slice(0, 16)}.`;
}
