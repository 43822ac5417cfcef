// SPDX-License-Identifier: MIT
// How a lesson tells things: paragraphs, right and wrong by sign and word, answers with their units.

import { el, svg } from "./dom.js";
import { localised, unit_text } from "./numbers.js";

/// A text of the lesson as paragraphs.
export const paragraphs = (text) => String(text ?? "").split(/\n+/).map((t) => t.trim()).filter(Boolean).map((t) => el("p", { text: localised(t) }));

/// A tick or a cross; a word always stands beside it.
export const sign = (good) => svg("svg", { class: good ? "sign good" : "sign bad", viewBox: "0 0 20 20", "aria-hidden": "true", focusable: "false" },
  svg("circle", { cx: 10, cy: 10, r: 9 }), svg("path", { d: good ? "M5.5 10.5 9 14 14.8 6.6" : "M6.5 6.5 13.5 13.5M13.5 6.5 6.5 13.5" }));

/// The headline of an outcome.
export const outcome_line = (good, words) => el("p", { class: good ? "outcome good" : "outcome bad", tabindex: "-1" }, sign(good), el("strong", { text: words }));

/// An answer as one reads it: the words of a choice, a number with its unit, a clock time.
export function answer_words(step, answer, unit = step.unit) {
  if (answer === null || answer === undefined) return "";
  if (step.form === "choice") return step.choices[Number(answer) - 1] ?? String(answer);
  const name = step.form === "number" ? unit_text(unit ?? "") : "";
  return localised(name ? `${answer} ${name}` : String(answer));
}
