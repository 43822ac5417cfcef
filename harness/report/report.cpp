// SPDX-License-Identifier: MIT
#include "report.hpp"

#include "assets.hpp"
#include "bars.hpp"
#include "chart.hpp"
#include "energy_picture.hpp"
#include "fault_section.hpp"
#include "notes.hpp"
#include "patterns.hpp"
#include "reason_panel.hpp"
#include "sentences.hpp"
#include "tables.hpp"
#include "text.hpp"
#include "verdict_section.hpp"

namespace noonbench::harness {
namespace {

std::string section(const char* id, const char* heading, const std::string& body) {
    if (body.empty()) return {};
    return std::string("<section id=\"") + id + "\" aria-labelledby=\"" + id +
           "-heading\"><h2 id=\"" + id + "-heading\">" + heading + "</h2>" + body + "</section>";
}

std::string sentences(const RunResult& result) {
    std::string out = "<ol class=\"sentences\">";
    for (const std::string& sentence : what_happened(result)) {
        out += joined({"<li class=\"loc\">", escaped(sentence), "</li>"});
    }
    return out + "</ol>" + advice_notes(result);
}

/// The chart is a figure; its buttons are there only where a script can serve them.
std::string chart_section(const RunResult& result) {
    constexpr const char* buttons =
        "<div class=\"zoom script-only\" role=\"group\" aria-label=\"Zoom\"><button "
        "type=\"button\" "
        "data-zoom=\"in\">Closer</button><button type=\"button\" data-zoom=\"out\">Wider</button>"
        "<button type=\"button\" data-zoom=\"earlier\">Earlier</button><button type=\"button\" "
        "data-zoom=\"later\">Later</button><button type=\"button\" data-zoom=\"all\">Whole run"
        "</button></div>";
    constexpr const char* hint =
        "<p class=\"hint script-only\">Point or tap to choose the moment above. Drag to look "
        "closer. "
        "With the chart in focus: wheel or + and − zoom, arrows move the moment, with Shift the "
        "view, 0 shows the whole run.</p>";
    return std::string("<figure>") + buttons +
           "<div id=\"chart-frame\" class=\"wide\" tabindex=\"0\" role=\"group\" "
           "aria-label=\"Chart of the run\">" +
           chart_svg(result) + "</div>" + chart_legend(result) + hint + "</figure>";
}

std::string run_data(const RunResult& result) {
    if (!has_moments(result)) return "null";
    return joined({"{", chart_json(result), ",", moments_json(result), "}"});
}

}  // namespace

std::string report_html(const RunResult& result, std::span<const Verdict> verdicts) {
    const bool moments = has_moments(result);
    const Scenario& scenario = result.scenario;
    const std::string title = scenario.title.empty() ? scenario.name : scenario.title;
    const Values values{
        {"title", escaped(title)},
        {"about", scenario.about.empty()
                      ? ""
                      : joined({"<p class=\"about verbatim\">", escaped(scenario.about), "</p>"})},
        {"site", escaped(site_line(result))},
        {"style", std::string(page_css)},
        {"script", std::string(page_js)},
        {"patterns", pattern_definitions()},
        {"happened", section("happened", "What happened", sentences(result))},
        {"fault", section("fault", "The fault", fault_section(scenario.fault))},
        {"verdicts", section("verdicts", "Checks", verdicts_section(verdicts))},
        {"reason", section("why", "Why the pump does what it does",
                           moments ? reason_panel(result) : std::string())},
        {"chart",
         section("chart-section", "The run", moments ? chart_section(result) : month_bars(result))},
        {"energy",
         section("energy", "Where the heat went",
                 joined({"<div class=\"energy-flow\">", energy_picture(result), "</div>"}))},
        {"figures",
         section("figures", "Figures",
                 joined({"<div class=\"side-by-side\"><div class=\"wide\">", figures_table(result),
                         "</div><div class=\"wide\">", reason_hours(result), "</div></div>"}))},
        {"signals", signals_table(result)},
        {"settings", section("settings", "Settings used", settings_tables(result))},
        {"settings_on_paper", settings_on_paper(result)},
        {"cautions", section("cautions", "Cautions", caution_notes(result))},
        {"limits", section("limits", "What the models leave out",
                           limit_notes(result) + message_notes(result))},
        {"balance", section("balance", "Do the energy books close?", balance_notes(result))},
        {"data", run_data(result)}};
    return filled_page(page_html, values);
}

}  // namespace noonbench::harness
