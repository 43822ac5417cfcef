// SPDX-License-Identifier: MIT
// The layered store with its coils, the boiler or immersion heater, the mixing valve and the tap.

import { svg, set_attribute } from "./dom.js";
import { heat_colour } from "./colour.js";

export const store = { x: 420, y: 400, width: 104, height: 186 };

/// y in the drawing of a height of the store, 0 at its bottom, 1 at its top.
export const store_y = (share) => store.y + store.height * (1 - share);

function coil(from, to, side) {
  const [low, high] = [store_y(from) - 6, store_y(to) + 6];
  const turns = Math.max(3, Math.round((low - high) / 13));
  const [left, right] = [store.x + 20, store.x + store.width - 20];
  const edge = side === "left" ? store.x : store.x + store.width;
  let d = `M${edge} ${high}H${side === "left" ? right : left}`;
  for (let i = 1; i <= turns; ++i) {
    const y = high + ((low - high) * i) / turns;
    const to_left = (i % 2 === 1) === (side === "left");
    d += `L${to_left ? left : right} ${y.toFixed(1)}`;
  }
  return `${d}H${edge}`;
}

function immersion(height) {
  const y = store_y(height);
  return `M${store.x + store.width + 10} ${y - 5}H${store.x + 34}q-8 5 0 10H${store.x + store.width + 10}`;
}

export class Store {
  constructor(house, open) {
    const count = Math.max(1, house.layers ?? 1);
    const height = store.height / count;
    this.layers = Array.from({ length: count }, (_, i) => svg("rect", {
      x: store.x, y: store.y + store.height - (i + 1) * height, width: store.width, height: height + 0.6,
      class: "layer", on: { click: () => open(`store_layer_${String(i + 1).padStart(2, "0")}_c`) },
    }));
    const [from, to] = house.coil ?? [0.05, 0.4];
    const [warm_from, warm_to] = house.backup ?? [0.6, 0.9];
    const clip = svg("clipPath", { id: "store-shape" }, svg("rect", { ...store, rx: 26 }));
    const hidden = { "aria-hidden": "true" };
    this.body = this.layered(count, open);
    this.node = svg("g", {}, svg("defs", {}, clip),
      svg("rect", { class: "jacket", x: store.x - 10, y: store.y - 10, width: store.width + 20, height: store.height + 18, rx: 32, ...hidden }), this.body, svg("g", { class: "store-inside", ...hidden },
      svg("rect", { class: "store-edge", ...store, rx: 26 }),
      svg("path", { class: "coil-edge", d: coil(from, to, "left") }), svg("path", { class: "coil", d: coil(from, to, "left") }),
      ...this.backup(house, warm_from, warm_to), ...this.taps()));
    this.inlet_y = store_y(to) + 6;
    this.outlet_y = store_y(from) - 6;
  }

  /// All layers are one thing to walk to; it opens the card of the lowest, from which one climbs. A touch
  /// opens the layer that is touched.
  layered(count, open) {
    if (count < 2) return svg("g", { "clip-path": "url(#store-shape)", "aria-hidden": "true" }, ...this.layers);
    return svg("g", { class: "layers", role: "button", tabindex: "0", "aria-haspopup": "dialog", "aria-label": `Store, layer by layer: ${count} layers`,
      on: {
        keydown: (event) => {
          if (event.key !== "Enter" && event.key !== " ") return;
          event.preventDefault();
          open("store_layer_01_c");
        },
      } }, svg("g", { "clip-path": "url(#store-shape)" }, ...this.layers));
  }

  backup(house, from, to) {
    if (house.backup_kind === "none") return [];
    if (house.backup_kind === "immersion") {
      this.heater = svg("path", { class: "immersion", d: immersion((from + to) / 2) });
      return [this.heater];
    }
    const [low, high] = [store_y(from) - 6, store_y(to) + 6];
    this.heater = svg("path", { class: "flame", d: "M686 449c-14-10-6-22-1-30 2 8 14 14 9 26-2 4-5 5-8 4z" });
    return [svg("path", { class: "thin-pipe", d: `M524 ${high}H546V404H672V410M524 ${low}H534V395H700V410` }),
      svg("path", { class: "coil-edge", d: coil(from, to, "right") }), svg("path", { class: "coil", d: coil(from, to, "right") }),
      svg("rect", { class: "boiler", x: 656, y: 408, width: 60, height: 56, rx: 6 }), this.heater];
  }

  taps() {
    this.stream = svg("path", { class: "stream", d: "M676 530V566" });
    return [svg("path", { class: "thin-pipe", d: "M472 400V385H728V518H700M472 586V593H724V524" }),
      svg("path", { class: "valve", d: "M717 510 733 526V510L717 526Z" }),
      svg("path", { class: "tap", d: "M710 518H688q-12 0-12 12M694 518v-9m-8 0h16" }),
      svg("path", { class: "basin", d: "M650 566H704q-2 20-27 20t-27-20z" }), this.stream];
  }

  update(now) {
    this.layers.forEach((layer, i) =>
      set_attribute(layer, "fill", heat_colour(now(`store_layer_${String(i + 1).padStart(2, "0")}_c`))));
    this.stream.style.display = now("tap_flow_lpm") > 0.05 ? "" : "none";
    this.heater?.classList.toggle("heating", now("backup_w") > 1);
  }
}
