// SPDX-License-Identifier: MIT
#include "bars.hpp"

#include "axis.hpp"
#include "patterns.hpp"
#include "text.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace noonbench::harness {
namespace {

struct Kind {
    double Sums::*value;
    const char* fill;
    const char* words;
};
constexpr std::array kinds{Kind{&Sums::to_store_kwh, "flow-useful", "sun into the store"},
                           Kind{&Sums::backup_kwh, "flow-backup", "backup into the store"},
                           Kind{&Sums::tapped_kwh, "flow-lost", "to the taps"}};

constexpr double left = 60.0;
constexpr double right = 940.0;
constexpr double top = 20.0;
constexpr double bottom = 300.0;

std::string month_name(const Sums& month) {
    const CivilDate date = date_of(month.from_s);
    return fmt::format("{} {}", month_text(date.month), date.year);
}

double highest(const std::vector<Sums>& months) {
    double most = 1.0;
    for (const Sums& month : months) {
        for (const Kind& kind : kinds) most = std::max(most, month.*kind.value);
    }
    return most;
}

std::string month_grid(double step, double px_per_kwh) {
    std::string out;
    for (const double kwh : round_values(0.0, (bottom - top) / px_per_kwh, step)) {
        const double y = bottom - kwh * px_per_kwh;
        out += fmt::format(
            "<path class=\"grid\" d=\"M{} {:.1f}H{}\"/><text class=\"tick\" "
            "text-anchor=\"end\" x=\"{}\" y=\"{:.1f}\">{}</text>",
            left, y, right, left - 6.0, y + 4.0, number_text(kwh, 0));
    }
    return out +
           fmt::format("<text class=\"tick\" text-anchor=\"end\" x=\"{}\" y=\"12\">kWh</text>",
                       left - 6.0);
}

std::string month_svg(const std::vector<Sums>& months) {
    const double most = highest(months);
    const double px = (bottom - top) / most;
    const double room = (right - left) / static_cast<double>(months.size());
    const double width = room * 0.26;
    std::string out =
        "<svg class=\"months\" viewBox=\"0 0 960 336\" role=\"img\" "
        "aria-label=\"Heat month by month; the table below tells the same\">";
    out += month_grid(round_step(most, 5), px);
    for (std::size_t i = 0; i < months.size(); ++i) {
        const double from = left + room * (static_cast<double>(i) + 0.1);
        for (std::size_t k = 0; k < kinds.size(); ++k) {
            const double kwh = std::max(0.0, months[i].*kinds[k].value);
            out += fmt::format(
                "<rect class=\"bar\" fill=\"url(#{})\" x=\"{:.1f}\" y=\"{:.1f}\" "
                "width=\"{:.1f}\" height=\"{:.1f}\"/>",
                kinds[k].fill, from + width * static_cast<double>(k), bottom - kwh * px, width,
                kwh * px);
        }
        out += fmt::format(
            "<text class=\"tick\" text-anchor=\"middle\" x=\"{:.1f}\" y=\"{}\">{}"
            "</text>",
            from + 0.4 * room, bottom + 20.0, month_text(date_of(months[i].from_s).month));
    }
    return out + "</svg>";
}

std::string month_table(const std::vector<Sums>& months) {
    std::string out =
        "<table><caption>Month by month</caption><thead><tr><th scope=\"col\">month</th><th "
        "scope=\"col\">sun, kWh/m²</th><th scope=\"col\">into the store, kWh</th><th "
        "scope=\"col\">backup, kWh</th><th scope=\"col\">to the taps, kWh</th><th "
        "scope=\"col\">pump, h</th><th scope=\"col\">starts</th><th scope=\"col\">collector, "
        "highest °C</th></tr></thead><tbody>";
    for (const Sums& month : months) {
        out += fmt::format(
            "<tr class=\"loc\"><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>"
            "{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
            month_name(month), number_text(month.sun_kwh_m2, 1), number_text(month.to_store_kwh, 1),
            number_text(month.backup_kwh, 1), number_text(month.tapped_kwh, 1),
            number_text(month.pump_run_h, 1), month.pump_starts,
            number_text(month.collector_highest_c, 0));
    }
    return out + "</tbody></table>";
}

}  // namespace

std::string month_bars(const RunResult& result) {
    if (result.months.empty()) return {};
    std::string out = joined({"<div class=\"wide\">", month_svg(result.months), "</div>"});
    out += "<ul class=\"legend\">";
    for (const Kind& kind : kinds) out += joined({"<li>", swatch(kind.fill), kind.words, "</li>"});
    return out + "</ul><div class=\"wide\">" + month_table(result.months) + "</div>";
}

std::string reason_hours(const RunResult& result) {
    const auto& hours = result.total.reason_h;
    std::vector<std::size_t> order;
    double sum = 0.0;
    for (std::size_t i = 0; i < hours.size(); ++i) {
        if (hours.at(i) <= 0.0) continue;
        order.push_back(i);
        sum += hours.at(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return hours.at(a) > hours.at(b); });
    std::string out =
        "<table class=\"hours\"><caption>How long the pump had which reason</caption><thead><tr>"
        "<th scope=\"col\">reason</th><th scope=\"col\">hours</th><th scope=\"col\">share</th>"
        "</tr></thead><tbody>";
    for (const std::size_t i : order) {
        out += fmt::format(
            "<tr class=\"loc\"><th scope=\"row\">{}{}</th><td>{}</td><td class=\"share\"><svg "
            "viewBox=\"0 0 100 12\" preserveAspectRatio=\"none\" aria-hidden=\"true\"><rect "
            "class=\"bar\" fill=\"url(#pump-{})\" width=\"{:.2f}\" height=\"12\"/></svg></td></tr>",
            swatch(fmt::format("pump-{}", i)), short_words(static_cast<firmware::PumpReason>(i)),
            number_text(hours.at(i), 2), i, 100.0 * hours.at(i) / sum);
    }
    return out + "</tbody></table>";
}

}  // namespace noonbench::harness
