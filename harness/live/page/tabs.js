// SPDX-License-Identifier: MIT
// Tabs after the ARIA authoring practices: arrow keys move, one panel is shown.

import { el, by_id } from "./dom.js";

export class Tabs {
  /// entries: [[key, word, node, update]...]
  constructor(entries, shown) {
    this.entries = entries;
    this.list = by_id("tabs");
    this.buttons = entries.map(([key, word], i) => el("button", {
      type: "button", role: "tab", id: `tab-${key}`, "aria-controls": `panel-${key}`, text: word,
      on: { click: () => this.show(key), keydown: (e) => this.key(e, i) },
    }));
    this.panels = entries.map(([key, , node]) => el("div", { role: "tabpanel", id: `panel-${key}`, "aria-labelledby": `tab-${key}`, tabindex: "0" }, node));
    this.list.replaceChildren(...this.buttons);
    by_id("panels").replaceChildren(...this.panels);
    this.show(shown ?? entries[0][0]);
  }

  show(key) {
    this.shown = key;
    this.entries.forEach(([k], i) => {
      const here = k === key;
      this.buttons[i].setAttribute("aria-selected", here);
      this.buttons[i].tabIndex = here ? 0 : -1;
      this.panels[i].hidden = !here;
    });
    this.update();
  }

  key(event, i) {
    const to = { ArrowRight: i + 1, ArrowLeft: i - 1, Home: 0, End: this.entries.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const next = (to + this.entries.length) % this.entries.length;
    this.show(this.entries[next][0]);
    this.buttons[next].focus();
  }

  update() {
    this.entries.find(([key]) => key === this.shown)?.[3]?.();
  }
}
