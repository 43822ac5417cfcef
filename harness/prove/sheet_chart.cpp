// SPDX-License-Identifier: MIT
#include "sheet_chart.hpp"

#include "harness/report/axis.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace noonbench::harness {

namespace {

struct Point {
    double store_c = 0.0;
    double difference_k = 0.0;
};

struct Panel {
    const char* name;       // "start difference"
    const char* css_class;  // colours of the report's page
    double set_k = 0.0;
    double allowed_k = 0.0;
    std::vector<Point> points;
};

constexpr double width = 460.0;
constexpr double height = 250.0;
constexpr double left = 62.0;
constexpr double right = 14.0;
constexpr double top = 34.0;
constexpr double bottom = 44.0;

/// From values to places within one panel.
struct Scale {
    double from = 0.0;
    double until = 1.0;
    double at_from = 0.0;
    double at_until = 1.0;

    [[nodiscard]] double operator()(double value) const {
        return at_from + (value - from) / (until - from) * (at_until - at_from);
    }
};

Panel panel_of(const TestResult& result, const char* name, const char* css_class) {
    const auto& stores = std::get<DifferenceTest>(result.test.what).store_c;
    Panel panel{name, css_class, 0.0, 0.0, {}};
    std::size_t seen = 0;
    const auto runs = static_cast<std::size_t>(std::get<DifferenceTest>(result.test.what).repeat);
    for (const Measurement& m : result.measurements) {
        if (m.name != name) continue;
        panel.set_k = m.set;
        panel.allowed_k = m.allowed.most;
        // measurements stand in the order of the store temperatures, so many runs each
        if (m.measured) panel.points.push_back({stores.at(seen / runs), *m.measured});
        ++seen;
    }
    return panel;
}

std::string axes(const Panel& panel, const Scale& x, const Scale& y) {
    std::string out;
    const double step = round_step(y.until - y.from, 5);
    for (const double k : round_values(y.from, y.until, step)) {
        out += fmt::format(
            "<path class=\"grid\" d=\"M{:.1f} {:.1f}H{:.1f}\"/><text class=\"tick\" x=\"{:.1f}\" "
            "y=\"{:.1f}\" text-anchor=\"end\">{}</text>",
            left, y(k), width - right, left - 6.0, y(k) + 4.5, number_text(k, step < 0.1 ? 2 : 1));
    }
    for (const double c : round_values(x.from, x.until, 20.0)) {
        out += fmt::format(
            "<text class=\"tick\" x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\">{}</text>", x(c),
            height - bottom + 18.0, number_text(c, 0));
    }
    out += fmt::format(
        "<rect class=\"frame\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>",
        left, top, width - left - right, height - top - bottom);
    out += fmt::format("<text class=\"end-label\" x=\"{:.1f}\" y=\"18\">{}, K</text>", left,
                       panel.name);
    out += fmt::format(
        "<text class=\"tick\" x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"end\">store, °C</text>",
        width - right, height - 8.0);
    return out;
}

std::string drawn(const Panel& panel, double offset) {
    double span_k = 3.0 * panel.allowed_k;
    for (const Point& p : panel.points) {
        span_k = std::max(
            span_k, 1.15 * std::max(p.difference_k - panel.set_k, panel.set_k - p.difference_k));
    }
    const Scale x{0.0, 100.0, left, width - right};
    const Scale y{panel.set_k - span_k, panel.set_k + span_k, height - bottom, top};
    std::string out = fmt::format("<g transform=\"translate({:.0f} 0)\">", offset);
    const double band_top = y(panel.set_k + panel.allowed_k);
    out += fmt::format(
        "<rect class=\"tint-run\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>",
        left, band_top, width - left - right, y(panel.set_k - panel.allowed_k) - band_top);
    out += axes(panel, x, y);
    out += fmt::format("<path class=\"line {}\" d=\"M{:.1f} {:.1f}H{:.1f}\"/>", panel.css_class,
                       left, y(panel.set_k), width - right);
    out += "<g class=\"run-points\">";
    std::vector<int> at_store(101, 0);  // runs of one store temperature stand side by side
    for (const Point& p : panel.points) {
        int& run = at_store.at(static_cast<std::size_t>(std::clamp(p.store_c, 0.0, 100.0)));
        out += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4.5\"/>",
                           x(p.store_c) + 10.0 * run++ - 10.0, y(p.difference_k));
    }
    return out + "</g></g>";
}

}  // namespace

std::string difference_chart(const TestResult& result) {
    if (!std::holds_alternative<DifferenceTest>(result.test.what)) return {};
    const Panel start = panel_of(result, "start difference", "collector");
    const Panel stop = panel_of(result, "stop difference", "bottom");
    return fmt::format(
               "<svg class=\"difference-chart\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" "
               "aria-label=\"Start and stop difference against store temperature; the figures "
               "stand in the table below\">",
               2.0 * width + 20.0, height) +
           drawn(start, 0.0) + drawn(stop, width + 20.0) + "</svg>";
}

}  // namespace noonbench::harness
