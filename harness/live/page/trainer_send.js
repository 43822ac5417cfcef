// SPDX-License-Identifier: MIT
// What a trainer hands out: a day, a fault or a lesson to one bench or to all; sheets for print.

import { el, button, set_text } from "./dom.js";
import { sheet_stem } from "./lesson.js";

const groups = { lesson: "Lessons", day: "Days", fault: "Faults", commissioning: "Commissioning, one step left out" };
const can_be_sealed = new Set(["fault", "commissioning"]);

export class Sending {
  constructor(say) {
    this.say = say;
    this.what = el("select", { id: "send-what", on: { change: () => this.weigh() } });
    this.to = el("select", { id: "send-to" }, el("option", { value: "", text: "Everybody" }));
    this.sealed = el("input", { type: "checkbox", role: "switch", id: "send-sealed" });
    this.said = el("p", { class: "hint", role: "status" });
    this.go = el("button", { type: "submit", class: "strong", id: "send-go", text: "Send" });
    this.node = el("form", { class: "entry-form sending", on: { submit: (e) => this.send(e) } }, el("label", { for: "send-what", text: "What" }), this.what, el("label", { for: "send-to", text: "To" }), this.to,
      el("label", { class: "check" }, this.sealed, " Sealed: nobody is told what is wrong"), el("p", {}, this.go), this.said);
    this.names = [];
  }

  fill(shelf) {
    const picked = this.what.value;
    this.kinds = new Map(shelf.map((e) => [e.path, e.kind]));
    this.what.replaceChildren(...Object.entries(groups).map(([kind, label]) => {
      const here = shelf.filter((e) => e.kind === kind);
      return here.length ? el("optgroup", { label }, ...here.map((e) => el("option", { value: e.path, text: e.title }))) : "";
    }));
    if (this.kinds.has(picked)) this.what.value = picked;
    this.go.disabled = !shelf.length;
    this.weigh();
  }

  weigh() {
    const can = can_be_sealed.has(this.kinds.get(this.what.value));
    this.sealed.disabled = !can;
    if (!can) this.sealed.checked = false;
  }

  seats(names) {
    const sorted = names.slice().sort((a, b) => a.localeCompare(b));
    if (sorted.join("\n") === this.names.join("\n")) return;
    this.names = sorted;
    const picked = this.to.value;
    this.to.replaceChildren(el("option", { value: "", text: "Everybody" }), ...sorted.map((name) => el("option", { value: name, text: name })));
    this.to.value = sorted.includes(picked) ? picked : "";
  }

  send(event) {
    event.preventDefault();
    const to = this.to.value || null;
    this.say({ do: "class_send", path: this.what.value, to, sealed: this.sealed.checked });
    set_text(this.said, `Sent to ${to ?? "everybody"}: ${this.what.selectedOptions[0]?.textContent ?? ""}${this.sealed.checked ? ", sealed" : ""}.`);
  }
}

/// Sheets of every lesson: the learner's to open and print, the instructor's as a file.
export function sheet_list(shelf, say) {
  const lessons = shelf.filter((e) => e.kind === "lesson").sort((a, b) => a.number - b.number);
  return el("details", { class: "sheets" }, el("summary", { text: "Sheets of all lessons" }), el("ul", { class: "sheet-list" }, ...lessons.map((e) => el("li", {}, el("span", { text: e.title }),
    el("span", { class: "sheet-links" }, el("a", { class: "sheet-link", href: `/sheets/${encodeURIComponent(sheet_stem(e.path))}/learner`, target: "_blank", rel: "noopener", "aria-label": `Learner's sheet of ${e.title}, opens beside this page`, text: "Learner's" }),
      button("Instructor's", () => say({ do: "instructor_sheet", path: e.path }), { class: "link", "aria-label": `Instructor's sheet of ${e.title}, as a file` }))))));
}
