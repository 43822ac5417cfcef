// SPDX-License-Identifier: MIT
// The door of the trainer's and the projector's page: the class's secret, as the server's terminal told it.

import { el, set_text } from "./dom.js";

/// extra: more fields of the form; enter(secret) is called with what was typed.
export function entrance({ title, lead, extra = [], word, enter }) {
  const secret = el("input", { id: "class-secret", type: "password", autocomplete: "off", maxlength: 60 });
  const problem = el("p", { class: "row-error", role: "alert" });
  const submit = (event) => {
    event.preventDefault();
    set_text(problem, secret.value.trim() ? "" : "Put in the secret first.");
    if (secret.value.trim()) enter(secret.value.trim());
  };
  const node = el("div", { class: "entrance" }, el("h1", { text: title }), el("p", { class: "lead", text: lead }),
    el("form", { class: "entry-form", on: { submit } }, el("label", { for: "class-secret", text: "The class secret, as the terminal told it" }), secret, ...extra, problem, el("p", { class: "card-foot" }, el("button", { type: "submit", class: "strong big", id: "class-enter", text: word }))));
  return { node, complain: (words) => set_text(problem, words) };
}

/// Word and address of a class, to be read from the last row.
export const class_door = (about) => el("dl", { class: "class-door" }, el("div", {}, el("dt", { text: "Open" }), el("dd", { class: "class-address", text: about.address })),
  el("div", {}, el("dt", { text: "and put in the word" }), el("dd", { class: "class-word", text: about.word })));
