// SPDX-License-Identifier: MIT
// The steps of a lesson as a list: what is done, where one stands, where one may go.

import { el, button } from "./dom.js";

const words = { text: "Read", predict: "Foresee", watch: "Watch", try: "Try", task: "Do", hunt: "Find" };
export const step_word = (step) => words[step.kind] ?? step.kind;

/// Whether what came of a step lets one go on.
export function is_settled(step, result) {
  if (step.kind === "predict") return Boolean(result);
  if (step.kind === "hunt") return result?.is === "hunt_over";
  return true;
}

/// steps as the bench sent them; state: {step, results}; go(i), or null where nobody may.
export function step_list(steps, state, go) {
  const items = steps.map((step, i) => {
    const here = i === state.step;
    const done = i < state.step;
    const may = go && (i < state.step || (i === state.step + 1 && is_settled(steps[state.step], state.results[state.step])));
    const text = `${i + 1} ${step_word(step)}`;
    const inside = [done ? el("span", { class: "step-tick", "aria-hidden": "true", text: "✓ " }) : "", text, done ? el("span", { class: "unseen", text: ", done" }) : ""];
    return el("li", { class: here ? "here" : done ? "done" : "", "aria-current": here ? "step" : null },
      may ? el("button", { type: "button", class: "step-button", on: { click: () => go(i) } }, ...inside) : el("span", { class: "step-button" }, ...inside));
  });
  return el("ol", { class: "steps", "aria-label": "Steps of the lesson" }, ...items);
}

/// Back and onward; where the way on is barred, why.
export function step_foot(steps, state, go) {
  const here = steps[state.step];
  const settled = is_settled(here, state.results[state.step]);
  const last = state.step === steps.length - 1;
  const why = settled ? "" : here.kind === "predict" ? "Say what you foresee, then it goes on." : "Name the cause, then it goes on.";
  return el("div", { class: "step-foot" }, button("Back", () => go(state.step - 1), { id: "lesson-back", disabled: state.step === 0 }),
    button(last ? "Finish" : "Next", () => go(state.step + 1), { id: "lesson-next", class: "strong", disabled: !settled }),
    why ? el("p", { class: "hint", text: why }) : "");
}
