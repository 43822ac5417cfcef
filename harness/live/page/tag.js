// SPDX-License-Identifier: MIT
// A figure in the drawing that can be touched: its card says what it is and shows its trace.

import { svg, set_text, set_attribute } from "./dom.js";
import { with_unit } from "./numbers.js";
import { short_name } from "./words.js";

export class Tag {
  /// place: {x, y, anchor}; caption: the word above the figure, or empty.
  constructor(signal, caption, place, open) {
    this.signal = signal;
    this.caption = caption;
    this.figure = svg("text", { class: "figure", x: place.x, y: place.y, "text-anchor": place.anchor ?? "start" });
    const left = { start: place.x - 6, middle: place.x - 46, end: place.x - 88 }[place.anchor ?? "start"];
    this.node = svg("g", {
      class: `tag ${place.kind ?? ""}`, role: "button", tabindex: "0", "aria-haspopup": "dialog",
      on: {
        click: () => open(signal.name),
        keydown: (event) => {
          if (event.key !== "Enter" && event.key !== " ") return;
          event.preventDefault();
          open(signal.name);
        },
      },
    }, svg("rect", { class: "hit", x: left, y: place.y - (caption ? 44 : 36), width: 94, height: 57, rx: 6 }));
    if (caption) {
      this.node.append(svg("text", { class: "caption", x: place.x, y: place.y - 22, "text-anchor": place.anchor ?? "start", text: caption }), " ");
    }
    this.node.append(this.figure);
  }

  update(value) {
    const text = with_unit(this.signal, value);
    set_text(this.figure, text);
    set_attribute(this.node, "aria-label", [this.caption, text].filter(Boolean).join(" ") + (this.caption ? "" : `, ${short_name(this.signal)}`));
  }
}
