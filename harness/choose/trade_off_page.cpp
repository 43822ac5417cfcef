// SPDX-License-Identifier: MIT
#include "trade_off_page.hpp"

namespace noonbench::harness {

const std::string_view trade_off_page = R"page(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Choices tried for {{site}}</title>
<style>
{{style}}</style>
</head>
<body>
<a class="skip" href="#table">Skip to the table</a>
<header>
<p class="maker">Noonbench choices tried</p>
<h1>{{site}}</h1>
{{site_line}}
</header>
<main>
<div class="sentences">{{finding}}</div>
<section id="scatter"><h2 id="plot-heading">One figure against another</h2>
<div class="script-only"><div class="controls">{{axis_controls}}{{filters}}<p class="shown" id="shown" role="status"></p></div></div>
<div class="plot-and-told">
<figure><div class="wide" id="frame">{{picture}}</div>{{legend}}
<p class="hint script-only" id="keys">Point at a mark, touch it, or step through with the keys: left and right by the figure below, up and down by the one at the side, Home for the chosen one, End for the one as delivered.</p></figure>
<div id="told" class="told script-only"><h3 id="told-heading">No mark is pointed at</h3><dl id="told-list"></dl></div>
</div>{{none_tried}}</section>
<section id="table"><h2 id="table-heading">All of them as a table</h2><div class="wide" tabindex="0" role="region" aria-labelledby="table-heading">{{table}}</div></section>
<section id="searched"><h2 id="searched-heading">What was searched</h2><div class="wide" tabindex="0" role="region" aria-labelledby="searched-heading">{{searched}}</div></section>
<section id="theory"><h2 id="theory-heading">Theory beside it</h2><div class="wide" tabindex="0" role="region" aria-labelledby="theory-heading">{{theory}}</div></section>
<section id="cautions"><h2>Before anybody sets anything</h2>{{cautions}}</section>
</main>
<footer><p>{{found}}</p><p>Again: <code>{{repeat}}</code></p></footer>
<script type="application/json" id="choices-data">{{data}}</script>
<script>
{{script}}</script>
</body>
</html>
)page";

const std::string_view trade_off_css = R"css(
code { font-size: 0.95em; overflow-wrap: anywhere; }
.sentences { padding: 0; max-width: none; } .sentences p { margin: 0.3em 0; } .sentences p:first-child { font-weight: 600; font-size: 1.1em; }
.controls { display: flex; flex-wrap: wrap; gap: 0.6rem 1.2rem; align-items: end; margin: 0 0 0.8rem; }
.controls p { margin: 0; max-width: 100%; }
.controls label { display: block; font-size: 0.9rem; color: var(--soft); }
.controls select { font: inherit; color: var(--ink); background: var(--card); border: 2px solid var(--ochre); border-radius: 4px; padding: 0.3rem 0.5rem; min-height: 2.75rem; display: block; max-width: 100%; }
.controls .axis-choice select { font-weight: 600; }
.controls .tick-box { display: flex; gap: 0.5rem; align-items: center; min-height: 2.75rem; color: var(--ink); font-size: 1rem; }
.tick-box input { width: 1.4rem; height: 1.4rem; accent-color: var(--ochre); }
.shown { margin: 0; font-weight: 600; min-height: 2.75rem; display: flex; align-items: center; }
.plot-and-told { display: grid; grid-template-columns: minmax(0, 1fr) 21rem; gap: 1.4rem; align-items: start; }
#plot { display: block; width: 100%; min-width: 34rem; height: auto; background: var(--card); touch-action: pan-y; }
.js #plot { min-width: 0; }
.point { outline: none; cursor: pointer; }
.mark-tried { fill: var(--card); stroke: var(--soft); stroke-width: 1.6; }
.mark-breaks { fill: none; stroke: var(--soft); stroke-width: 1.8; }
.mark-in-set { fill: var(--teal); stroke: var(--card); stroke-width: 1; }
.mark-winner { fill: var(--sun); stroke: var(--ink); stroke-width: 2; stroke-linejoin: round; }
.mark-delivered { fill: none; stroke: var(--plum); stroke-width: 2.6; stroke-linejoin: round; }
#ring { fill: none; stroke: var(--ochre); stroke-width: 3; } .point[hidden] { display: none; }
#plot .end-label { font-size: 14px; }
.told { background: var(--card); border: 2px solid var(--line); border-radius: 6px; padding: 0.7rem 1rem; position: sticky; top: 0.5rem; }
.js .told { display: block; } .told dl { margin: 0; font-size: 0.95rem; display: grid; grid-template-columns: auto auto; gap: 0.1rem 0.8rem; } .told dt { color: var(--soft); } .told dd { margin: 0; text-align: right; font-weight: 600; font-variant-numeric: tabular-nums; }
.told .rule { grid-column: 1 / -1; border-top: 1px solid var(--line); margin: 0.3rem 0; }
.choices-table { white-space: nowrap; } .choices-table td, .choices-table thead th { text-align: right; padding: 0.25rem 0.6rem 0.25rem 0; } .choices-table .word { text-align: left; }
.choices-table caption { white-space: normal; } .choices-table thead th { white-space: normal; vertical-align: bottom; } .choices-table tbody tr.pointed-at { background: var(--warn); outline: 2px solid var(--ochre); }
.choices-table .notable th { font-weight: 700; } .choices-table tr[hidden] { display: none; }
.theory-table td { min-width: 9rem; } .theory-table .source { color: var(--soft); font-size: 0.9em; }
@media screen and (max-width: 62rem) { .plot-and-told { grid-template-columns: minmax(0, 1fr); } .told { position: static; } }
@media print {
  :root { color-scheme: light; }
  .plot-and-told { display: block; } #plot { width: 150mm; min-width: 0; } #ring { display: none; } .js .told, .told { display: none; }
  .choices-table { font-size: 6.8pt; } .choices-table td, .choices-table thead th { padding: 0.1mm 1.6mm 0.1mm 0; } #table { break-inside: auto; } .choices-table thead { display: table-header-group; }
  .sentences p:first-child { font-size: 9.5pt; } .wide { overflow: visible; } .choices-table tr { break-inside: avoid; }
}
)css";

}  // namespace noonbench::harness
