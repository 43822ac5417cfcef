'use strict';
(() => {
  const byId = (id) => document.getElementById(id);
  document.documentElement.classList.add('js');

  // Decimal comma or point as the browser's language has it; without a script the point stays.
  const mark = new Intl.NumberFormat(undefined, { minimumFractionDigits: 1 })
    .formatToParts(1.5).find((part) => part.type === 'decimal').value;
  // A figure and its unit stay on one line.
  const local = (text) => (mark === '.' ? text : text.replace(/(\d)\.(?=\d)/g, `$1${mark}`))
    .replace(/(\d) (?=(?:°C|K|kWh|W|h|l|%)(?![\w/]))/g, '$1\u00a0');
  for (const element of document.querySelectorAll('.loc')) {
    const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const node = walker.currentNode;
      if (!node.parentElement.closest('code')) node.data = local(node.data);
    }
  }

  const data = JSON.parse(byId('run-data').textContent);
  if (!data) return;
  const { moments, epochs, words } = data;
  const frame = byId('chart-frame');
  const slider = byId('moment');
  const whole = { from: data.span[0], until: data.span[1] };
  let view = { ...whole };
  let chosen = Number(slider.value);
  let selection = null;  // two times while dragging
  let layout = null;

  const fixed = (value, decimals) => local(value.toFixed(decimals)).replace(/^-/, '\u2212');
  const civil = (t) => new Date(Date.UTC(2000, 0, 1) + (data.start + t) * 1000).toISOString();
  const dayText = (t) => {
    const date = new Date(civil(t));
    return `${date.getUTCDate()} ${'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ')[date.getUTCMonth()]}`;
  };
  const tickText = (t) => (civil(t).slice(11, 19) === '00:00:00' ? dayText(t) : civil(t).slice(11, 16));

  // ---------------------------------------------------------------- the moment

  const point = (degrees, radius) => {
    const a = degrees * Math.PI / 180;
    return `${(220 + radius * Math.sin(a)).toFixed(1)} ${(206 - radius * Math.cos(a)).toFixed(1)}`;
  };
  const band = (from, to) =>
    `M${point(from, 168)} A168 168 0 0 1 ${point(to, 168)} L${point(to, 134)} A134 134 0 0 0 ${point(from, 134)}Z`;

  function angle(epoch, gap) {
    const half = Math.max(16, 2.5 * (epoch.start - epoch.stop));
    return Math.max(-84, Math.min(84, (gap - 0.5 * (epoch.stop + epoch.start)) / half * 72));
  }

  function moveMark(id, degrees, k, toTheLeft) {
    const group = byId(id);
    group.querySelector('path').setAttribute('d', `M${point(degrees, 130)} L${point(degrees, 176)}`);
    const text = group.querySelector('text');
    text.setAttribute('x', Number(point(degrees, 176).split(' ')[0]) + (toTheLeft ? -4 : 4));
    text.lastChild.data = ` ${local(String(k))} K`;
  }

  let drawnEpoch = null;
  function showDial(epoch, gap) {
    if (drawnEpoch && drawnEpoch !== epoch) {
      const stop = angle(epoch, epoch.stop);
      const start = angle(epoch, epoch.start);
      byId('needle-rest').setAttribute('d', band(-84, stop));
      byId('needle-keep').setAttribute('d', band(stop, start));
      byId('needle-run').setAttribute('d', band(start, 84));
      moveMark('needle-stop', stop, epoch.stop, true);
      moveMark('needle-start', start, epoch.start, false);
    }
    drawnEpoch = epoch;
    const hand = byId('needle-hand');
    hand.setAttribute('visibility', gap === null ? 'hidden' : 'visible');
    if (gap !== null) hand.setAttribute('transform', `rotate(${angle(epoch, gap).toFixed(1)} 220 206)`);
    byId('needle-gap').textContent = gap === null ? 'no reading' : `${fixed(gap, 1)} K`;
  }

  function sentence(template, reading, gap) {
    if (gap === null && template.includes('{gap}')) return data.without_reading;
    const celsius = (name) => (reading(name) === null ? 'lost' : `${fixed(reading(name) / 100, 1)}\u00a0°C`);
    return local(template)
      .replaceAll('{collector}', celsius('collector_reading_c'))
      .replaceAll('{bottom}', celsius('store_bottom_reading_c'))
      .replaceAll('{top}', celsius('store_top_reading_c'))
      .replaceAll('{gap}', `${fixed(Math.abs(gap), 1)}\u00a0K ${gap < 0 ? 'below' : 'above'}`);
  }

  function choose(index) {
    chosen = Math.max(0, Math.min(moments.time.length - 1, index));
    const t = moments.time[chosen];
    const reading = (name) => moments[name][chosen];
    const collector = reading('collector_reading_c');
    const bottom = reading('store_bottom_reading_c');
    const gap = collector === null || bottom === null ? null : (collector - bottom) / 100;
    const epoch = epochs.filter((e) => e.from <= t).pop() || epochs[0];
    showDial(epoch, gap);
    byId('moment-time').textContent = civil(t).slice(0, 19).replace('T', ' ');
    const speed = reading('pump_speed_pct');
    byId('moment-speed').textContent = speed > 0 ? `· pump speed ${speed} %` : '· pump off';
    byId('reason-line').textContent = sentence(epoch.pump[reading('pump_reason') ?? 0], reading, gap);
    byId('backup-line').textContent = sentence(epoch.backup[reading('backup_reason') ?? 0], reading, gap);
    slider.value = chosen;
    slider.setAttribute('aria-valuetext',
      `${civil(t).slice(11, 16)}, ${words.pump[reading('pump_reason')] ?? 'no mains'}`);
    drawCursor();
  }

  function nearest(t) {
    let low = 0;
    let high = moments.time.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (moments.time[middle] < t) low = middle + 1; else high = middle;
    }
    return low > 0 && t - moments.time[low - 1] < moments.time[low] - t ? low - 1 : low;
  }

  // ---------------------------------------------------------------- the chart

  function roundStep(span, wanted) {
    const rough = span / wanted;
    const power = 10 ** Math.floor(Math.log10(rough));
    return [1, 2, 5, 10].find((factor) => rough <= factor * power) * power;
  }

  function timeTicks(most) {
    const steps = [10, 30, 60, 300, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800, 604800];
    const step = steps.find((s) => (view.until - view.from) / s <= most) || 604800;
    const ticks = [];
    const first = Math.ceil((data.start + view.from) / step) * step - data.start;
    for (let t = first; t <= view.until; t += step) ticks.push(t);
    return ticks;
  }

  /** Points of a line within the view and one more on either side. */
  function pointsInView(series) {
    const from = Math.max(0, Math.floor((view.from - series.t0) / series.dt) - 1);
    const until = Math.min(series.values.length - 1, Math.ceil((view.until - series.t0) / series.dt) + 1);
    const points = [];
    for (let i = from; i <= until; ++i) {
      const v = series.values[i];
      points.push([series.t0 + i * series.dt, v === null ? null : v / series.scale]);
    }
    return points;
  }

  function linePath(points, x, y) {
    let pen = 'M';
    let path = '';
    for (const [t, v] of points) {
      if (v === null) { pen = 'M'; continue; }
      path += `${pen}${x(t).toFixed(1)} ${y(v).toFixed(1)}`;
      pen = 'L';
    }
    return path;
  }

  function boxes(stretches, each) {
    let out = '';
    for (let i = 0; i < stretches.length; ++i) {
      const from = Math.max(stretches[i][0], view.from);
      const until = Math.min(i + 1 < stretches.length ? stretches[i + 1][0] : whole.until, view.until);
      if (until > from || (from === until && from === view.until)) out += each(from, until, stretches[i][1]);
    }
    return out;
  }

  function strip(kind, top) {
    const { x, left, right } = layout;
    let labels = '';
    const rects = boxes(data[`${kind}_reasons`], (from, until, value) => {
      if (value < 0) return '';
      const width = x(until) - x(from);
      const text = words[kind][value];
      if (width > 8 * text.length + 12) {
        labels += `<text class="strip-word" text-anchor="middle" x="${(x(from) + width / 2).toFixed(1)}" y="${top + 18}">${text}</text>`;
      }
      return `<rect fill="url(#${kind}-${value})" x="${x(from).toFixed(1)}" y="${top}" width="${Math.max(0.5, width).toFixed(1)}" height="26"/>`;
    });
    return `${rects}${labels}<rect class="frame" x="${left}" y="${top}" width="${right - left}" height="26"/>`
      + `<text class="tick" text-anchor="end" x="${left - 6}" y="${top + 17}">${kind}</text>`;
  }

  function gridLines(y, least, most, step) {
    let out = '';
    for (let v = least; v <= most + step / 2; v += step) {
      out += `<path class="grid" d="M${layout.left} ${y(v).toFixed(1)}H${layout.right}"/><text class="tick" text-anchor="end" x="${layout.left - 6}" y="${(y(v) + 4).toFixed(1)}">${fixed(v, step < 1 ? 1 : 0)}</text>`;
    }
    return out;
  }

  function temperatures() {
    const { x, left, right } = layout;
    const lines = data.series.map((series) => ({ series, points: pointsInView(series) }));
    const values = lines.flatMap(({ points }) => points.map(([, v]) => v)).filter((v) => v !== null);
    const least = values.reduce((a, b) => Math.min(a, b), Infinity);
    const most = values.reduce((a, b) => Math.max(a, b), -Infinity);
    if (!(least <= most)) return '';
    const step = roundStep(Math.max(1, most - least), 6);
    const low = Math.floor(least / step) * step;
    const high = Math.max(low + step, Math.ceil(most / step) * step);
    const y = (v) => 300 - (v - low) / (high - low) * 276;
    let out = gridLines(y, low, high, step) + `<text class="tick" x="${left}" y="14">°C</text>`;
    for (const { series, points } of lines) {
      out += `<path class="line ${series.style}" clip-path="url(#chart-clip)" d="${linePath(points, x, y)}"/>`;
    }
    if (!layout.labels) return out;
    let lowest = 304;
    const ends = lines.map(({ series, points }) => ({ series, last: points.filter(([, v]) => v !== null).pop() }))
      .filter(({ last }) => last).sort((a, b) => a.last[1] - b.last[1]);
    for (const { series, last } of ends) {
      const at = Math.min(y(last[1]), lowest);
      lowest = at - 18;
      out += `<text class="end-label ${series.style}" x="${right + 8}" y="${(at + 4).toFixed(1)}">${series.label}</text>`;
    }
    return out;
  }

  function sunArea() {
    if (!data.sun) return '';
    const { x, left, right } = layout;
    const points = pointsInView(data.sun).map(([t, v]) => [t, v || 0]);
    if (points.length === 0) return '';
    const most = Math.max(1000, data.sun.values.reduce((a, b) => Math.max(a, b || 0), 0) / data.sun.scale);
    const y = (v) => 392 - v / most * 70;
    const path = `${linePath(points, x, y)}V392H${x(points[0][0]).toFixed(1)}Z`;
    const label = layout.labels ? `<text class="end-label sun" x="${right + 8}" y="392">sun, W/m²</text>`
      : `<text class="tick" x="${left + 4}" y="334">sun, W/m²</text>`;
    return `${gridLines(y, 0, most, 500)}<path class="area sun" clip-path="url(#chart-clip)" d="${path}"/>${label}`;
  }

  function draw(forced) {
    const width = forced || Math.max(300, frame.clientWidth);
    const labels = width >= 640;
    const left = 56;
    const right = width - (labels ? 150 : 10);
    const x = (t) => left + (t - view.from) / (view.until - view.from) * (right - left);
    layout = { width, labels, left, right, x };
    const band = boxes(data.pump_on, (from, until, on) => (on === 1
      ? `<rect class="pump-on" x="${x(from).toFixed(1)}" y="24" width="${Math.max(0.5, x(until) - x(from)).toFixed(1)}" height="276"/>` : ''));
    const axis = timeTicks((right - left) / 80).map((t) =>
      `<path class="grid" d="M${x(t).toFixed(1)} 24V478"/><text class="tick" text-anchor="middle" x="${x(t).toFixed(1)}" y="498">${tickText(t)}</text>`).join('');
    const svg = byId('chart');
    svg.setAttribute('viewBox', `0 0 ${width} 512`);
    svg.innerHTML = `<defs><clipPath id="chart-clip"><rect x="${left}" y="20" width="${right - left}" height="380"/></clipPath></defs>`
      + band + axis + temperatures() + sunArea() + strip('pump', 416) + strip('backup', 452)
      + '<path id="chart-cursor" class="cursor"/><rect id="chart-selection" class="selection" y="24" height="454" width="0"/>';
    drawCursor();
  }

  function drawCursor() {
    const cursor = byId('chart-cursor');
    if (!cursor) return;
    const t = moments.time[chosen];
    const seen = t >= view.from && t <= view.until;
    cursor.setAttribute('d', seen ? `M${layout.x(t).toFixed(1)} 20V482` : '');
    const box = byId('chart-selection');
    const [a, b] = selection ? selection.map(layout.x).sort((p, q) => p - q) : [0, 0];
    box.setAttribute('x', a);
    box.setAttribute('width', b - a);
  }

  // ---------------------------------------------------------------- hands

  function look(from, until) {
    const least = Math.min(120, whole.until - whole.from);
    const span = Math.min(whole.until - whole.from, Math.max(least, until - from));
    const start = Math.min(Math.max(whole.from, (from + until - span) / 2), whole.until - span);
    view = { from: start, until: start + span };
    draw();
  }

  function zoom(kind, about) {
    const span = view.until - view.from;
    const middle = about === undefined ? (view.from + view.until) / 2 : about;
    const share = (middle - view.from) / span;
    const scaled = (factor) => look(middle - share * span * factor, middle + (1 - share) * span * factor);
    if (kind === 'in') scaled(0.5);
    if (kind === 'out') scaled(2);
    if (kind === 'earlier') look(view.from - span / 3, view.until - span / 3);
    if (kind === 'later') look(view.from + span / 3, view.until + span / 3);
    if (kind === 'all') look(whole.from, whole.until);
  }

  function timeAt(event) {
    const box = byId('chart').getBoundingClientRect();
    const px = (event.clientX - box.left) / box.width * layout.width;
    const t = view.from + (px - layout.left) / (layout.right - layout.left) * (view.until - view.from);
    return Math.min(Math.max(t, view.from), view.until);
  }

  slider.addEventListener('input', () => choose(Number(slider.value)));
  for (const button of document.querySelectorAll('[data-zoom]')) {
    button.addEventListener('click', () => zoom(button.dataset.zoom));
  }
  frame.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'mouse') selection = [timeAt(event), timeAt(event)];
    choose(nearest(timeAt(event)));
    frame.setPointerCapture(event.pointerId);
  });
  frame.addEventListener('pointermove', (event) => {
    if (selection) selection[1] = timeAt(event);
    choose(nearest(timeAt(event)));
  });
  const release = () => {
    const dragged = selection;
    selection = null;
    if (!dragged) return;
    const [from, until] = dragged.sort((a, b) => a - b);
    if (layout.x(until) - layout.x(from) > 12) look(from, until); else drawCursor();
  };
  frame.addEventListener('pointerup', release);
  frame.addEventListener('pointercancel', () => { selection = null; drawCursor(); });
  frame.addEventListener('wheel', (event) => {
    if (document.activeElement !== frame && !event.ctrlKey) return;  // the page scrolls else
    event.preventDefault();
    zoom(event.deltaY < 0 ? 'in' : 'out', timeAt(event));
  }, { passive: false });
  frame.addEventListener('keydown', (event) => {
    const keys = {
      '+': () => zoom('in', moments.time[chosen]), '=': () => zoom('in', moments.time[chosen]),
      '-': () => zoom('out', moments.time[chosen]), 0: () => zoom('all'),
      Home: () => choose(0), End: () => choose(moments.time.length - 1),
      ArrowLeft: () => (event.shiftKey ? zoom('earlier') : choose(chosen - 1)),
      ArrowRight: () => (event.shiftKey ? zoom('later') : choose(chosen + 1)),
    };
    if (!keys[event.key] || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    keys[event.key]();
  });
  new ResizeObserver(() => draw()).observe(frame);
  window.addEventListener('beforeprint', () => { view = { ...whole }; draw(960); });
  window.addEventListener('afterprint', () => draw());
  draw();
  choose(chosen);
})();
