// SPDX-License-Identifier: MIT
// Making elements. Text goes in as text nodes only, so that nothing a server says can become markup.

const svg_namespace = "http://www.w3.org/2000/svg";

function fill(node, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name === "on") {
      for (const [event, handler] of Object.entries(value)) node.addEventListener(event, handler);
    } else if (name === "text") {
      node.textContent = value;
    } else {
      node.setAttribute(name, value === true ? "" : String(value));
    }
  }
  for (const child of children.flat()) {
    if (child !== null && child !== undefined) node.append(child);
  }
  return node;
}

/// An HTML element: el("p", {class: "x", text: "y", on: {click: f}}, child...).
export function el(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children);
}

/// The same for SVG.
export function svg(tag, props = {}, ...children) {
  return fill(document.createElementNS(svg_namespace, tag), props, children);
}

export const by_id = (id) => document.getElementById(id);

/// Sets text only where it differs: an unchanged node costs no layout.
export function set_text(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/// Sets an attribute only where it differs.
export function set_attribute(node, name, value) {
  const text = String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

let last_id = 0;
/// A fresh id for labels and descriptions.
export const fresh_id = (stem) => `${stem}-${++last_id}`;

/// A button that does one thing.
export function button(text, click, props = {}) {
  return el("button", { type: "button", text, on: { click }, ...props });
}
