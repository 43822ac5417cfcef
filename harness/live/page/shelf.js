// SPDX-License-Identifier: MIT
// The first page: three doors, and the shelf of lessons, days and faults behind them.

import { el, button, by_id } from "./dom.js";
import { hero } from "./hero.js";
import { lesson_cards } from "./lesson_cards.js";

const first_day = "days/clear_spring_day";
const kinds = { lesson: "Lessons", day: "Days", fault: "Faults", commissioning: "Commissioning, one step left out" };
const doors = [
  { key: "learn", word: "Learn", about: "Take a lesson or watch a day: foresee what the pump will do, and see whether it does.", kinds: ["lesson", "day"], tab: "charts" },
  { key: "set", word: "Pick settings", about: "Change a setting and run the same morning twice, side by side.", kinds: ["day"], tab: "settings" },
  { key: "find", word: "Find the fault", about: "Something is wrong in the house. Look, measure, and say what.", kinds: ["fault", "commissioning"], tab: "charts" },
];

export class Shelf {
  /// open(path, {hidden, tab, from_s, lesson})
  constructor(open) {
    this.open = open;
    this.entries = [];
    this.door = doors[0];
    by_id("hero").replaceChildren(hero());
  }

  fill(entries) {
    this.entries = (Array.isArray(entries) ? entries.slice() : []).sort((a, b) => (b.path === first_day) - (a.path === first_day));
    this.buttons = doors.map((door) => el("button", { type: "button", class: `door ${door.key}`, "aria-pressed": "false", on: { click: () => this.choose(door) } },
      el("strong", { text: door.word }), el("span", { text: door.about })));
    by_id("doors").replaceChildren(...this.buttons);
    this.choose(this.door);
  }

  /// The way back to a run that was left.
  offer_return(title, back) {
    by_id("return").replaceChildren(button(`Back to: ${title}`, back));
  }

  choose(door) {
    this.door = door;
    doors.forEach((d, i) => this.buttons[i].setAttribute("aria-pressed", d === door));
    const groups = door.kinds.map((kind) => this.group(kind));
    by_id("shelf-list").replaceChildren(this.quick(door), ...groups.filter(Boolean));
  }

  /// The one thing to press for those who do not want to read.
  quick(door) {
    if (door.key === "find") {
      const faults = this.entries.filter((e) => e.kind === "fault");
      return el("p", { class: "quick" }, button("Draw a fault by lot", () => {
        const drawn = faults[Math.floor(Math.random() * faults.length)];
        if (drawn) this.open(drawn.path, { hidden: true, tab: "charts" });
      }, { class: "strong big" }), el("span", { text: "Its name stays hidden until you ask." }));
    }
    if (!this.entries.some((e) => e.path === first_day)) return el("p", { class: "quick" });
    return el("p", { class: "quick" }, button("Run a clear April day", () => this.open(first_day, { tab: door.tab, from_s: 6.5 * 3600 }), { class: "strong big" }),
      el("span", { text: "From half past six, an hour in six seconds." }));
  }

  group(kind) {
    const here = this.entries.filter((e) => e.kind === kind);
    if (!here.length) return null;
    const id = `shelf-${kind}`;
    if (kind === "lesson") {
      return el("section", { "aria-labelledby": id }, el("h2", { id, text: kinds.lesson }), lesson_cards(here, (path) => this.open(path, { tab: "charts", lesson: true })));
    }
    return el("section", { "aria-labelledby": id }, el("h2", { id, text: kinds[kind] ?? kind }), el("ul", { class: "cards" }, ...here.map((e) =>
      el("li", {}, el("button", { type: "button", class: "entry", on: { click: () => this.open(e.path, { tab: this.door.tab }) } },
        el("strong", { text: e.title }), el("span", { text: e.about }))))));
  }
}
