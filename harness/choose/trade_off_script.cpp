// SPDX-License-Identifier: MIT
#include "trade_off_page.hpp"

namespace noonbench::harness {

const std::string_view trade_off_js = R"js((() => {
  'use strict';
  document.documentElement.classList.add('js');
  const byId = (id) => document.getElementById(id);
  const data = JSON.parse(byId('choices-data').textContent);
  const plot = byId('plot');
  if (!plot || data.choices.length === 0) return;
  const space = plot.namespaceURI;
  const xSelect = byId('x-figure');
  const ySelect = byId('y-figure');
  const showSelect = byId('show');
  const sureBox = byId('sure');
  const filters = data.settings.map((_, s) => byId('filter-' + s));
  const points = [];
  for (const element of document.querySelectorAll('.point')) points[Number(element.dataset.choice)] = element;
  const rows = [];
  for (const row of document.querySelectorAll('tr[data-choice]')) rows[Number(row.dataset.choice)] = row;
  const room = { left: 76, right: 18, top: 16, bottom: 58 };
  let at = [];
  let chosen = -1;

  const number = (value, decimals) => {
    const text = Math.abs(value).toFixed(decimals);
    return value < 0 && Number(text) !== 0 ? '\u2212' + text : text;
  };
  const axisName = (figure, room) => `${figure.name}, ${figure.unit}` + (room > 400 ? ` (${figure.more ? 'more' : 'less'} is better)` : '');
  const visible = (choice) => {
    if (sureBox.checked && choice.worlds < data.worlds) return false;
    if (showSelect.value === 'holds' && !choice.holds) return false;
    if (showSelect.value === 'set' && !choice.set) return false;
    return filters.every((filter, s) => filter.value === '' || Number(filter.value) === choice.values[s]);
  };
  const shownOnes = () => data.choices.map((_, i) => i).filter((i) => !points[i].hasAttribute('hidden'));

  function roundStep(span, wanted) {
    const rough = span / wanted;
    const power = 10 ** Math.floor(Math.log10(rough));
    for (const factor of [1, 2, 5]) if (rough <= factor * power) return factor * power;
    return 10 * power;
  }

  function scaleOf(values, from, until) {
    let least = Math.min(...values);
    let most = Math.max(...values);
    if (values.length === 0) { least = 0; most = 1; }
    const margin = most > least ? 0.05 * (most - least) : 1;
    least -= margin; most += margin;
    const place = (value) => from + (value - least) / (most - least) * (until - from);
    const ticks = (wanted) => {
      const step = roundStep(most - least, wanted);
      const out = [];
      for (let k = Math.ceil(least / step - 1e-9); k * step <= most + 1e-9 * step; ++k) out.push(k * step);
      return { values: out, decimals: step < 0.1 ? 2 : (step < 1 ? 1 : 0) };
    };
    return { place, ticks };
  }

  function add(parent, kind, attributes, text) {
    const element = document.createElementNS(space, kind);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    if (text !== undefined) element.textContent = text;
    parent.append(element);
  }

  function drawAxes(x, y, width, height) {
    const axes = byId('axes');
    axes.replaceChildren();
    const xTicks = x.ticks(Math.max(3, Math.round(width / 110)));
    for (const value of xTicks.values) {
      add(axes, 'path', { class: 'grid', d: `M${x.place(value)} ${room.top}V${height - room.bottom}` });
      add(axes, 'text', { class: 'tick', x: x.place(value), y: height - room.bottom + 18, 'text-anchor': 'middle' }, number(value, xTicks.decimals));
    }
    const yTicks = y.ticks(Math.max(4, Math.round(height / 80)));
    for (const value of yTicks.values) {
      add(axes, 'path', { class: 'grid', d: `M${room.left} ${y.place(value)}H${width - room.right}` });
      add(axes, 'text', { class: 'tick', x: room.left - 8, y: y.place(value) + 4.5, 'text-anchor': 'end' }, number(value, yTicks.decimals));
    }
    add(axes, 'text', { class: 'end-label', x: (room.left + width - room.right) / 2, y: height - 12, 'text-anchor': 'middle' }, axisName(data.figures[xSelect.value], width));
    const middle = (room.top + height - room.bottom) / 2;
    add(axes, 'text', { class: 'end-label', x: 16, y: middle, 'text-anchor': 'middle', transform: `rotate(-90 16 ${middle})` }, axisName(data.figures[ySelect.value], height));
    add(axes, 'rect', { class: 'frame', x: room.left, y: room.top, width: width - room.left - room.right, height: height - room.top - room.bottom });
  }

  const told = (i) => data.settings.map((setting, s) => `${setting.name} ${setting.values[data.choices[i].values[s]]}`).join(', ');

  function draw(forced) {
    const width = forced || Math.max(280, byId('frame').clientWidth);
    const height = Math.min(560, Math.max(340, 0.63 * width));
    plot.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const xFigure = Number(xSelect.value);
    const yFigure = Number(ySelect.value);
    data.choices.forEach((choice, i) => {
      const shown = visible(choice);
      points[i].toggleAttribute('hidden', !shown);
      rows[i].toggleAttribute('hidden', !shown);
    });
    const shown = shownOnes();
    const x = scaleOf(shown.map((i) => data.choices[i].figures[xFigure]), room.left, width - room.right);
    const y = scaleOf(shown.map((i) => data.choices[i].figures[yFigure]), height - room.bottom, room.top);
    drawAxes(x, y, width, height);
    at = [];
    for (const i of shown) {
      const choice = data.choices[i];
      at[i] = [x.place(choice.figures[xFigure]), y.place(choice.figures[yFigure])];
      points[i].setAttribute('transform', `translate(${at[i][0].toFixed(1)} ${at[i][1].toFixed(1)})`);
      const figure = (f) => `${data.figures[f].name} ${number(choice.figures[f], data.figures[f].decimals)} ${data.figures[f].unit}`;
      points[i].setAttribute('aria-label', `${choice.standing}: ${told(i)}; ${figure(xFigure)}; ${figure(yFigure)}`);
    }
    byId('shown').textContent = `${shown.length} of ${data.choices.length} shown`;
    if (!at[chosen]) chosen = -1;
    const first = chosen >= 0 ? chosen : (at[data.winner] ? data.winner : shown[0]);
    for (const i of shown) points[i].setAttribute('tabindex', i === first ? '0' : '-1');
    tell();
  }

  function tell() {
    const ring = byId('ring');
    const list = byId('told-list');
    list.replaceChildren();
    for (const row of rows) row.classList.remove('pointed-at');
    ring.setAttribute('cx', chosen >= 0 ? at[chosen][0] : -50);
    ring.setAttribute('cy', chosen >= 0 ? at[chosen][1] : -50);
    byId('told-heading').textContent = chosen >= 0 ? data.choices[chosen].standing : 'No mark is pointed at';
    if (chosen < 0) return;
    const choice = data.choices[chosen];
    rows[chosen].classList.add('pointed-at');
    const pair = (name, value) => {
      const term = document.createElement('dt');
      const what = document.createElement('dd');
      term.textContent = name;
      what.textContent = value;
      list.append(term, what);
    };
    data.settings.forEach((setting, s) => pair(setting.name, setting.values[choice.values[s]]));
    const rule = document.createElement('div');
    rule.className = 'rule';
    list.append(rule);
    data.figures.forEach((figure, f) => pair(figure.name, `${number(choice.figures[f], figure.decimals)} ${figure.unit}`));
    pair('limits', choice.holds ? 'kept' : 'broken');
    pair('judged in', `${choice.worlds} years`);
  }

  function choose(i, focus) {
    if (i === undefined || !at[i]) return;
    for (const j of shownOnes()) points[j].setAttribute('tabindex', j === i ? '0' : '-1');
    chosen = i;
    if (focus) points[i].focus({ preventScroll: true });
    tell();
  }

  function step(axis, by) {
    const order = shownOnes().sort((a, b) => (at[a][axis] - at[b][axis]) || (at[a][1 - axis] - at[b][1 - axis]) || (a - b));
    const place = order.indexOf(chosen);
    choose(order[Math.min(order.length - 1, Math.max(0, place + by))], true);
  }

  function nearest(event) {
    const box = plot.getBoundingClientRect();
    const factor = plot.viewBox.baseVal.width / box.width;
    const px = (event.clientX - box.left) * factor;
    const py = (event.clientY - box.top) * factor;
    let best;
    let least = 28;
    for (const i of shownOnes()) {
      const away = Math.hypot(at[i][0] - px, at[i][1] - py);
      if (away < least) { least = away; best = i; }
    }
    return best;
  }

  plot.addEventListener('pointermove', (event) => choose(nearest(event), false));
  plot.addEventListener('pointerdown', (event) => {
    const found = nearest(event);
    if (found === undefined) return;
    event.preventDefault();
    choose(found, true);
  });
  plot.addEventListener('focusin', (event) => {
    const point = event.target.closest('.point');
    if (point) choose(Number(point.dataset.choice), false);
  });
  plot.addEventListener('keydown', (event) => {
    const keys = {
      ArrowLeft: () => step(0, -1), ArrowRight: () => step(0, 1),
      ArrowUp: () => step(1, -1), ArrowDown: () => step(1, 1),
      Home: () => choose(data.winner, true), End: () => choose(data.delivered, true),
    };
    if (!keys[event.key] || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    keys[event.key]();
  });
  rows.forEach((row, i) => row.addEventListener('pointerenter', () => choose(i, false)));
  for (const control of [xSelect, ySelect, showSelect, sureBox, ...filters]) {
    control.addEventListener('change', () => draw());
  }
  new ResizeObserver(() => draw()).observe(byId('frame'));
  window.addEventListener('beforeprint', () => draw(820));
  window.addEventListener('afterprint', () => draw());
  draw();
  choose(data.winner, false);
})();
)js";

}  // namespace noonbench::harness
