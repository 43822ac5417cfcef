// SPDX-License-Identifier: MIT
// A lesson: its cautions, its steps, the one at hand, and what stays when it is over.

import { el, button, by_id, set_text } from "./dom.js";
import { localised, moment_text } from "./numbers.js";
import { paragraphs } from "./telling.js";
import { short_name } from "./words.js";
import { step_list, step_foot, step_word, is_settled } from "./lesson_steps.js";
import { Prediction } from "./predict.js";
import { WatchStep } from "./watch.js";
import { TryStep } from "./compare.js";
import { TaskStep } from "./task.js";
import { Hunt } from "./hunt.js";

class TextStep {
  constructor(step) {
    this.node = el("div", { class: "reading" }, ...paragraphs(step.text));
  }

  take() {}
}

const kinds = { text: TextStep, predict: Prediction, watch: WatchStep, try: TryStep, task: TaskStep, hunt: Hunt };
const own_answers = new Set(["predicted", "compared", "task_judged", "hunt_over"]);
/// What a page says for a lesson; an error of one of these stands in the lesson.
export const lesson_words = new Set(["lesson_go", "predict", "try", "judge_task", "look", "name_causes"]);
const working_words = { predict: "The bench is running it …", try: "The bench is running them side by side …", judge_task: "The bench runs your run to its end and looks …" };
const read_key = (path) => `noonbench-cautions ${path}`;

function was_read(path) {
  try {
    return sessionStorage.getItem(read_key(path)) !== null;
  } catch {
    return false;  // storage may be forbidden; the cautions are then read once more
  }
}

/// The name by which the lesson's printed sheets go.
export const sheet_stem = (path) => path.split("/").pop();

export class Lesson {
  /// about: the bench's own account; tools: {say, run(), open_card(name), travel(plan), look(), next(number)
  /// giving the shelf's entry, open(path), watching: true where nobody may answer}
  constructor(about, tools) {
    this.about = about;
    this.node = by_id("lesson");
    this.views = new Map();
    this.tools = { ...tools, say: (message) => this.ask(message), complain: (words) => this.complain(words), name_of: (name) => this.name_of(name) };
    this.say = tools.say;
    this.read = was_read(about.path) || !about.cautions?.length || tools.watching;
    this.list = el("div");
    this.heading = el("h3", { class: "step-title", tabindex: "-1" });
    this.stage = el("div", { class: "stage" });
    this.note = el("p", { class: "working", role: "status" });
    this.problem = el("p", { class: "row-error", role: "alert" });
    this.foot = el("div", { class: "lesson-foot" });
    this.body = el("div", { class: "lesson-body" }, this.head(), this.list, this.heading, this.stage, this.note, this.problem);
    this.node.replaceChildren(this.body, this.foot);  // where the column scrolls, the way on stands under it, never over it
    this.node.hidden = false;
  }

  head() {
    const a = this.about;
    this.aim = el("p", { class: "lesson-aim", text: localised(a.aim) });
    return el("header", { class: "lesson-head" }, el("p", { class: "lesson-kicker", text: `Lesson ${a.number}, about ${a.minutes} minutes` }), el("h2", { id: "lesson-title", text: a.title }), this.aim);
  }

  name_of(name) {
    const signal = this.tools.run()?.signal(name);
    return signal ? short_name(signal) : name.replaceAll("_", " ");
  }

  ask(message) {
    this.pressed = true;
    this.complain("");
    return this.say(message);
  }

  go(step) {
    this.moved_by_hand = true;
    this.ask({ do: "lesson_go", step });
  }

  complain(words) {
    this.working = null;
    set_text(this.problem, localised(String(words ?? "")));
    if (this.state) this.show();
  }

  /// Answers of the bench; true if it was one for a lesson.
  hear(message) {
    if (message.is === "working") {
      this.working = message.of;
    } else if (message.is === "lesson_state") {
      this.working = null;
      const had = this.state?.results ?? [];  // what is shown already stays as it stands, focus and all
      this.state = { ...message, results: message.results.map((r, i) => (r && JSON.stringify(r) === JSON.stringify(had[i]) ? had[i] : r)) };
    } else if (own_answers.has(message.is) && this.state) {
      this.working = null;
      this.state.results[message.step] = message;
      if (message.is === "predicted" && message.step === this.state.step) this.state.must_commit = false;
    } else if (message.is === "looked" && this.state) {
      this.take_look(message);
    } else {
      return false;
    }
    if (this.state) this.show();
    if (message.is !== "working") this.catch_focus();
    return true;
  }

  /// A button that was pressed may be gone with the answer; who works by keyboard finds the answer instead.
  catch_focus() {
    const held = document.activeElement;
    const is_lost = held === document.body || !held?.getClientRects().length || held.disabled;
    if (!this.pressed || !is_lost) return;
    this.pressed = false;
    this.stage.querySelector(".outcome, .read-title, .compare-table, .act:enabled")?.focus({ preventScroll: true });
  }

  take_look({ step, measurement, reads, spent, left }) {
    const had = this.state.results[step]?.looks ?? [];
    if (had.some((l) => l.measurement === measurement)) return;
    this.state.results[step] = { is: "hunting", looks: [...had, { measurement, reads }], spent, left };
  }

  get finished() {
    return this.state && this.state.step >= this.about.steps.length;
  }

  get step() {
    return this.state && !this.finished ? this.about.steps[this.state.step] : null;
  }

  get hunting() {
    return this.step?.kind === "hunt" && !is_settled(this.step, this.state.results[this.state.step]);
  }

  /// Why time stands, in words; empty when it may move.
  get why_time_stands() {
    if (!this.state) return "";
    if (this.hunting) return "Time stands still at the kitchen table.";
    return this.state.must_commit ? "Time stands still until you have said what you foresee." : "";
  }

  /// A step may look no further than to some moment; back one may always go.
  get why_no_further() {
    const run = this.tools.run();
    const stops = this.state?.time_stops_s;
    if (!run || this.finished || !Number.isFinite(stops) || run.at_s < stops || run.at_s >= run.length_s) return "";
    return "This step looks no further. Go on to the next one.";
  }

  show() {
    const cautions = !this.read;
    this.aim.hidden = !cautions && this.state.step > 0;
    for (const node of [this.list, this.foot]) node.hidden = cautions;
    if (cautions) this.show_cautions();
    else if (this.finished) this.show_end();
    else this.show_step();
    document.body.classList.toggle("hunting", Boolean(this.hunting));
    this.tools.changed();
  }

  show_cautions() {
    if (this.shown === "cautions") return;
    this.shown = "cautions";
    set_text(this.heading, "Before you begin");
    this.stage.replaceChildren(...this.about.cautions.map((text) => el("p", { class: "caution", text: localised(text) })), button("I have read this", () => this.have_read(), { id: "cautions-read", class: "strong act" }));
  }

  have_read() {
    this.read = true;
    this.moved_by_hand = true;
    try {
      sessionStorage.setItem(read_key(this.about.path), "read");
    } catch { /* as above */ }
    this.show();
  }

  show_step() {
    const { step: i } = this.state;
    const fresh = this.shown !== i;
    if (!this.views.has(i)) this.views.set(i, new (kinds[this.step.kind] ?? TextStep)(this.step, i, this.tools));
    const view = this.views.get(i);
    this.list_again();
    if (fresh) {
      this.shown = i;
      set_text(this.problem, "");
      set_text(this.heading, `Step ${i + 1} of ${this.about.steps.length}: ${step_word(this.step).toLowerCase()}`);
      this.stage.replaceChildren(view.node, this.rescue(), this.cautions_again());
      this.to_top();
    }
    view.take(this.state.results[i] ?? null, Boolean(this.working));
    view.tick?.();
    const at = this.about.interesting_s;
    this.rescue_button.hidden = Boolean(this.why_time_stands) || !Number.isFinite(at) || this.step.kind === "hunt" || at > (this.state.time_stops_s ?? at);
    set_text(this.note, this.working ? working_words[this.working] ?? "The bench is at work …" : "");
  }

  /// Steps and the way on are drawn anew only when something about them changed.
  list_again() {
    const { step, results } = this.state;
    const key = `${step} ${this.about.steps.map((s, i) => is_settled(s, results[i])).join()}`;
    if (key === this.list_key) return;
    this.list_key = key;
    this.list.replaceChildren(step_list(this.about.steps, this.state, this.tools.watching ? null : (i) => this.go(i)));
    this.foot.replaceChildren(this.finished ? "" : step_foot(this.about.steps, this.state, (i) => this.go(i)));
  }

  rescue() {
    const run = this.tools.run();
    const at = this.about.interesting_s;
    const words = Number.isFinite(at) && run ? `Go to the interesting minute, ${moment_text(run.start_ms, at, run.length_s)}` : "";
    this.rescue_button = button(words, () => {
      this.tools.travel({ from_s: at, stops: [] });
      this.tools.look();
    }, { id: "interesting", class: "quiet rescue" });
    return this.rescue_button;
  }

  cautions_again() {
    if (!this.about.cautions?.length) return "";
    return el("details", { class: "cautions-again" }, el("summary", { text: "Cautions" }), ...this.about.cautions.map((text) => el("p", { class: "caution", text: localised(text) })));
  }

  show_end() {
    this.list_again();
    set_text(this.note, "");
    if (this.shown === "end") return;
    this.shown = "end";
    const a = this.about;
    const next = this.tools.next(a.number);
    set_text(this.heading, "To take away");
    this.stage.replaceChildren(el("blockquote", { class: "take-away", id: "take-away" }, ...paragraphs(this.state.take_away || a.take_away)),
      el("p", {}, el("a", { href: `/sheets/${encodeURIComponent(sheet_stem(a.path))}/learner`, target: "_blank", rel: "noopener", class: "sheet-link", text: "The learner's sheet, to print (opens beside this page)" })),
      next ? el("p", {}, button(`Next lesson: ${next.title}`, () => this.tools.open(next.path), { id: "next-lesson", class: "strong act" })) : "",
      el("p", { class: "hint", text: "The steps above can be gone back to, and the bench is yours." }), this.cautions_again());
    this.to_top();
  }

  /// A reader who went on finds the new step's title under the eye and the reading voice.
  to_top() {
    this.body.scrollTop = 0;
    if (!this.moved_by_hand) return;
    this.moved_by_hand = false;
    this.heading.focus();
  }

  tick() {
    if (this.state && this.read && !this.finished) this.views.get(this.state.step)?.tick?.();
  }

  close() {
    this.node.hidden = true;
    this.node.replaceChildren();
    document.body.classList.remove("hunting");
  }
}
