// SPDX-License-Identifier: MIT
// A button for what cannot be undone: it asks once, in place.

import { el, button } from "./dom.js";

/// word: of the button; words: what would happen; yes: of the one that does it.
export function ask_once(word, words, yes, act, props = {}) {
  const node = el("span", { class: "ask-once" });
  const first = button(word, () => {
    const stay = button("No", () => back(), { class: "quiet" });
    node.replaceChildren(el("span", { text: `${words} ` }), button(yes, () => {
      back();
      act();
    }, { class: "yes" }), " ", stay);
    stay.focus();
  }, props);
  const back = () => {
    node.replaceChildren(first);
    first.focus();
  };
  node.append(first);
  return node;
}
