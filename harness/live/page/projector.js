// SPDX-License-Identifier: MIT
// The projector's page: word and address for latecomers, or the bench of the seat that is shown.

import { el, by_id, set_text } from "./dom.js";
import { entrance, class_door } from "./entrance.js";

export class ProjectorPage {
  /// tools: {say, toast, show(which)}
  constructor(tools) {
    this.tools = tools;
    this.node = by_id("projector");
    this.door = entrance({ title: "The projector's page", lead: "For the wall: first the word of the class, then whatever bench the trainer shows.", word: "Show it on this screen", enter: (secret) => this.enter(secret) });
    this.node.replaceChildren(this.door.node);
    document.title = "Projector · Noonbench";
  }

  enter(secret) {
    this.asked = secret;
    this.tools.say({ do: "project", secret });
  }

  welcome() {
    if (this.secret && this.line_was_lost) this.tools.say({ do: "project", secret: this.secret });
    this.line_was_lost = false;
  }

  lost() {
    this.line_was_lost = true;
  }

  projecting(about) {
    this.secret = this.asked;
    this.node.replaceChildren(el("div", { class: "wall" }, el("h1", { text: about.title || "The class" }), class_door(about)));
    this.showing({ seat: null });
  }

  showing({ seat }) {
    document.body.classList.toggle("projecting", Boolean(seat));
    set_text(by_id("shown-seat"), seat ? `${seat}'s bench` : "");
    by_id("shown-seat").hidden = !seat;
    for (const part of document.querySelectorAll(".board > :is(.picture, .panel), #needle, .run-head")) part.inert = Boolean(seat);
    by_id("main").tabIndex = seat ? 0 : -1;  // nothing else can be walked to, and one may want to scroll
    if (!seat) this.tools.show("projector");
  }

  ended() {
    this.secret = null;
    this.showing({ seat: null });
    this.node.replaceChildren(this.door.node);
  }

  refused(m) {
    if (m.of === "project" && !this.secret) this.door.complain(m.what);
    else this.tools.toast(m.what);
  }
}
