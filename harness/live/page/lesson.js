// SPDX-License-Identifier: MIT
// The place for a lesson: its text, a form for the learner's prediction, and what came of it.

import { el, by_id } from "./dom.js";

export class Lesson {
  constructor() {
    this.node = by_id("lesson");
    this.text = el("div", { class: "lesson-text" });
    this.prediction = el("form", { class: "lesson-prediction" });
    this.feedback = el("div", { class: "lesson-feedback", role: "status" });
  }

  /// Hidden while there is no lesson.
  clear() {
    this.node.hidden = true;
    this.node.replaceChildren(this.text, this.prediction, this.feedback);
  }
}
