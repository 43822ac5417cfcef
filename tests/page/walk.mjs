// SPDX-License-Identifier: MIT
// walk.mjs NOONBENCH SHELF CHROMIUM: drives the live page of the real program in a real browser as a
// learner would, in two sizes and both themes, and holds it to WCAG 2.2 AA by axe-core.
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { once } from "node:events";
import assert from "node:assert/strict";

// Packages lie where the test is run, not beside this file.
const from_here = createRequire(`${process.cwd()}/`);
const { chromium } = from_here("playwright-core");
const axe = readFileSync(from_here.resolve("axe-core/axe.min.js"), "utf8");
const [noonbench, shelf, browser_file] = process.argv.slice(2);

async function served(work) {
  const server = spawn(noonbench, ["live", "--port", "0", "--shelf", shelf], { stdio: ["ignore", "pipe", "inherit"] });
  try {
    let said = "";
    for await (const part of server.stdout) {
      said += part;
      if (said.includes("Ctrl+C")) break;
    }
    await work(said.match(/http:\S+/)[0]);
  } finally {
    server.kill();
    await once(server, "exit");
  }
}

const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
async function accessible(page, where) {
  const broken = await page.evaluate(async ([source, tags]) => {
    if (!window.axe) (0, eval)(source);
    const result = await window.axe.run(document, { runOnly: tags });
    return result.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join(", ")}`);
  }, [axe, rules]);
  assert.deepEqual(broken, [], `accessibility of ${where}`);
}

const clock = (page) => page.textContent(".clock-time");
const until = (page, time) => page.waitForFunction((t) => document.querySelector(".clock-time")?.textContent >= t, time);
const said_to_be = (page, words) => page.waitForFunction((w) => document.body.innerText.includes(w), words);

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

const sizes = [
  { name: "laptop, light", viewport: { width: 1366, height: 768 }, colorScheme: "light" },
  { name: "projector, dark", viewport: { width: 1920, height: 1080 }, colorScheme: "dark" },
];
await served(async (address) => {
  const browser = await chromium.launch({ executablePath: browser_file, args: ["--no-sandbox", "--disable-gpu"] });
  for (const { name, ...look } of sizes) {
    const context = await browser.newContext({ ...look, locale: "en-GB", bypassCSP: true, acceptDownloads: true });
    const page = await context.newPage();
    page.setDefaultTimeout(30000);
    const complaints = [];
    page.on("console", (m) => { if (["error", "warning"].includes(m.type())) complaints.push(m.text()); });
    page.on("pageerror", (e) => complaints.push(e.message));
    await learns(page, address);
    assert.deepEqual(complaints, [], `what the browser complained about (${name})`);
    console.log(`${name}: walked through, stopped at ${await clock(page)}`);
    await context.close();
  }
  // Outside the test the page stands by its own content policy.
  const page = await browser.newPage();
  const complaints = [];
  page.on("console", (m) => { if (m.type() === "error") complaints.push(m.text()); });
  await page.goto(address);
  await page.waitForSelector(".entry");
  assert.deepEqual(complaints, [], "complaints under the content policy");
  await browser.close();
});
