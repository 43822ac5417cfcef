// SPDX-License-Identifier: MIT
// A class of three with a trainer and a projector, on the server that a trainer would start.
import assert from "node:assert/strict";
import { accessible, downloaded, page_of, said_to_be } from "./look.mjs";

const laptop = { viewport: { width: 1366, height: 768 }, colorScheme: "light" };
const names = ["Anna", "Bert", "Chiara"];

async function trainer_opens(browser, address, secret) {
  const page = await page_of(browser, laptop);
  await page.goto(`${address}#trainer`);
  await page.fill("#class-secret", "surely-wrong");
  await page.click("#class-enter");
  await said_to_be(page, "not the class secret");
  await page.fill("#class-secret", secret);
  await page.fill("#class-title", "Tuesday group");
  await page.click("#class-enter");
  await page.waitForSelector(".class-word");
  await accessible(page, "the trainer's page, empty");
  return page;
}

async function joins(browser, address, word, name, look) {
  const page = await page_of(browser, look);
  await page.goto(address);
  await page.waitForSelector("#join-word");
  assert.equal(await page.locator(".entry:visible").count(), 0, "nothing is on the shelf before one has joined");
  if (name === names[0]) {
    await accessible(page, "the form to join");
    await page.fill("#join-word", "surely-wrong");
    await page.fill("#join-name", name);
    await page.click("#join-go");
    await said_to_be(page, "not the word of this class");
  }
  await page.fill("#join-word", word);
  await page.fill("#join-name", name);
  await page.click("#join-go");
  await page.waitForSelector(".lesson-entry:visible");
  return page;
}

async function stands_at_the_question(page) {
  await page.click(".lesson-entry >> nth=0");
  await page.click("#cautions-read");
  await page.click("#lesson-next");
  await page.waitForSelector("#commit");
}

export async function holds_class(browser, address, said) {
  const secret = /The class secret: (\S+)/.exec(said)[1];
  const trainer = await trainer_opens(browser, address, secret);
  const word = (await trainer.textContent(".class-word")).trim();

  const wall = await page_of(browser, { viewport: { width: 1920, height: 1080 }, colorScheme: "dark" });
  await wall.goto(`${address}#projector`);
  await wall.fill("#class-secret", secret);
  await wall.click("#class-enter");
  await wall.waitForSelector(".wall");
  assert.equal((await wall.textContent(".wall .class-word")).trim(), word);
  await accessible(wall, "word and address on the wall");

  const looks = [laptop, { viewport: { width: 820, height: 1180 }, colorScheme: "dark" }, { viewport: { width: 390, height: 844 }, colorScheme: "light" }];
  const learners = [];
  for (const [i, name] of names.entries()) learners.push(await joins(browser, address, word, name, looks[i]));
  const [anna, bert, chiara] = learners;
  for (const page of learners) await stands_at_the_question(page);

  // One foresees; the trainer sees it counted, and who is where.
  await anna.fill(".predict-form input[type=time]", "07:40");
  await anna.click("#commit");
  await anna.waitForSelector(".outcome.good");
  await trainer.waitForSelector(".vote.right");
  await trainer.waitForFunction((n) => document.querySelectorAll("#seat-table tbody tr").length === n, names.length);
  await trainer.click(".vote-table summary");
  assert.match(await trainer.textContent(".vote-table"), /07:40[^]*Anna[^]*yes/);
  assert.match(await trainer.textContent("#seat-table"), /2 of 7, foresee/);
  await accessible(trainer, "the trainer's page, with three seats");

  // Time is held and given free.
  await trainer.click("#class-hold");
  await said_to_be(anna, "Your trainer holds the time.");
  await anna.waitForFunction(() => document.querySelector(".hold").disabled);
  await accessible(anna, "a bench whose time is held");
  await trainer.click("#class-hold");
  await anna.waitForFunction(() => !document.querySelector(".hold").disabled);

  // A fault, sealed, to one.
  const fault = await trainer.getAttribute("#send-what option[value^='faults/']", "value");
  const named = await trainer.textContent(`#send-what option[value='${fault}']`);
  await trainer.selectOption("#send-what", fault);
  await trainer.selectOption("#send-to", "Chiara");
  await trainer.check("#send-sealed");
  await trainer.click("#send-go");
  await chiara.waitForFunction(() => document.getElementById("run-title").textContent === "A house with something wrong");
  assert.ok(!(await chiara.textContent("body")).includes(named), "its name is told nowhere");
  assert.ok(await bert.isVisible("#commit"), "the others stand where they stood");
  await accessible(chiara, "a sealed fault");

  // One is shown on the wall, with nothing to press.
  await trainer.click("#seat-table tr:has-text('Anna') button:has-text('Show')");
  await said_to_be(wall, "Anna's bench");
  await wall.waitForSelector("#bench .reason-line:visible");
  assert.equal(await wall.locator(".timebar:visible, .hands:visible, .tabs:visible, .lesson button:visible").count(), 0, "the wall has no controls");
  await accessible(wall, "a bench on the wall");

  const marks = await downloaded(trainer, "#class-marks");
  assert.equal(marks.name, "marks_tuesday_group.csv");
  assert.match(marks.text, /Anna/);
  await trainer.click(".sheets summary");
  const sheet = await downloaded(trainer, ".sheet-list li:first-child button");
  assert.match(sheet.name, /^01_what_it_compares.*instructor.*\.html$/);
  await accessible(trainer, "the trainer's page, with the list of sheets");

  // One who comes back sits where she sat.
  await anna.reload();
  await anna.waitForSelector(".predict-result .outcome.good");
  assert.equal(await anna.textContent(".step-title"), "Step 2 of 7: foresee");
  assert.match(await anna.textContent("#seat-name"), /Anna/);

  await trainer.click("#class-end");
  await trainer.click(".yes");
  await said_to_be(anna, "Your seat in the class has ended.");
  for (const page of [trainer, wall, ...learners]) {
    assert.deepEqual(page.complaints, [], `what the browser complained about at ${page.url()}`);
    await page.context().close();
  }
}
