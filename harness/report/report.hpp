// SPDX-License-Identifier: MIT
// One self-contained HTML page about a run: no network, readable without scripts, on paper and on
// a phone. The page's text, style and script stand in page.html, page.css and page.js beside this.
#pragma once
#include "harness/bench/run_result.hpp"
#include "harness/judge/judge.hpp"

#include <span>
#include <string>

namespace noonbench::harness {

/// The whole page. The same result gives the same bytes.
std::string report_html(const RunResult& result, std::span<const Verdict> verdicts = {});

}  // namespace noonbench::harness
