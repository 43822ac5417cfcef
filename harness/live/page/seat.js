// SPDX-License-Identifier: MIT
// A learner's seat in a class: joining by the class's word and one's own name, coming back to the seat
// after a break, and what the trainer does to it.

import { el, button, by_id, set_text } from "./dom.js";

const key = "noonbench-ticket";
const longest_name = 24;

function kept_ticket() {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;  // storage may be forbidden; a page that is left then loses its seat
  }
}

function keep_ticket(ticket) {
  try {
    if (ticket) localStorage.setItem(key, ticket);
    else localStorage.removeItem(key);
  } catch { /* as above */ }
}

export class Seat {
  /// tools: {say, show(which), toast(words), changed()}
  constructor(tools) {
    this.tools = tools;
    this.about = { open: false, must_join: false };
    this.name = "";
    this.held = false;
    this.build();
  }

  build() {
    this.word = el("input", { id: "join-word", type: "text", autocomplete: "off", autocapitalize: "none", spellcheck: "false", maxlength: 60 });
    this.own = el("input", { id: "join-name", type: "text", autocomplete: "off", maxlength: longest_name });
    this.problem = el("p", { class: "row-error", id: "join-problem", role: "alert" });
    this.lead = el("p", { class: "lead" });
    this.away = button("Not now", () => this.tools.show("shelf"), { class: "quiet" });
    by_id("join").replaceChildren(el("h1", { id: "join-title", text: "Take a seat in the class" }), this.lead,
      el("form", { class: "entry-form", on: { submit: (e) => this.join(e) } }, el("label", { for: "join-word", text: "The word of the class" }), this.word,
        el("label", { for: "join-name", text: "Your name, as the room knows you" }), this.own, this.problem, el("p", { class: "card-foot" }, el("button", { type: "submit", class: "strong big", id: "join-go", text: "Take my seat" }), this.away)));
    this.link = button("Join a class", () => this.ask(), { id: "join-link", class: "quiet" });
    this.link.hidden = true;
    this.node = el("p", { class: "seat-name", id: "seat-name", hidden: true });
  }

  /// Nothing can be done before joining.
  get barred() {
    return this.about.must_join && !this.name;
  }

  welcome(about) {
    const must_join = Boolean(about?.must_join) || this.about.must_join;  // to a seat that is taken it may be said no longer
    this.about = { open: Boolean(about?.open), must_join };
    const ticket = kept_ticket();
    if (!this.name && ticket && !this.coming_back) {
      this.coming_back = true;
      this.tools.say({ do: "rejoin", ticket });
    } else if (this.barred) {
      this.ask();
    }
    this.show();
  }

  /// The line broke: the seat waits for its ticket.
  lost() {
    this.name = "";
    this.coming_back = false;
  }

  ask(words = "") {
    set_text(this.lead, this.about.open ? "Word and address stand on the wall, or your trainer tells you." : "No class is open yet. Your trainer opens it and tells you the word.");
    set_text(this.problem, words);
    this.away.hidden = this.about.must_join;
    this.tools.show("join");
    this.word.focus();
  }

  join(event) {
    event.preventDefault();
    const [word, seat] = [this.word.value.trim(), this.own.value.trim()];
    set_text(this.problem, "");
    if (!word || !seat) set_text(this.problem, word ? "Put in your name as well." : "Put in the word of the class.");
    else this.tools.say({ do: "join", word, seat });
  }

  seated(m) {
    this.name = String(m.seat);
    this.held = Boolean(m.held);
    this.coming_back = false;
    keep_ticket(m.ticket);
    this.show();
    this.tools.changed();
  }

  hold(held) {
    this.held = held;
    this.tools.toast(held ? "Your trainer holds the time." : "Time may run again.");
    this.tools.changed();
  }

  over() {
    this.name = "";
    this.held = false;
    keep_ticket(null);
    this.show();
    this.tools.changed();
    if (this.about.must_join) this.ask("Your seat in the class has ended.");
    else this.tools.toast("The class is over. The bench is yours.");
  }

  /// An error of joining; true if it was one.
  refused(m) {
    if (m.of === "join") {
      set_text(this.problem, m.what);
      return true;
    }
    if (m.of !== "rejoin") return false;
    keep_ticket(null);
    this.coming_back = false;
    if (this.barred) this.ask();
    return true;
  }

  get why_time_stands() {
    return this.held ? "Your trainer holds the time." : "";
  }

  show() {
    this.node.hidden = !this.name;
    this.node.replaceChildren(el("span", { class: "unseen", text: "Your seat: " }), this.name);
    this.link.hidden = Boolean(this.name) || !this.about.open || this.about.must_join;
  }
}
