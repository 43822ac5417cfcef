// SPDX-License-Identifier: MIT
#include "notes.hpp"

#include "sentences.hpp"
#include "text.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

namespace noonbench::harness {
namespace {

/// A list; what stands before the first colon is set bold.
std::string list_of(const std::vector<std::string>& lines) {
    std::string out = "<ul>";
    for (const std::string& line : lines) {
        const auto colon = line.find(": ");
        if (colon == std::string::npos || colon > 40) {
            out += "<li class=\"loc\">" + escaped(line) + "</li>";
        } else {
            out += "<li class=\"loc\"><b>" + escaped(line.substr(0, colon)) + ":</b>" +
                   escaped(line.substr(colon + 1)) + "</li>";
        }
    }
    return out + "</ul>";
}

const char* facing(double azimuth_rad) {
    constexpr std::array<const char*, 8> names{"north", "north-east", "east", "south-east",
                                               "south", "south-west", "west", "north-west"};
    const double eighths = azimuth_rad / (std::numbers::pi / 4.0);
    const auto index = static_cast<long>(std::lround(eighths)) % 8;
    return names.at(static_cast<std::size_t>(index < 0 ? index + 8 : index));
}

/// The ratio as a person says it: "1 part in 4 million".
std::string one_part_in(double ratio) {
    if (ratio == 0.0) return "nothing at all";
    const double parts = 1.0 / std::abs(ratio);
    if (parts < 1e4) return fmt::format("1 part in {:.0f}", parts);
    if (parts < 1e6) return fmt::format("1 part in {:.0f} thousand", parts / 1e3);
    if (parts < 1e9) return fmt::format("1 part in {:.0f} million", parts / 1e6);
    return "less than 1 part in a thousand million";
}

/// Smaller figures say no more than "less than 0.001".
std::string at_least_a_thousandth(double value) {
    return std::abs(value) < 0.001 ? "less than 0.001" : number_text(value, 3);
}

}  // namespace

std::string site_line(const RunResult& result) {
    const plant::Parameters& p = result.scenario.plant;
    std::string rows;
    for (const plant::Row& row : p.rows) {
        rows += fmt::format("{}{} {} of {} m² facing {} at {}°", rows.empty() ? "" : " and ",
                            row.collectors_in_series,
                            row.collectors_in_series == 1 ? "collector" : "collectors",
                            number_text(row.collector.area_m2, 2), facing(row.azimuth_rad),
                            number_text(row.slope_rad * 180.0 / std::numbers::pi, 0));
    }
    const double glycol = p.loop.glycol_mass_share;
    return fmt::format("{} from {}, {}; {}; store of {} l; {}", day_text(result.scenario.start_s),
                       hour_text(second_of_day(result.scenario.start_s)), length_text(result), rows,
                       number_text(p.store.volume_m3 * 1000.0, 0),
                       glycol > 0.0 ? number_text(100.0 * glycol, 0) + " % propylene glycol"
                                    : std::string("water-filled loop"));
}

std::string advice_notes(const RunResult& result) {
    if (result.advice.empty()) return {};
    return "<div class=\"check-this\" role=\"note\"><h3>Check this</h3>" + list_of(result.advice) +
           "</div>";
}

std::string message_notes(const RunResult& result) {
    if (result.messages.empty()) return {};
    return "<div class=\"messages\"><h3>Notes on the input</h3>" + list_of(result.messages) +
           "</div>";
}

std::string caution_notes(const RunResult& result) {
    return list_of(result.cautions);
}

std::string limit_notes(const RunResult& result) {
    const plant::Parameters& p = result.scenario.plant;
    std::vector<std::string> lines{
        ("Steam: not worked out. Over the boiling point the fluid is carried on as liquid, so a "
         "boiling collector is shown without its vapour, and the gauge far below what vapour makes "
         "of it. The boiling point itself is good to about 1.5 K."),
        ("Pressure: of a loop that rests and is full of liquid; the pump's own pressure is left "
         "out, the relief valve never opens and no air comes in. How far pipes give is assumed."),
        p.loop.hydraulics == plant::Hydraulics::solved
            ? ("Flow: found each second from pump curve, buoyancy and friction of pipes, coil, "
               "fittings "
               "and rows; bends of the coil and flow from row to row are left out, and there is no "
               "air.")
            : ("Flow: taken in proportion to the pump's speed, with no friction, no thick cold "
               "fluid "
               "and no air; it is set, not found from pump and pipes."),
        ("Frost: fluid and pipes do not freeze, however cold they get."),
        fmt::format(
            "Store: {} layers, each of one temperature. Water moves in them without eddies; "
            "its expansion is left out.",
            p.layers),
        ("Collectors: the equation of the data sheet, tested by makers up to moderate "
         "temperatures; "
         "standing hot in full sun is beyond what the sheet was measured for."),
        ("Pump: the share of its electricity that warms the fluid is assumed."),
        ("People: draw at set times, whether the water is warm or not, until the heat asked for or "
         "three times the usual time is reached.")};
    const Sky& sky = result.scenario.sky;
    if (sky.kind == SkyKind::clear_day) {
        lines.emplace_back("Sky: a clear day by formula; no real day is quite so smooth.");
    } else if (sky.kind == SkyKind::seeded_year) {
        lines.emplace_back(
            "Sky: invented days and clouds, fitted to a climate's months. A rough model of when "
            "clouds come; another weather number gives another, equally likely, sky.");
    } else if (sky.weather_file.minute_clouds) {
        lines.emplace_back("Sky: hours from the weather file, minutes of cloud invented.");
    } else {
        lines.emplace_back(
            "Sky: hours from the weather file; passing clouds within an hour are smoothed away, so "
            "the pump starts less often than it would.");
    }
    return list_of(lines);
}

std::string balance_notes(const RunResult& result) {
    const BalanceCheck& b = result.balance;
    const double turnover_kwh = b.run_throughput_j / 3.6e6;
    const double ratio = b.run_throughput_j > 0.0 ? b.run_residual_j / b.run_throughput_j : 0.0;
    std::string out = fmt::format(
        "<p class=\"loc verdict-{}\"><b>The books {}.</b> {} kWh went in and out of the loop and "
        "the store; what came in less what went out less what is kept differs by {} ({} J).</p>",
        b.holds ? "good" : "bad", b.holds ? "close" : "do not close: do not trust these figures",
        number_text(turnover_kwh, 2), one_part_in(ratio), at_least_a_thousandth(b.run_residual_j));
    out += fmt::format(
        "<p class=\"loc\">The worst single step used {} of what rounding allows it. Sun, taps and "
        "store added up a second time from what the bench shows, by other code: largest gap {} %."
        "</p>",
        b.worst_step_ratio < 0.01 ? "less than 1 %"
                                  : number_text(100.0 * b.worst_step_ratio, 0) + " %",
        at_least_a_thousandth(100.0 * b.boundary_gap));
    return out +
           "<p>This can show that no heat was lost or invented in the counting. It cannot show "
           "that the models are right, that the data sheet fits this collector, or that the steps "
           "in time were fine enough.</p>";
}

}  // namespace noonbench::harness
