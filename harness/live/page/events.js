// SPDX-License-Identifier: MIT
// What happened, latest first; a touch on the time goes back there.

import { el, button } from "./dom.js";
import { moment_text, localised, plain_word } from "./numbers.js";

const most_shown = 200;
const named = { pump_relay: "Pump contact", backup_relay: "Backup contact", pump_reason: "Pump", backup_reason: "Backup" };

export class Events {
  constructor(run, go) {
    this.run = run;
    this.go = go;
    this.list = el("ol", { class: "event-list", reversed: true });
    this.node = el("div", {}, el("p", { class: "hint", text: "Latest first. A time is a button that goes there." }), this.list);
  }

  update() {
    const events = this.run.events[this.run.drawn] ?? [];
    const shown = events.filter((e) => !(this.run.title_hidden && !/relay|reason/.test(e.what)));
    const key = `${this.run.drawn} ${shown.length} ${shown[shown.length - 1]?.at_s}`;
    if (key === this.key) return;
    this.key = key;
    this.list.replaceChildren(...shown.slice(-most_shown).reverse().map((e) => this.item(e)));
  }

  item(event) {
    const change = `${named[event.name] ?? plain_word(event.name)}: ${event.from ? `${plain_word(event.from)} → ` : ""}${plain_word(event.to)}`;
    return el("li", {}, button(moment_text(this.run.start_ms, event.at_s, this.run.length_s, true), () => this.go(event.at_s), { class: "link" }),
      el("span", {}, el("b", { text: change }), event.because ? ` ${localised(event.because)}` : ""));
  }
}
