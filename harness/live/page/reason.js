// SPDX-License-Identifier: MIT
// The reason line: the bench's own sentence, large. Read aloud only when the reason changes, and not
// more often than a listener can follow.

import { el, set_text, by_id } from "./dom.js";
import { localised, figure } from "./numbers.js";

const quiet_ms = 6000;

export class ReasonLine {
  constructor() {
    this.word = el("p", { class: "reason-word" });
    this.line = el("p", { class: "reason-line" });
    this.other = el("p", { class: "reason-other" });
    this.backup = el("p", { class: "backup-line" });
    this.advice = el("div", { class: "advice" });
    this.node = el("div", {}, this.word, this.line, this.other, this.backup, this.advice);
    this.short = el("p", { class: "reason-short", "aria-hidden": "true", hidden: true });  // the line itself stays to be read
    this.spoken_at = 0;
    this.watch = new IntersectionObserver(([seen]) => { this.short.hidden = seen.isIntersecting || seen.boundingClientRect.top > (seen.rootBounds?.top ?? 0); }, { root: by_id("main") });
    this.watch.observe(this.line);
  }

  close() {
    this.watch.disconnect();
  }

  /// Short enough for one line that stays in sight on a page that scrolls.
  shorten(bench, clock) {
    const gap = bench.needle?.gap_k;
    const words = bench.pump?.words || "dark display";
    set_text(this.short, `${clock} Pump: ${localised(words)}${Number.isFinite(gap) ? `, ${figure(gap, 1)}\u00a0K` : ""}`);
  }

  update(bench, other, clock) {
    const pump = bench.pump ?? {};
    const sentence = localised(pump.sentence ?? "");
    set_text(this.word, clock);
    set_text(this.line, sentence || "The controller's display is dark.");
    const backup = localised(bench.backup?.sentence ?? "");
    set_text(this.backup, backup === sentence ? "" : backup);  // as the controller starts: once is enough
    set_text(this.other, other ? `Other setting: ${localised(other.pump?.sentence ?? "")}` : "");
    this.shorten(bench, clock.slice(-8, -3));
    this.advise(bench.advice ?? []);
    this.speak(pump.reason, sentence);
  }

  advise(advice) {
    const key = advice.join("\n");
    if (key === this.advised) return;
    this.advised = key;
    this.advice.replaceChildren(...(advice.length
      ? [el("strong", { text: "Check this:" }), el("ul", {}, ...advice.map((a) => el("li", { text: localised(a) })))] : []));
  }

  speak(reason, sentence) {
    if (reason === this.reason) return;
    clearTimeout(this.waiting);
    const wait = Math.max(0, this.spoken_at + quiet_ms - performance.now());
    this.waiting = setTimeout(() => {
      this.spoken_at = performance.now();
      set_text(by_id("spoken"), sentence);
    }, wait);
    this.reason = reason;
  }
}
