// SPDX-License-Identifier: MIT
// The sky above the house, as seen to the south: the day's true path of the sun, hills, cloud.

import { svg, set_attribute } from "./dom.js";

const left = 16;
const right = 824;
const horizon_y = 236;
const units_per_degree = 3.1;
const least_azimuth = 50;
const most_azimuth = 310;

const x_of = (azimuth) => left + ((azimuth - least_azimuth) / (most_azimuth - least_azimuth)) * (right - left);
const y_of = (elevation) => horizon_y - elevation * units_per_degree;

function cloud(x, y, scale) {
  return svg("path", {
    class: "cloud", transform: `translate(${x} ${y}) scale(${scale})`,
    d: "M-46 14a15 15 0 0 1 4-29 22 22 0 0 1 41-9 17 17 0 0 1 29 12 14 14 0 0 1 3 26z",
  });
}

export class Sky {
  constructor() {
    this.path = [];
    this.arc = svg("path", { class: "sun-arc" });
    this.hours = svg("g", { class: "sun-hours" });
    this.halo = svg("circle", { class: "sun-halo", r: 34 });
    this.disc = svg("circle", { class: "sun", r: 17 });
    this.sun = svg("g", {}, this.halo, this.disc);
    this.stars = svg("g", { class: "stars" }, ...stars());
    this.night = svg("rect", { class: "sky-night", x: -400, y: -400, width: 1640, height: 1400 });
    this.dusk = svg("rect", { class: "sky-night", x: -400, y: 200, width: 1640, height: 800 });
    this.clouds = svg("g", { class: "clouds" }, cloud(0, 0, 1.15), cloud(58, 16, 0.8), cloud(-60, 20, 0.7));
    this.node = svg("g", { "aria-hidden": "true" },
      svg("rect", { class: "sky-day", x: -400, y: -400, width: 1640, height: 1400 }), this.night, this.stars,
      this.arc, this.hours, this.sun, this.clouds,
      svg("path", { class: "hill far", d: "M-400 236C-260 206-140 262 0 248S170 226 270 240 470 214 580 232 740 214 840 238 1080 206 1240 240V640H-400Z" }),
      svg("path", { class: "hill near", d: "M-400 370C-240 420-110 400 0 388S190 366 300 380 660 340 840 384 1100 360 1240 390V640H-400Z" }),
      svg("rect", { class: "earth", x: -400, y: 598, width: 1640, height: 300 }), ...tree(800, 598), this.dusk);
  }

  /// path: [[second_of_day, elevation_deg, azimuth_deg], ...] of one day.
  set_path(path) {
    this.path = path.filter((p) => p.every(Number.isFinite));
    const up = this.path.filter((p) => p[1] >= -1 && p[2] >= least_azimuth && p[2] <= most_azimuth);
    this.arc.setAttribute("d", up.map((p, i) => `${i ? "L" : "M"}${x_of(p[2]).toFixed(1)} ${y_of(p[1]).toFixed(1)}`).join(""));
    this.hours.replaceChildren(...[6, 9, 12, 15, 18].map((h) => this.hour(h)).filter(Boolean));
  }

  hour(h) {
    const place = this.place_at(h * 3600);
    if (!place || place[0] < 2) return null;
    return svg("g", {}, svg("circle", { class: "sun-hour", cx: x_of(place[1]), cy: y_of(place[0]), r: 2.6 }),
      svg("text", { class: "sky-text", x: x_of(place[1]), y: y_of(place[0]) - 8, "text-anchor": "middle", text: `${h}h` }));
  }

  /// [elevation, azimuth] at a second of the day, or null.
  place_at(second) {
    const p = this.path;
    if (p.length < 2 || second < p[0][0] || second > p[p.length - 1][0]) return null;  // below the horizon
    let i = p.findIndex((q) => q[0] >= second);
    if (i === 0) return [p[0][1], p[0][2]];
    const [a, b] = [p[i - 1], p[i]];
    const t = Math.min(1, Math.max(0, (second - a[0]) / Math.max(1, b[0] - a[0])));
    return [a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
  }

  /// Light of the sky with the sun down: fades in the 40 minutes after the path's ends.
  twilight(second) {
    const p = this.path;
    if (p.length < 2) return 0;
    const away_s = Math.max(p[0][0] - second, second - p[p.length - 1][0]);
    return Math.max(0, 0.43 * (1 - away_s / 2400));
  }

  /// row: a plane of collectors; cloud_share: 0 to 1 where the bench says it.
  update(second, row, sun_w_m2, cloud_share) {
    const place = this.place_at(second);
    const elevation = place ? place[0] : -10;
    const day = place ? Math.min(1, Math.max(0, (elevation + 6) / 14)) : this.twilight(second);
    this.night.style.opacity = (1 - day).toFixed(2);
    this.dusk.style.opacity = (0.72 * (1 - day)).toFixed(2);
    this.dark = day < 0.45;
    this.stars.style.opacity = (1 - Math.min(1, day * 2)).toFixed(2);
    const seen = place && elevation > -4;
    this.sun.style.display = seen ? "" : "none";
    if (seen) set_attribute(this.sun, "transform", `translate(${x_of(place[1]).toFixed(1)} ${y_of(elevation).toFixed(1)})`);
    const dim = cloud_share ?? dimness(place ?? [-10, 0], row, sun_w_m2);
    this.halo.style.opacity = (0.5 * (1 - dim)).toFixed(2);
    this.disc.style.opacity = (1 - 0.55 * dim).toFixed(2);
    this.clouds.style.opacity = dim < 0.12 ? "0" : (0.35 + 0.6 * dim).toFixed(2);
    if (place) set_attribute(this.clouds, "transform", `translate(${Math.min(730, Math.max(110, x_of(place[1]) + 8)).toFixed(0)} ${Math.max(34, y_of(Math.max(elevation, 12)) + 12).toFixed(0)})`);
  }
}

/// A guess for the picture, where the bench does not say: sun on the glass against a clear sky's by the
/// air mass (Meinel and Meinel 1976). Low suns stand behind hills and are left alone.
function dimness([elevation, azimuth], row, sun_w_m2) {
  if (!row || !(elevation > 18) || !Number.isFinite(sun_w_m2)) return 0;
  const [h, z, s, a] = [elevation, azimuth, row.slope_deg, row.azimuth_deg].map((d) => (d * Math.PI) / 180);
  const incidence = Math.sin(h) * Math.cos(s) + Math.cos(h) * Math.sin(s) * Math.cos(z - a);
  const beam = 1353 * 0.7 ** ((1 / Math.sin(h)) ** 0.678);
  const clear = beam * Math.max(0, incidence) + 90;
  return clear < 250 ? 0 : Math.min(1, Math.max(0, (0.62 - sun_w_m2 / clear) / 0.5));
}

function stars() {
  const out = [];
  for (let i = 0; i < 46; ++i) {
    out.push(svg("circle", { cx: (i * 331) % 837, cy: 8 + ((i * 197) % 211), r: i % 5 === 0 ? 1.7 : 1 }));
  }
  return out;
}

function tree(x, y) {
  return [
    svg("path", { class: "trunk", d: `M${x} ${y}v-74` }),
    svg("path", { class: "leaves", d: `M${x} ${y - 168}c30 10 40 40 30 70s-46 34-60 0 0-60 30-70z` }),
  ];
}
