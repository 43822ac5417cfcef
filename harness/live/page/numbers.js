// SPDX-License-Identifier: MIT
// Figures, units and clock times in the reader's own manner (decimal comma or point).

function usable_locale() {
  try {
    return new Intl.NumberFormat(navigator.language).resolvedOptions().locale;
  } catch {
    return "en-GB";
  }
}

export const locale = usable_locale();
const formats = new Map();

/// A figure with so many decimals; a dash where there is none.
export function figure(value, decimals = 1) {
  if (value === null || value === undefined || !Number.isFinite(value)) return "–";
  if (!formats.has(decimals)) {
    formats.set(decimals, new Intl.NumberFormat(locale, {
      minimumFractionDigits: decimals, maximumFractionDigits: decimals,
    }));
  }
  const text = formats.get(decimals).format(value).replace(/^-/, "−");
  return Number(value.toFixed(decimals)) === 0 ? text.replace(/^−/, "") : text;
}

const decimal_sign = new Intl.NumberFormat(locale).formatToParts(1.5).find((p) => p.type === "decimal").value;

/// Figures of a sentence from the bench in the reader's manner, unbroken from their units.
export const localised = (sentence) =>
  sentence.replace(/(\d)\.(\d)/g, `$1${decimal_sign}$2`).replace(/(^|[\s(])-(?=\d)/g, "$1−").replace(/(\d) (°C|K|bar|kWh|l\/min)\b/g, "$1\u00a0$2");

/// What a person typed as a number, with comma or point; NaN if it is none.
export function typed_number(text) {
  const trimmed = text.trim().replace("−", "-").replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(trimmed) ? Number(trimmed) : NaN;
}

const units = { degC: "°C", "W/m2": "W/m²", m3: "m³", ohm: "Ω", 1: "" };

export const unit_text = (unit) => units[unit] ?? unit;

/// How many decimals a learner needs; the bench records more.
function useful_decimals(signal) {
  const fewer = { degC: 1, K: 1, "l/min": 1, kWh: 1, l: 1, "W/m2": 0, W: 0, "%": 0 };
  return Math.min(signal.decimals ?? 1, fewer[signal.unit] ?? 2);
}

export const plain_word = (word) => String(word).replaceAll("_", " ");

/// The value of a signal without its unit: a figure, on or off, or a word.
export function value_text(signal, value) {
  if (value === null || value === undefined) return "–";
  if (signal.kind === "on_off") return value ? "on" : "off";
  if (signal.kind === "choice") {
    return plain_word(typeof value === "string" ? value : signal.words?.[value] ?? "–");
  }
  return figure(value, useful_decimals(signal));
}

/// The same with the unit behind it, by a space that does not break.
export function with_unit(signal, value) {
  const text = value_text(signal, value);
  const unit = signal.kind === "number" ? unit_text(signal.unit) : "";
  return unit && text !== "–" ? `${text}\u00a0${unit}` : text;
}

/// Start of a run as text "2026-04-15 00:00" in milliseconds of a civil clock.
export function civil_ms(start) {
  const [, y, mo, d, h, mi] = /^(\d+)-(\d+)-(\d+)[ T](\d+):(\d+)/.exec(start) ?? [0, 2000, 1, 1, 0, 0];
  return Date.UTC(+y, +mo - 1, +d, +h, +mi);
}

const day_format = new Intl.DateTimeFormat(locale, { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" });

export const day_text = (start_ms, at_s) => day_format.format(new Date(start_ms + at_s * 1000));

/// Clock time at so many seconds from the start: "07:43:10", or "07:43" without seconds.
export function clock_text(start_ms, at_s, seconds = true) {
  const iso = new Date(start_ms + Math.round(at_s) * 1000).toISOString();
  return iso.slice(11, seconds ? 19 : 16);
}

/// Day and time where a run is longer than a day, the time alone otherwise.
export function moment_text(start_ms, at_s, length_s, seconds = false) {
  const clock = clock_text(start_ms, at_s, seconds);
  return length_s > 86400 ? `${day_text(start_ms, at_s)} ${clock}` : clock;
}
