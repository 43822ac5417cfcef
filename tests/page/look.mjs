// SPDX-License-Identifier: MIT
// What all walks share: the real program, a browser, the rules of accessibility, complaints.
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { once } from "node:events";
import assert from "node:assert/strict";

// Packages lie where the test is run, not beside this file.
const from_here = createRequire(`${process.cwd()}/`);
export const { chromium } = from_here("playwright-core");
const axe = readFileSync(from_here.resolve("axe-core/axe.min.js"), "utf8");
const [noonbench, shelf, browser_file] = process.argv.slice(2);

/// Runs the program, and work(address, what its terminal said) while it runs.
export async function served(work, options = []) {
  const server = spawn(noonbench, ["live", "--port", "0", "--shelf", shelf, ...options], { stdio: ["ignore", "pipe", "inherit"] });
  try {
    let said = "";
    for await (const part of server.stdout) {
      said += part;
      if (said.includes("Ctrl+C")) break;
    }
    await work(said.match(/http:\S+/)[0], said);
  } finally {
    server.kill();
    await once(server, "exit");
  }
}

const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
export async function accessible(page, where) {
  const broken = await page.evaluate(async ([source, tags]) => {
    if (!window.axe) (0, eval)(source);
    const result = await window.axe.run(document, { runOnly: tags });
    return result.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(" ")).join(", ")}`);
  }, [axe, rules]);
  assert.deepEqual(broken, [], `accessibility of ${where}`);
  const too_wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(too_wide <= 1, `${where} is ${too_wide} px wider than its window`);
}

export const open_browser = () => chromium.launch({ executablePath: browser_file, args: ["--no-sandbox", "--disable-gpu"] });

/// A page of a look, with all that the browser complains about.
export async function page_of(browser, look) {
  const context = await browser.newContext({ ...look, locale: "en-GB", bypassCSP: true, acceptDownloads: true });
  const page = await context.newPage();
  page.setDefaultTimeout(30000);
  page.complaints = [];
  page.on("console", (m) => { if (["error", "warning"].includes(m.type())) page.complaints.push(m.text()); });
  page.on("pageerror", (e) => page.complaints.push(e.message));
  return page;
}

export const clock = (page) => page.textContent(".clock-time");
export const until = (page, time) => page.waitForFunction((t) => document.querySelector(".clock-time")?.textContent >= t, time);
export const said_to_be = (page, words) => page.waitForFunction((w) => document.body.innerText.includes(w), words);

/// What a button brings as a file: its text.
export async function downloaded(page, selector) {
  const [file] = await Promise.all([page.waitForEvent("download"), page.click(selector)]);
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), "utf8") };
}
