// SPDX-License-Identifier: MIT
#include "settings_sheet_page.hpp"

namespace noonbench::harness {

const std::string_view settings_page = R"page(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Settings for {{site}}</title>
<style>
{{style}}</style>
</head>
<body class="{{size}}">
<header>
<p class="maker">Noonbench settings sheet</p>
<h1>{{site}}</h1>
{{site_line}}
</header>
<main>
<div class="finding">{{finding}}</div>
{{settings}}
<div class="side-by-side">
<section id="figures"><h2>What it comes to, a year</h2>{{figures}}</section>
<section id="theory"><h2>Theory beside it</h2>{{theory}}</section>
</div>
<section id="cautions"><h2>Before you touch anything</h2>{{cautions}}</section>
<section id="signed"><h2>Done on the day</h2>
<div class="blanks">
<p><span>cold pressure, bar</span></p><p><span>flow, l/min</span></p><p><span>collector, °C</span></p><p><span>store bottom, °C</span></p><p><span>tap, °C</span></p>
<p class="long"><span>set by, name</span></p><p><span>date</span></p><p class="long"><span>signature</span></p>
</div></section>
</main>
<footer><p>{{found}}</p>
<p>Again: <code>{{repeat}}</code></p></footer>
</body>
</html>
)page";

const std::string_view settings_css = R"css(
@media screen and (prefers-color-scheme: light) {
  :root { --paper: #ffffff; --ink: #000000; --soft: #3d474f; --line: #8b8b8b; }
}
code { font-size: 0.95em; overflow-wrap: anywhere; }
.finding { border: 3px solid var(--ink); padding: 0.5rem 1rem; margin: 0.8rem 0; max-width: none; }
.finding p { margin: 0.2em 0; } .finding p:first-child { font-weight: 700; font-size: 1.2em; }
.set { border-bottom: 3px solid var(--ink); }
.set thead th { color: var(--ink); border-bottom: 3px solid var(--ink); font-size: 0.95em; }
.set th, .set td { padding: 0.5rem 1rem 0.5rem 0; border-bottom-color: var(--soft); }
.set tbody th { font-weight: 400; width: 29%; } .set .because { width: 27%; } .set .tolerance { width: 15%; }
.set .what { display: grid; grid-template-columns: auto 1fr; gap: 0 0.6rem; align-items: start; }
.box { width: 1.5em; height: 1.5em; border: 2px solid var(--ink); margin-top: 0.2em; }
.told > span { display: block; }
.name { font-weight: 600; } .value { font-size: 1.75em; line-height: 1.15; font-weight: 700; font-variant-numeric: tabular-nums; overflow-wrap: break-word; } .value.words { font-size: 1.3em; line-height: 1.25; }
.was { color: var(--soft); } .was b { color: var(--ink); }
.set .label { display: none; }
section { border-top-color: var(--ink); }
@media screen and (min-width: 52.01rem) { .side-by-side { grid-template-columns: 1.2fr 1fr; } }
.figures td { white-space: nowrap; text-align: right; padding-right: 0; } .figures .margin { color: var(--soft); font-weight: 400; }
.theory-lines { margin: 0; } .theory-lines div { margin: 0 0 0.45em; } .theory-lines dt { font-weight: 700; } .theory-lines dd { margin: 0; }
#cautions ul { margin: 0; padding: 0; list-style: none; } #cautions li { margin: 0 0 0.4em; }
.blanks { display: flex; flex-wrap: wrap; gap: 0.4rem 1.4rem; }
.blanks p { flex: 1 1 8rem; margin: 0; border-bottom: 2px solid var(--ink); min-height: 2.7rem; } .blanks .long { flex-basis: 16rem; }
.blanks span { color: var(--soft); font-size: 0.85em; }
footer p { margin: 0.2em 0; }
@media screen and (max-width: 52rem) {
  .set thead { position: absolute; left: -100vw; }
  .set tr { display: block; border-bottom: 2px solid var(--ink); padding: 0.6rem 0; } .set tr:last-child { border-bottom: 0; }
  .set th, .set td { display: block; width: auto !important; border: 0; padding: 0.15rem 0; }
  .set .label { display: inline; font-weight: 700; }
  .figures td { white-space: normal; }
}
@media print {
  @page { size: A4 portrait; margin: 9mm 12mm; }
  :root { color-scheme: light; --soft: #2b2b2b; --line: #8b8b8b; --ochre: #000000; }
  body { font-size: 8.6pt; line-height: 1.24; }
  .maker { font-size: 8.5pt; } h1 { font-size: 20pt; margin: 0; } .site { font-size: 8.6pt; margin: 0.3mm 0 0; }
  h2 { font-size: 10.5pt; margin: 0 0 0.4mm; }
  .finding { margin: 1.4mm 0 1mm; padding: 0.8mm 2.5mm; border-width: 1.4pt; font-size: 9.6pt; } .finding p { margin: 0.2mm 0; } .finding p:first-child { font-size: 10.6pt; }
  .set { font-size: 10pt; border-bottom-width: 1.4pt; } .set thead th { border-bottom-width: 1.4pt; font-size: 9.4pt; padding: 0.3mm 3mm 0.3mm 0; }
  .set th, .set td { padding: 0.9mm 3mm 0.7mm 0; } .set tr { break-inside: avoid; }
  .value { font-size: 17pt; line-height: 1.08; } .name { font-size: 10.5pt; } .was { font-size: 8.6pt; }
  .box { width: 5mm; height: 5mm; border-width: 1.2pt; margin-top: 0.6mm; } .set .what { gap: 0 2mm; }
  section, .side-by-side section { margin-top: 1.4mm; padding-top: 0.6mm; border-top-width: 1.2pt; }
  .side-by-side { gap: 0 6mm; grid-template-columns: 1.22fr 1fr; }
  .figures, .figures th, .figures td { font-size: 8pt; } .figures th, .figures td, #figures th, #figures td { padding: 0.25mm 0; } #figures { break-before: auto; }
  .theory-lines { font-size: 8pt; line-height: 1.2; } .theory-lines div { margin: 0 0 0.7mm; } .theory-lines dt, .theory-lines dd { display: inline; } .theory-lines dt::after { content: ": "; }
  #cautions { font-size: 8.2pt; line-height: 1.2; } #cautions ul { columns: 2; column-gap: 7mm; } #cautions li { margin: 0 0 0.7mm; }
  .blanks { gap: 0.6mm 5mm; } .blanks p { min-height: 9mm; border-bottom-width: 1pt; flex-basis: 24mm; } .blanks .long { flex-basis: 50mm; } .blanks span { font-size: 7.6pt; }
  footer { font-size: 7.4pt; margin-top: 1.2mm; } footer p { margin: 0; }
  .value.words { font-size: 12.5pt; line-height: 1.2; }
  .usual .set { font-size: 9.4pt; } .usual .value { font-size: 14pt; } .usual .value.words { font-size: 11pt; } .usual .name { font-size: 10pt; }
  .usual .told > .value { display: inline; } .usual .told > .was { display: inline-block; } .usual .value { margin-right: 2mm; }
  .usual .set th, .usual .set td { padding-top: 0.6mm; padding-bottom: 0.5mm; }
  .usual .blanks p { min-height: 7.6mm; } .usual .finding { font-size: 9pt; } .usual #cautions { font-size: 7.8pt; } .usual .theory-lines { font-size: 7.8pt; }
  .dense h1 { font-size: 14pt; } .dense h2 { font-size: 9.4pt; }
  .dense .set { font-size: 8.3pt; line-height: 1.12; } .dense .value { font-size: 11pt; margin: 0 2mm; } .dense .value.words { font-size: 9.4pt; margin: 0; } .dense .name { font-size: 9pt; } .dense .was { font-size: 7.6pt; }
  .dense .told > span:not(.words) { display: inline; } .dense .told > .was { display: inline-block !important; } .dense .box { width: 3.6mm; height: 3.6mm; margin-top: 0.2mm; }
  .dense .set th, .dense .set td { padding-top: 0.4mm; padding-bottom: 0.2mm; }
  .dense .blanks p { min-height: 7mm; } .dense .finding { font-size: 8.4pt; margin: 1mm 0; } .dense .finding p:first-child { font-size: 9.2pt; }
  .dense #cautions, .dense .theory-lines, .dense .figures, .dense .figures th, .dense .figures td { font-size: 7.4pt; line-height: 1.16; }
  .dense section, .dense .side-by-side section { margin-top: 0.8mm; }
}
)css";

}  // namespace noonbench::harness
