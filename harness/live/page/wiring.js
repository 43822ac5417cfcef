// SPDX-License-Identifier: MIT
// What stands at the controller's sockets: ohms and counts of the sensors, contacts, speed signal.

import { el, set_text } from "./dom.js";
import { figure, plain_word } from "./numbers.js";

export class Wiring {
  constructor(run, say) {
    this.run = run;
    const box = el("input", { type: "checkbox", role: "switch", on: { change: () => this.want(box.checked) } });
    this.say = say;
    this.rows = el("tbody");
    this.contacts = el("dl", { class: "contacts" });
    this.view = el("div", { hidden: true },
      el("p", { class: "caution", text: "On site: isolate and prove dead before any cover comes off. Sensor plugs can be measured, pulled out, with an ohmmeter." }),
      el("table", {}, el("caption", { text: "Sensors at their sockets" }), el("thead", {}, el("tr", {},
        ...["Sensor", "Resistance", "Counts", "Read as"].map((t) => el("th", { scope: "col", text: t })))), this.rows), this.contacts);
    this.node = el("div", { class: "wiring" }, el("label", { class: "check" }, box, " Look behind the cover"),
      el("p", { class: "hint", text: "To pull a plug or short a wire, go to Tamper, sensors and wires." }), this.view);
  }

  want(wanted) {
    this.view.hidden = !wanted;
    this.wanted = wanted;
    this.say({ do: "wiring", wanted });
  }

  update() {
    const t = this.run.frame.benches[this.run.drawn]?.terminals;
    if (!this.wanted || !t) return;
    const sensors = t.sensors ?? [];
    while (this.rows.children.length < sensors.length) this.rows.append(el("tr", {}, el("th", { scope: "row" }), el("td"), el("td"), el("td")));
    sensors.forEach((s, i) => {
      const cells = this.rows.children[i].children;
      set_text(cells[0], plain_word(s.name));
      set_text(cells[1], Number.isFinite(s.ohm) ? `${figure(s.ohm, 1)} Ω` : "no path");
      set_text(cells[2], Number.isFinite(s.counts) ? figure(s.counts, 0) : "–");
      set_text(cells[3], Number.isFinite(s.reading_c) ? `${figure(s.reading_c, 1)} °C` : "no reading");
    });
    const facts = [["Contact of the pump", t.pump_relay ? "closed" : "open"], ["Contact of the backup", t.backup_relay ? "closed" : "open"],
      ["Speed signal", Number.isFinite(t.speed_signal_pct) ? `${figure(t.speed_signal_pct, 0)} %` : "none"]];
    if (!this.contacts.children.length) this.contacts.append(...facts.flatMap(([term]) => [el("dt", { text: term }), el("dd")]));
    facts.forEach(([, text], i) => set_text(this.contacts.children[2 * i + 1], text));
  }
}
