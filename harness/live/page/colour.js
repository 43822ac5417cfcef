// SPDX-License-Identifier: MIT
// The one colour scale of temperature: lightness rises in equal steps from 0 to 100 degC, so that it
// reads the same to colour-blind eyes and on a grey printer. OKLab: B. Ottosson, 2020.

export const coldest_c = 0;
export const hottest_c = 100;
const dark_lightness = 0.3;
const light_lightness = 0.93;

function gamma(linear) {
  const x = Math.min(1, Math.max(0, linear));
  return Math.round(255 * (x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055));
}

function from_oklch(lightness, chroma, hue_deg) {
  const a = chroma * Math.cos((hue_deg * Math.PI) / 180);
  const b = chroma * Math.sin((hue_deg * Math.PI) / 180);
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    gamma(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
    gamma(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
    gamma(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s),
  ];
}

const share = (celsius) => Math.min(1, Math.max(0, (celsius - coldest_c) / (hottest_c - coldest_c)));
const lightness_at = (t) => dark_lightness + (light_lightness - dark_lightness) * t;

/// Violet through teal and green to pale yellow; 101 steps are kept.
const steps = Array.from({ length: 101 }, (_, i) => {
  const t = i / 100;
  return `rgb(${from_oklch(lightness_at(t), 0.095 + 0.035 * Math.sin(Math.PI * t), 298 - 200 * t).join(" ")})`;
});

/// The colour of a temperature; grey where nothing is known.
export function heat_colour(celsius) {
  if (celsius === null || celsius === undefined || !Number.isFinite(celsius)) return "rgb(128 128 128)";
  return steps[Math.round(share(celsius) * 100)];
}

/// Ink that can be read on that colour.
export const ink_on_heat = (celsius) => (lightness_at(share(celsius ?? 50)) > 0.62 ? "#101820" : "#ffffff");
