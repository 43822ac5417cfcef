// SPDX-License-Identifier: MIT
// walk.mjs NOONBENCH SHELF CHROMIUM: drives the live page of the real program in a real browser as a
// learner would, in several sizes and both themes, and holds it to WCAG 2.2 AA by axe-core.
import { readFileSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import assert from "node:assert/strict";
import { accessible, clock, open_browser, page_of, said_to_be, served, until } from "./look.mjs";
import { learns_lesson } from "./lesson.mjs";
import { holds_class } from "./class.mjs";

async function learns(page, address) {
  await page.goto(address);
  await page.waitForSelector(".entry");
  await accessible(page, "the shelf");
  await page.click("text=Run a clear April day");
  await until(page, "06:3");
  await page.click(".pace label:nth-of-type(5)");
  await until(page, "09:00");
  await page.click(".hold");
  await said_to_be(page, "Collecting:");
  await accessible(page, "the bench");

  // A setting that does not fit is refused with what is allowed, one that fits is in force.
  await page.click("#tab-settings");
  const start_difference = page.locator("#panel-settings input[type=number]").first();
  await start_difference.fill("99");
  await start_difference.press("Enter");
  await said_to_be(page, "Allowed: 2");
  await start_difference.fill("6.5");
  await start_difference.press("Enter");
  await said_to_be(page, "6.5\u00a0K");
  await accessible(page, "the settings");

  // A plug is pulled: the controller says so within a minute; put back, it goes on.
  await page.click("#tab-tamper");
  await page.click("text=Sensors and wires");
  const cable = page.locator("select", { hasText: "shorted" }).first();
  await cable.selectOption("open");
  await page.click(".pace label:nth-of-type(2)");
  await said_to_be(page, "sensor is lost");
  await accessible(page, "what can be tampered with");
  await cable.selectOption("sound");
  await said_to_be(page, "Collecting:");
  await page.click(".hold");

  // Wound back, the day begins again before the plug was pulled.
  await page.fill(".go-to input", "07:00");
  await page.click(".go-to button");
  await page.waitForFunction(() => document.querySelector(".clock-time")?.textContent === "07:00:00");
  await said_to_be(page, "Waiting for sun");

  // The same morning with another setting, side by side.
  await page.click("#tab-charts");
  await page.click("text=Same morning, other setting");
  await page.selectOption("#fork select >> nth=0", "start_difference");
  const other = page.locator("#fork input[type=number]");
  await other.fill("20");
  await other.press("Tab");
  await accessible(page, "the question for the other setting");
  await page.click("text=Run both");
  await page.waitForSelector("#bench-choice label:nth-of-type(2)");
  await accessible(page, "two mornings");

  const [download] = await Promise.all([page.waitForEvent("download"), page.click('text="Save"')]);
  const saved = readFileSync(await download.path(), "utf8");
  assert.match(saved, /start|title/, "the saved run is a scenario");
}

const laptop = { width: 1366, height: 768 };
/// A fault drawn by lot is sealed by the bench itself, until one asks.
async function draws_by_lot(page, address) {
  await page.goto(address);
  await page.click(".door.find");
  const titles = await page.locator("#shelf-fault ~ ul .entry strong, section:has(#shelf-fault) .entry strong").allTextContents();
  assert.ok(titles.length > 60, `the shelf has ${titles.length} faults`);
  await page.click("text=Draw a fault by lot");
  await page.waitForFunction(() => document.getElementById("run-title").textContent === "A fault drawn by lot");
  await until(page, "00:30");
  await page.click(".hold");
  await page.click("#tab-events");
  const told = await page.innerText("#bench");
  assert.deepEqual(titles.filter((title) => told.includes(title)), [], "the name is told nowhere");
  await accessible(page, "a fault drawn by lot");
  await page.click("#tell-me");
  await page.waitForFunction((all) => all.includes(document.getElementById("run-title").textContent), titles);
}

const sizes = [
  { name: "laptop, light", viewport: laptop, colorScheme: "light", work: learns },
  { name: "a fault by lot, light", viewport: laptop, colorScheme: "light", work: draws_by_lot },
  { name: "projector, dark", viewport: { width: 1920, height: 1080 }, colorScheme: "dark", work: learns },
  { name: "a lesson on a laptop, dark", viewport: laptop, colorScheme: "dark", work: learns_lesson },
  { name: "a lesson on a phone, light", viewport: { width: 390, height: 844 }, colorScheme: "light", work: learns_lesson },
];
const browser = await open_browser();
await served(async (address) => {
  for (const { name, work, ...look } of sizes) {
    const page = await page_of(browser, look);
    await work(page, address);
    assert.deepEqual(page.complaints, [], `what the browser complained about (${name})`);
    console.log(`${name}: walked through, stopped at ${await clock(page)}`);
    await page.context().close();
  }
  // Outside the test the page stands by its own content policy.
  const page = await browser.newPage();
  const complaints = [];
  page.on("console", (m) => { if (m.type() === "error") complaints.push(m.text()); });
  await page.goto(address);
  await page.waitForSelector(".entry");
  await page.click(".lesson-entry >> nth=0");
  await page.waitForSelector("#cautions-read");
  assert.deepEqual(complaints, [], "complaints under the content policy");
});

const kept = mkdtempSync(join(process.cwd(), "class-"));
try {
  await served((address, said) => holds_class(browser, address, said), ["--lan", "--class-file", join(kept, "class.sqlite")]);
  console.log("a class of three: walked through");
} finally {
  rmSync(kept, { recursive: true });
}
await browser.close();
