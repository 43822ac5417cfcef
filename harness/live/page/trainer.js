// SPDX-License-Identifier: MIT
// The trainer's page: opens a class and looks after it.

import { el, button, by_id, set_text } from "./dom.js";
import { download } from "./save.js";
import { entrance, class_door } from "./entrance.js";
import { SeatTable } from "./trainer_seats.js";
import { Votes } from "./trainer_votes.js";
import { Sending, sheet_list } from "./trainer_send.js";
import { ask_once } from "./ask_once.js";

export class TrainerPage {
  /// tools: {say, toast}
  constructor(tools) {
    this.tools = tools;
    this.say = tools.say;
    this.shelf = [];
    this.node = by_id("trainer");
    this.title = el("input", { id: "class-title", type: "text", autocomplete: "off", maxlength: 60 });
    this.door = entrance({ title: "Open a class", lead: "Twelve benches, one for each learner, and you see all of them.", word: "Open the class",
      extra: [el("label", { for: "class-title", text: "What the class is called, such as “Tuesday group”" }), this.title], enter: (secret) => this.enter(secret) });
    this.node.replaceChildren(this.door.node);
    document.title = "Trainer · Noonbench";
  }

  enter(secret) {
    this.asked = secret;
    this.say({ do: "class_open", secret, title: this.title.value.trim() });
  }

  welcome(message) {
    if (message.shelf?.length) {
      this.shelf = message.shelf;
      this.sending?.fill(this.shelf);
      this.sheets?.replaceWith(this.sheets = sheet_list(this.shelf, this.say));
    }
    if (this.secret && this.line_was_lost) this.say({ do: "class_open", secret: this.secret, title: "" });
    this.line_was_lost = false;
  }

  lost() {
    this.line_was_lost = true;
  }

  hear(m) {
    const told = { class: () => this.opened(m), class_state: () => this.state(m), marks: () => download(m.name, m.csv, "text/csv"), sheet: () => download(m.name, m.html, "text/html"),
      class_over: () => this.ended(), error: () => this.refused(m) }[m.is];
    told?.();
  }

  refused(m) {
    if (m.of === "class_open" && !this.room) this.door.complain(m.what);
    else this.tools.toast(m.what);
  }

  opened(about) {
    this.secret = this.asked ?? this.secret;
    if (this.room) return;
    this.hold = button("Hold the time", () => this.say({ do: "class_hold", held: !this.held }), { id: "class-hold", class: "strong" });
    this.held_words = el("p", { class: "held-words", role: "status" });
    const title_of = (path) => this.shelf.find((e) => e.path === path)?.title;
    this.seats = new SeatTable(this.say, title_of);
    this.votes = new Votes(title_of);
    this.sending = new Sending(this.say);
    this.sending.fill(this.shelf);
    this.sheets = sheet_list(this.shelf, this.say);
    const end = ask_once("End the class", "All lose their seats. Marks not fetched are gone.", "Yes, end it", () => this.say({ do: "class_end" }), { id: "class-end" });
    this.room = el("div", { class: "room" },
      el("header", { class: "room-head" }, el("h1", { id: "trainer-title", text: about.title || "The class" }), class_door(about),
        el("div", { class: "room-hands" }, this.hold, button("Marks as a file", () => this.say({ do: "class_marks" }), { id: "class-marks" }), end, this.held_words)),
      el("section", { class: "room-seats", "aria-labelledby": "seats-title" }, el("h2", { id: "seats-title", text: "Who is where" }), this.seats.node),
      el("div", { class: "room-side" }, el("section", { "aria-labelledby": "votes-title" }, el("h2", { id: "votes-title", text: "What they foresee" }), this.votes.node),
        el("section", { "aria-labelledby": "send-title" }, el("h2", { id: "send-title", text: "Send to a bench" }), this.sending.node),
        el("section", { "aria-labelledby": "sheets-title" }, el("h2", { id: "sheets-title", text: "Printed sheets" }), this.sheets)));
    this.node.replaceChildren(this.room);
  }

  state(m) {
    if (!this.room) return;
    this.held = m.held;
    set_text(this.hold, m.held ? "Let time run" : "Hold the time");
    set_text(this.held_words, m.held ? "Time is held on every bench." : "");
    this.seats.update(m.seats ?? [], m.shown);
    this.votes.update(m.predictions ?? [], m.seats ?? []);
    this.sending.seats((m.seats ?? []).map((s) => s.seat));
  }

  ended() {
    this.room = null;
    this.secret = null;
    this.asked = null;
    this.node.replaceChildren(this.door.node);
    this.tools.toast("The class is over.");
  }
}
