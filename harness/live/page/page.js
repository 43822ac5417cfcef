// SPDX-License-Identifier: MIT
// Puts the page together: what the bench says goes to the run, and from there to everything shown.

import { el, by_id, set_text } from "./dom.js";
import { Link } from "./link.js";
import { Run } from "./run.js";
import { Shelf } from "./shelf.js";
import { Bench } from "./bench.js";
import { theme_switch } from "./theme.js";
import { download } from "./save.js";
import { localised } from "./numbers.js";
import { Travel } from "./travel.js";
import { Lesson, lesson_words } from "./lesson.js";
import { lesson_after } from "./lesson_cards.js";
import { Seat } from "./seat.js";
import { TrainerPage } from "./trainer.js";
import { ProjectorPage } from "./projector.js";

const usual_pace = 600;
const toast_ms = 8000;

let bench = null;
let lesson = null;
let wanted = null;      // what the next opened run is to look like
let complain = null;    // where an error of the last move is to stand
let after_jump = null;  // how time is to run on from a moment that is being gone to
let was_open = null;    // a run that the line broke under

const role = { "#trainer": "trainer", "#projector": "projector" }[location.hash] ?? "learner";

/// The projector only watches.
const say = (message) => (role === "projector" && message.do !== "project" ? true : link.say(message));
const travel = new Travel(say);

/// What a hand on the time says: it ends any way through time that was under way.
function say_of_time(message) {
  travel.cancel();
  after_jump = null;
  return say(message);
}

function toast(text) {
  const node = by_id("toast");
  set_text(node, localised(String(text)));
  node.hidden = false;
  clearTimeout(toast.timer);
  toast.timer = setTimeout(() => { node.hidden = true; }, toast_ms);
}

function show(which) {
  for (const id of ["shelf", "bench", "join", "trainer", "projector"]) by_id(id).hidden = id !== which;
  by_id("timebar").hidden = which !== "bench";
  document.body.classList.toggle("on-the-bench", which === "bench");
  scrollTo(0, 0);
  by_id("main").scrollTop = 0;
}

function open(path, how = {}) {
  wanted = { path, ...how };
  travel.cancel();
  after_jump = null;
  if (!say({ do: "open", path, ...(how.hidden && { hidden: true }) }) || how.lesson) return;
  if (how.from_s) say({ do: "jump", to_s: Math.round(how.from_s) });
  then(how.from_s ?? 0, how.pace ?? usual_pace);
}

/// Runs on once time stands there: a pace said earlier would end the jump that leads there.
function then(at_s, times) {
  after_jump = { at_s, times };
}

/// The bench has sealed what was drawn by lot; unsealed it is run again to here.
function reveal() {
  open(bench.run.opened.path, { from_s: bench.run.at_s, pace: 0, about: true });
}

/// A house on the bench: one that was asked for, one that a step of a lesson brings, or one that was sent.
function opened(message) {
  if (lesson && (message.sent || message.path !== lesson.about.path)) close_lesson();
  const run = new Run(message);
  run.title_hidden = Boolean(message.hidden);
  run.sealed = run.title_hidden && !wanted?.hidden;  // by somebody else: nothing to be asked here
  if (was_open && !wanted) run.inherit(was_open);
  if (message.sent && role === "learner") toast("Your trainer has sent you this.");
  travel.cancel();
  bench?.close();
  bench = new Bench(run, { say, say_of_time, move, then, tab: wanted?.tab, why_time_stands, reveal });
  if (wanted?.about) by_id("run-about-button").click();
  wanted = null;
  was_open = null;
  show("bench");
  if (!lesson) by_id("run-title").focus?.();
}

/// Why time may not move: at all, or onwards only.
function why_time_stands() {
  const words = lesson?.why_time_stands || seat.why_time_stands;
  return words ? { words, onwards: false } : { words: lesson?.why_no_further ?? "", onwards: true };
}

function close_lesson() {
  lesson?.close();
  lesson = null;
  document.body.classList.remove("in-lesson");
}

function lesson_begins(message) {
  close_lesson();
  document.body.classList.add("in-lesson");
  lesson = new Lesson(message, {
    say, run: () => bench?.run, open_card: (name) => bench?.card.open(name), changed: () => bench?.bars(),
    travel: (plan) => {
      after_jump = null;
      travel.begin(plan, bench?.run.at_s ?? 0);
    },
    watching: role === "projector", look: to_the_picture, next: (number) => lesson_after(shelf.entries, number), open: (path) => open(path, { tab: "charts", lesson: true }),
  });
}

/// Where the lesson stands over the picture, as on a phone, what is to be seen is brought into sight.
function to_the_picture() {
  if (by_id("lesson").offsetLeft > by_id("house").offsetLeft) return;
  by_id("house").scrollIntoView({ block: "start", behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth" });
}

/// A move of a hand, a setting or a thing tampered with, on the bench that is drawn.
function move(what, problem) {
  complain = problem ?? toast;
  say({ do: "move", ...what, on: bench.run.drawn ? "other" : "this" });
}

function welcome(message) {
  if (role === "trainer") trainer.welcome(message);
  if (role === "projector") projector.welcome();
  if (role !== "learner") return;
  shelf.fill(message.shelf);
  seat.welcome(message.class);
  if (seat.barred) return;
  if (!bench) {
    show("shelf");
  } else if (seat.name && by_id("bench").hidden) {
    show("shelf");  // a seat was taken by hand
  } else {
    was_open = bench.run;
    setTimeout(offer_again, 1500);
  }
}

/// After a break the bench may have forgotten the run; the picture stays and can be run again.
function offer_again() {
  if (!was_open) return;
  const { path } = was_open.opened;
  const how = lesson ? { lesson: true } : { from_s: was_open.at_s, hidden: was_open.title_hidden };
  by_id("link-state").replaceChildren("The bench was started anew. ", el("button", { type: "button", text: lesson ? "Begin this lesson again" : "Run this day again to here",
    on: { click: () => { by_id("link-state").replaceChildren(); open(path, how); } } }));
}

function frame(message) {
  if (!bench) return;
  if (was_open) {
    was_open = null;
    tell("up");
  }
  bench.run.take(message);
  travel.frame(message);
  if (after_jump && !message.jumping && message.at_s >= after_jump.at_s) {
    say({ do: "pace", times: after_jump.times });
    after_jump = null;
  }
  bench.stale = true;
}

function hear_error(m) {
  const words = m.what ?? "The bench could not do that.";
  if (role === "projector") projector.refused(m);
  else if (seat.refused(m)) return;
  else if (lesson && lesson_words.has(m.of)) lesson.complain(words);
  else if (m.of === "move" && complain) complain(words);
  else toast(words);
}

function class_over() {
  if (role === "projector") return projector.ended();
  close_lesson();
  return seat.over();
}

const hear = {
  welcome, opened, frame,
  lesson: lesson_begins,
  seated: (m) => seat.seated(m),
  held: (m) => seat.hold(Boolean(m.held)),
  taken_over: () => seat.taken_over(),
  class_over,
  projecting: (m) => projector?.projecting(m),
  showing: (m) => {
    close_lesson();
    projector?.showing(m);
  },
  sun: (m) => bench?.sun(m),
  rewound: (m) => bench?.run.rewind(m.at_s),
  course: (m) => bench?.card.course(m),
  saved: (m) => download(m.name, m.yaml),
  error: hear_error,
  hunt_over: (m) => {
    lesson?.hear(m);
    bench?.unseal();
  },
};

function tell(state, wait_ms) {
  const node = by_id("link-state");
  document.body.classList.toggle("line-down", state !== "up");
  if (state === "down") for (const part of [seat, trainer, projector]) part?.lost();
  if (state === "up") set_text(node, "");
  else if (state === "down") set_text(node, `No line to the bench; what you see is the last picture. Trying again in ${Math.ceil(wait_ms / 1000)} s.`);
}

const tools = { say: (m) => say(m), show, toast, changed: () => bench?.bars() };
const seat = new Seat(tools);
const trainer = role === "trainer" ? new TrainerPage(tools) : null;
const projector = role === "projector" ? new ProjectorPage(tools) : null;
by_id("top-tools").append(seat.node, seat.link, theme_switch());
if (role !== "learner") show(role);
addEventListener("hashchange", () => {
  if (["#trainer", "#projector"].includes(location.hash) && location.hash !== `#${role}`) location.reload();
});
document.querySelector(".skip").addEventListener("click", (event) => {
  event.preventDefault();  // the part after # is the page's role
  by_id("main").focus();
});
by_id("home").addEventListener("click", (event) => {
  event.preventDefault();
  if (role !== "learner" || seat.barred) return;
  if (bench) {
    say_of_time({ do: "pace", times: 0 });
    shelf.offer_return(by_id("run-title").textContent, () => show("bench"));
  }
  show("shelf");
});

const shelf = new Shelf(open);
const link = new Link((message) => {
  if (trainer && message.is !== "welcome") trainer.hear(message);
  else if (hear[message.is]) hear[message.is](message);
  else lesson?.hear(message);
}, tell);

/// Pictures follow the screen, not the line: ten frames a second are plenty.
function paint() {
  if (bench?.stale && !by_id("bench").hidden) {
    bench.stale = false;
    bench.update();
    lesson?.tick();
  }
  requestAnimationFrame(paint);
}
requestAnimationFrame(paint);
