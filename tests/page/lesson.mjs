// SPDX-License-Identifier: MIT
// The first lesson from its cautions to what is taken away, with a wrong and a right answer.
import assert from "node:assert/strict";
import { accessible, said_to_be } from "./look.mjs";

const step_is = (page, n) => page.waitForFunction((k) => document.querySelector(".step-title")?.textContent.startsWith(`Step ${k} of`), n);
const on = async (page, n) => {
  await page.click("#lesson-next");
  await step_is(page, n);
};
const answer = async (page, time) => {
  await page.fill(".predict-form input[type=time]", time);
  await page.click("#commit");
  await page.waitForSelector(".predict-result .outcome");
};

export async function learns_lesson(page, address) {
  await page.goto(address);
  await page.click(".lesson-entry >> nth=0");
  await page.waitForSelector("#cautions-read");
  assert.equal(await page.locator("#lesson-next:visible").count(), 0, "cautions come before the first step");
  await accessible(page, "the cautions");
  await page.click("#cautions-read");
  await step_is(page, 1);

  // Nothing moves before the answer, and an empty one is none.
  await on(page, 2);
  await said_to_be(page, "Time stands still until");
  assert.ok(await page.locator(".hold").isDisabled(), "time cannot be run");
  assert.ok(await page.locator("#lesson-next").isDisabled(), "no way past the question");
  await page.click("#commit");
  await said_to_be(page, "Put in a time of day first.");
  await page.check("#by-hands");
  await accessible(page, "a show of hands");
  await page.uncheck("#by-hands");
  await accessible(page, "a question");

  // A wrong answer: it is told, drawn, and can be watched.
  await answer(page, "07:05");
  await said_to_be(page, "Not this time");
  await page.waitForFunction(() => document.activeElement.classList.contains("outcome"));  // where the eye and the reading voice go
  await said_to_be(page, "The sun was there at 07:05");
  const drawn = await page.getAttribute(".predict-result .small-trace", "aria-label");
  assert.match(drawn, /you said 07:05/);
  assert.equal(await page.locator(".predict-result .mark-sign").count(), 2, "a mark at the answer and one at the truth");
  const told = Number(/it was 07:(\d\d)/.exec(drawn)?.[1]);
  assert.ok(told >= 40 && told <= 46, `the pump starts at about 07:43, it is told 07:${told}`);
  await accessible(page, "a wrong answer");
  await page.click("#watch-it");
  await page.waitForFunction(() => document.querySelector(".clock-time").textContent >= "07:30");

  await on(page, 3);
  await page.waitForSelector(".look-chip");
  await page.click("#run-to");
  await page.waitForFunction(() => document.querySelector(".clock-time").textContent === "07:50:00");
  await said_to_be(page, "This step looks no further");
  await accessible(page, "a step of watching");

  // A right one.
  await on(page, 4);
  await answer(page, "08:30");
  assert.ok(await page.isVisible(".outcome.good"), "08:30 is near enough");

  await on(page, 5);
  await page.click("#run-side-by-side");
  await page.waitForSelector(".compare-table tbody tr:nth-of-type(3)");
  assert.match(await page.textContent(".compare-table"), /07:4\d[^]*08:0\d[^]*08:3\d/, "three starts, one later than the other");
  assert.ok(await page.locator(".compare-trace").count() >= 1, "and drawn");
  await accessible(page, "runs side by side");
  await on(page, 6);

  // The task: not met as opened, with a hint; met with 5 K.
  await on(page, 7);
  await page.click("#judge-my-run");
  await said_to_be(page, "Not met yet");
  await said_to_be(page, "Only one setting speaks of starting.");
  await accessible(page, "a task that is not met");
  await page.click("#tab-settings");
  const start_difference = page.locator("#panel-settings input[type=number]").first();
  await start_difference.fill("5");
  await start_difference.press("Enter");
  await said_to_be(page, "now 5.0\u00a0K");
  await page.click("#judge-my-run");
  await said_to_be(page, "The task is met");
  await accessible(page, "a task that is met");

  await page.click("#lesson-next");
  await page.waitForSelector("#take-away");
  assert.match(await page.textContent("#take-away"), /store bottom/);
  const sheet = await page.getAttribute(".sheet-link", "href");
  assert.equal(sheet, "/sheets/01_what_it_compares/learner");
  assert.equal((await page.request.get(new URL(sheet, address).href)).status(), 200, "the sheet to print is there");
  assert.ok(await page.isVisible("#next-lesson"), "the next lesson is offered");
  await accessible(page, "the end of the lesson");
}
