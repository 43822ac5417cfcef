// SPDX-License-Identifier: MIT
#include "sheet_page.hpp"

namespace noonbench::harness {

const std::string_view sheet_page = R"page(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Noonbench data sheet of a controller</title>
<style>
{{style}}</style>
</head>
<body>
<header>
<p class="maker">Noonbench data sheet</p>
<h1>A controller at its terminals</h1>
<p class="site">{{device}}</p>
</header>
<main>
<div class="not-a-certificate">{{not_a_certificate}}{{not_covered}}</div>
<p class="result">{{result}}.</p>
{{troubles}}
{{tests}}
<section class="test"><h2>Grounds of what is allowed</h2>{{grounds}}</section>
<section class="closing"><h2>With a real board</h2>{{cautions}}</section>
</main>
<footer><p>Temperature differences in K, times in local standard time. Each set value was typed into
the controller or is stated for it; each measured value was seen at its terminals.</p></footer>
</body>
</html>
)page";

const std::string_view sheet_css = R"css(
.not-a-certificate { background: var(--warn); border: 3px solid var(--ochre); padding: 0.6rem 1rem; margin: 0.8rem 0; }
.not-a-certificate p { margin: 0.2em 0; } .not-a-certificate p:first-child { font-weight: 700; font-size: 1.15em; }
.result { font-size: 1.25rem; font-weight: 600; margin: 0.6rem 0; }
.test { margin-top: 1.6rem; }
.test .about { font-size: 1rem; max-width: none; white-space: normal; }
.test h2 small { font: 0.95rem system-ui, "Segoe UI", "DejaVu Sans", sans-serif; color: var(--soft); margin-left: 0.6em; white-space: nowrap; }
.test .settings, .grounds { color: var(--soft); font-size: 0.92rem; margin: 0.2rem 0; }
.grounds { padding-left: 1.8rem; }
sup { line-height: 0; } .measured sup { color: var(--soft); font-size: 0.75em; }
.measured th b { font-weight: 600; } .measured .done { display: block; font-size: 0.88em; font-weight: 400; color: var(--soft); max-width: 26rem; }
.measured tbody th { min-width: 14rem; } .measured td { white-space: nowrap; } .measured .number { text-align: right; padding-right: 0.9rem; } .measured thead .number { text-align: right; }
.bad { background: var(--alarm); font-weight: 700; }
.difference-chart { width: 100%; height: auto; display: block; }
.run-points circle { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
.closing ul { margin: 0; padding-left: 1.2rem; }
@media screen and (max-width: 52rem) {
  .difference-chart { min-width: 34rem; } .test h2 small { display: block; margin: 0; white-space: normal; }
}
@media print {
  @page { size: A4 portrait; margin: 7mm 11mm; }
  body { font-size: 7.2pt; line-height: 1.2; }
  h1 { font-size: 15pt; }
  .not-a-certificate { margin: 1mm 0; padding: 0.6mm 2.5mm; border-width: 1.2pt; }
  .result { font-size: 9.5pt; margin: 0.6mm 0; }
  section.test { break-inside: auto; margin-top: 1.2mm; padding-top: 0.4mm; border-top-width: 1pt; }
  .test h2 { break-after: avoid; margin: 0; font-size: 9.5pt; }
  .test h2 small { font-size: 7pt; }
  .test .about { font-size: 7pt; margin: 0.2mm 0; break-after: avoid; }
  .test .settings { font-size: 6.5pt; margin: 0.2mm 0; break-after: avoid; }
  .grounds { font-size: 6.5pt; columns: 2; column-gap: 6mm; margin: 0.3mm 0; padding-left: 3.5mm; }
  .grounds li { margin: 0; break-inside: avoid; }
  .measured { font-size: 6.6pt; line-height: 1.0; }
  .measured th, .measured td { padding: 0.1mm 1.6mm 0 0; }
  .measured .done { display: inline; font-size: 6.1pt; margin-left: 1.2mm; }
  .measured tbody th { width: 78mm; }
  .measured tbody { break-inside: auto; }
  .measured thead { break-after: avoid; }
  .wide { overflow: visible; }
  .difference-chart { width: 122mm; margin: 0 auto; }
  .closing { font-size: 6.6pt; margin-top: 1mm; } .closing h2 { font-size: 9.5pt; } .closing li { margin: 0; }
  footer { font-size: 6.5pt; margin-top: 1mm; }
}
)css";

}  // namespace noonbench::harness
