// SPDX-License-Identifier: MIT
// Light or dark: as the system has it, until the switch says otherwise; that is kept.

import { button } from "./dom.js";

const key = "noonbench-theme";
const system_dark = matchMedia("(prefers-color-scheme: dark)");

function kept() {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;  // storage may be forbidden; the switch then lasts until the page is left
  }
}

let chosen = kept();

const is_dark = () => (chosen ? chosen === "dark" : system_dark.matches);

function apply() {
  document.documentElement.dataset.theme = is_dark() ? "dark" : "light";
  document.dispatchEvent(new Event("theme"));
}

/// The switch; "theme" is an event of the document.
export function theme_switch() {
  const node = button("", () => {
    chosen = is_dark() ? "light" : "dark";
    try {
      localStorage.setItem(key, chosen);
    } catch { /* as above */ }
    show();
  }, { class: "quiet" });
  const show = () => {
    apply();
    node.textContent = is_dark() ? "Light page" : "Dark page";
  };
  system_dark.addEventListener("change", show);
  show();
  return node;
}

/// A colour of the page's style sheet as it stands now.
export const style_colour = (name) =>
  getComputedStyle(document.documentElement).getPropertyValue(name).trim();
