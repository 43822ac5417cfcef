// SPDX-License-Identifier: MIT
// Lessons on the shelf: number, title, minutes and aim.

import { el } from "./dom.js";
import { localised } from "./numbers.js";

const plain_title = (lesson) => String(lesson.title).replace(/^\d+\s*·\s*/, "");

/// open(path): begins that lesson.
export function lesson_cards(lessons, open) {
  const sorted = lessons.slice().sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
  return el("ol", { class: "cards lesson-cards" }, ...sorted.map((lesson) => el("li", {}, el("button", { type: "button", class: "entry lesson-entry", on: { click: () => open(lesson.path) } },
    el("b", { class: "lesson-number", text: lesson.number ?? "" }), el("strong", { text: plain_title(lesson) }), el("span", { class: "minutes", text: `${lesson.minutes} minutes` }), el("span", { text: localised(lesson.about ?? "") })))));
}

/// The lesson that comes after one.
export function lesson_after(entries, number) {
  const next = entries.find((e) => e.kind === "lesson" && e.number === number + 1);
  return next && { path: next.path, title: plain_title(next) };
}
