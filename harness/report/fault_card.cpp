// SPDX-License-Identifier: MIT
#include "fault_card.hpp"

#include "fault_moves.hpp"
#include "fault_picture.hpp"
#include "fault_section.hpp"
#include "tables.hpp"
#include "text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace noonbench::harness {
namespace {

std::string head(const std::string& name, const std::string& title) {
    return joined({"<article class=\"fault-card\" id=\"", fault_id(name),
                   "\"><h3 class=\"verbatim\">", escaped(title.empty() ? name : title),
                   "</h3><p class=\"file\"><code>", escaped(name), "</code></p>"});
}

std::string quote(const FaultText& fault) {
    return joined({"<blockquote class=\"verbatim\"><p>\u201c",
                   escaped(trimmed(fault.customer_says)), "\u201d</p></blockquote>"});
}

std::string signed_text(double value, int decimals) {
    const std::string text = number_text(value, decimals);
    const bool is_zero = text.find_first_of("123456789") == std::string::npos;
    return value > 0.0 && !is_zero ? "+" + text : text;
}

/// "−6.6 kWh (−67 %)"; no share of next to nothing.
std::string yield_change(double kwh, double healthy_kwh) {
    constexpr double least_kwh = 0.05;
    const double change = kwh - healthy_kwh;
    std::string text = (change > 0.0 ? "+" : "") + kwh_text(change);
    if (std::abs(healthy_kwh) >= least_kwh)
        text += fmt::format(" ({} %)", signed_text(100.0 * change / std::abs(healthy_kwh), 0));
    return text;
}

std::string figure_row(std::initializer_list<std::string_view> cells) {
    std::string out = "<tr>";
    bool first = true;
    for (const std::string_view cell : cells) {
        out +=
            first ? joined({"<th scope=\"row\">", cell, "</th>"}) : joined({"<td>", cell, "</td>"});
        first = false;
    }
    return out + "</tr>";
}

std::string figures(const SeenFault& seen) {
    const Sums& here = seen.fault.total;
    std::string rows;
    const std::string heat =
        joined({"heat to the store <small>", words_of(traces::Visibility::bench_only), "</small>"});
    const std::string starts =
        joined({"pump starts <small>", words_of(traces::Visibility::customers_log), "</small>"});
    const std::string starts_here = fmt::format("{}", here.pump_starts);
    if (!seen.twin) {
        rows = figure_row({heat, kwh_text(here.to_store_kwh)}) + figure_row({starts, starts_here});
        return joined({"<table class=\"figures\"><tbody>", rows, "</tbody></table>"});
    }
    const Sums& twin = seen.twin->total;
    rows += figure_row({heat, kwh_text(here.to_store_kwh), kwh_text(twin.to_store_kwh),
                        yield_change(here.to_store_kwh, twin.to_store_kwh)});
    rows += figure_row({starts, starts_here, fmt::format("{}", twin.pump_starts),
                        signed_text(static_cast<double>(here.pump_starts - twin.pump_starts), 0)});
    return joined(
        {"<table class=\"figures\"><thead><tr><td></td><th scope=\"col\">fault</th><th "
         "scope=\"col\">healthy</th><th scope=\"col\">change</th></tr></thead><tbody>",
         rows, "</tbody></table>"});
}

std::string moved(const SeenFault& seen) {
    std::string items;
    for (const MovedThing& thing : moved_things(seen.fault.scenario)) {
        items += joined({"<li>", escaped(thing.what), thing.range.empty() ? "" : ": <b>",
                         escaped(thing.range), thing.range.empty() ? "" : "</b>", " <code>",
                         escaped(thing.name), "</code>"});
        if (!thing.here.empty()) items += joined({" (in this run: ", escaped(thing.here), ")"});
        items += "</li>";
    }
    for (const TwinSet& set : seen.fault.scenario.fault->twin)
        items += joined({"<li>the healthy twin has <code>", escaped(set.set), "</code></li>"});
    if (items.empty()) return {};
    return joined({"<div class=\"moves\"><h4>What it moves</h4><ul>", items, "</ul></div>"});
}

std::string looks_like(const FaultText& fault, const FaultTitles& titles) {
    std::string items;
    for (const std::string& name : fault.looks_like) {
        const auto found = titles.find(name);
        if (!items.empty()) items += "; ";
        items += found == titles.end()
                     ? joined({"<code>", escaped(name), "</code>"})
                     : joined({"<a href=\"#", fault_id(name), "\">",
                               escaped(found->second.empty() ? name : found->second), "</a>"});
    }
    if (items.empty()) return {};
    return joined({"<div><dt>Looks like</dt><dd>", items, "</dd></div>"});
}

/// As in the report, less what stands elsewhere on the card.
std::string told(const FaultText& fault, const FaultTitles& titles) {
    std::string out = "<dl class=\"fault verbatim\">";
    for (const FaultLine& line : fault_lines(fault)) {
        if (line.told == Told::customer_says || line.told == Told::looks_like) continue;
        out += fault_line_html(line);
    }
    return out + looks_like(fault, titles) + "</dl>";
}

std::string badge(Truth truth, bool as_claimed) {
    const char* words = truth == Truth::held       ? "✓ held"
                        : truth == Truth::not_held ? "✗ not held"
                                                   : "? not yet known";
    return fmt::format("<span class=\"verdict {}\">{}</span>", as_claimed ? "held" : "failed",
                       words);
}

std::string proof(const SeenFault& seen, const SeenVerdict& v) {
    const SeenVerdict* twin = in_twin(seen, v.name);
    const bool twin_right = fails_where_it_must(v, twin);
    std::string out =
        joined({"<tr><th scope=\"row\">", escaped(v.name), "<br><span class=\"that\">",
                escaped(v.text), "</span> <small>", words_of(v.visible), "</small></th><td>",
                badge(v.outcome.truth, v.outcome.truth == Truth::held), "</td>"});
    if (seen.twin)
        out += joined({"<td>", twin == nullptr ? "" : badge(twin->outcome.truth, twin_right),
                       twin_right ? "" : "<span class=\"must\">must fail there</span>", "</td>"});
    return out + "</tr>";
}

std::string proofs(const SeenFault& seen) {
    if (seen.fault.verdicts.empty()) return "<p>Nothing is required of this run.</p>";
    std::string rows;
    for (const SeenVerdict& v : seen.fault.verdicts) rows += proof(seen, v);
    constexpr std::string_view head_cells =
        "<th scope=\"col\">What shows it</th><th scope=\"col\">with the fault</th>";
    return joined({"<table class=\"proofs\"><thead><tr>", head_cells,
                   seen.twin ? "<th scope=\"col\">healthy</th>" : "", "</tr></thead><tbody>", rows,
                   "</tbody></table>"});
}

/// Said in the open on the card, not by a colour somewhere in a table.
std::string alarm(const std::vector<std::string>& complaints) {
    if (complaints.empty()) return {};
    std::string items;
    for (const std::string& each : complaints) items += joined({"<li>", escaped(each), "</li>"});
    return joined(
        {"<div class=\"alarm\" role=\"note\"><b>✗ The run does not show what the file "
         "claims:</b><ul>",
         items, "</ul></div>"});
}

}  // namespace

std::string fault_id(const std::string& name) {
    return "fault-" + escaped(name);
}

std::string fault_card(const SeenFault& seen, const FaultTitles& titles) {
    const Scenario& scenario = seen.fault.scenario;
    const FaultText& fault = *scenario.fault;
    return joined({head(scenario.name, scenario.title), quote(fault), alarm(complaints_of(seen)),
                   "<div class=\"seen\"><figure>", fault_picture(seen),
                   "</figure><div class=\"beside\">", figures(seen), moved(seen), "</div></div>",
                   told(fault, titles), proofs(seen), "</article>"});
}

std::string failed_card(const std::string& name, const std::string& title,
                        const std::string& failure) {
    return joined({head(name, title), "<div class=\"alarm\" role=\"note\"><b>✗ Not run:</b> ",
                   escaped(failure), "</div></article>"});
}

}  // namespace noonbench::harness
