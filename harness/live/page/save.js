// SPDX-License-Identifier: MIT
// What the bench made, as a file of the reader's: a saved run, marks, a sheet.

import { el } from "./dom.js";

/// name and text come from the bench; a name may hold no path.
export function download(name, text, type = "application/yaml") {
  const safe = String(name).replace(/[^\w.-]/g, "_").slice(0, 80) || "my_bench.yaml";
  const url = URL.createObjectURL(new Blob([String(text)], { type }));
  const link = el("a", { href: url, download: safe });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}
