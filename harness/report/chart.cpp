// SPDX-License-Identifier: MIT
#include "chart.hpp"

#include "axis.hpp"
#include "chart_lines.hpp"
#include "courses.hpp"
#include "patterns.hpp"
#include "scale.hpp"
#include "text.hpp"

#include "harness/bench/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace noonbench::harness {
namespace {

constexpr std::size_t most_points = 3000;
constexpr std::size_t drawn_points = 1200;  // the fixed drawing is 754 wide

// Where things lie in the fixed drawing; page.js has the same heights.
constexpr double left = 56.0;
constexpr double right = 810.0;
constexpr double temperatures_top = 24.0;
constexpr double temperatures_bottom = 300.0;
constexpr double sun_top = 322.0;
constexpr double sun_bottom = 392.0;
constexpr double pump_strip = 416.0;
constexpr double backup_strip = 452.0;
constexpr double strip_height = 26.0;
constexpr double height = 512.0;

struct Span {
    std::int64_t from_s = 0;
    std::int64_t until_s = 1;
};

Span span_of(const traces::Table& trace) {
    const std::int64_t from_s = trace.times_s().front();
    return {from_s, std::max(trace.times_s().back(), from_s + 1)};
}

/// Least and greatest over all temperature lines, to round figures.
Scale temperature_scale(const traces::Table& trace) {
    double least = 0.0;
    double most = 10.0;
    for (const ChartLine& line : temperature_lines) {
        const auto column = trace.find(line.column);
        if (!column) continue;
        for (std::size_t row = 0; row < trace.row_count(); ++row) {
            const double value = trace.value(row, *column);
            if (std::isnan(value)) continue;
            least = std::min(least, value);
            most = std::max(most, value);
        }
    }
    const double step = round_step(most - least, 6);
    return {std::floor(least / step) * step, std::ceil(most / step) * step, temperatures_bottom,
            temperatures_top};
}

std::string path_of(const Course& course, const Scale& x, const Scale& y) {
    std::string path;
    bool pen_is_down = false;
    for (std::size_t i = 0; i < course.values.size(); ++i) {
        if (!course.values[i]) {
            pen_is_down = false;
            continue;
        }
        path += fmt::format("{}{:.1f} {:.1f}", pen_is_down ? "L" : "M",
                            x(course.t0_s + static_cast<double>(i) * course.dt_s),
                            y(*course.values[i]));
        pen_is_down = true;
    }
    return path;
}

std::string grid(const Scale& y, double step) {
    std::string out;
    for (const double value : round_values(y.from, y.until, step)) {
        out += fmt::format(
            "<path class=\"grid\" d=\"M{} {:.1f}H{}\"/><text class=\"tick\" "
            "text-anchor=\"end\" x=\"{}\" y=\"{:.1f}\">{}</text>",
            left, y(value), right, left - 6.0, y(value) + 4.0, number_text(value, 0));
    }
    return out;
}

std::string time_axis(const Span& span, const Scale& x) {
    std::string out;
    for (const std::int64_t at_s : time_ticks(span.from_s, span.until_s, 9)) {
        const double here = x(static_cast<double>(at_s));
        out += fmt::format(
            "<path class=\"grid\" d=\"M{:.1f} {}V{}\"/><text class=\"tick\" "
            "text-anchor=\"middle\" x=\"{:.1f}\" y=\"{}\">{}</text>",
            here, temperatures_top, backup_strip + strip_height, here,
            backup_strip + strip_height + 20.0, tick_text(at_s));
    }
    return out;
}

/// Boxes from..until for each stretch; `paint` gives the attributes, empty for none.
template <typename Paint>
std::string boxes(const std::vector<Stretch>& stretches, const Span& span, const Scale& x,
                  double top, double box_height, Paint paint) {
    std::string out;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const std::string attributes = paint(stretches[i].value);
        if (attributes.empty()) continue;
        const std::int64_t end_s =
            i + 1 < stretches.size() ? stretches[i + 1].from_s : span.until_s;
        const double from = x(static_cast<double>(stretches[i].from_s));
        const double width = std::max(0.5, x(static_cast<double>(end_s)) - from);
        out += fmt::format("<rect {} x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"{}\"/>",
                           attributes, from, top, width, box_height);
    }
    return out;
}

std::string words_of(const char* kind, int value) {
    if (value < 0) return "not known";
    return kind[0] == 'p' ? short_words(static_cast<firmware::PumpReason>(value))
                          : short_words(static_cast<firmware::BackupReason>(value));
}

/// Words on every box wide enough for them.
std::string box_words(const std::vector<Stretch>& stretches, const Span& span, const Scale& x,
                      double top, const char* kind) {
    std::string out;
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const std::int64_t end_s =
            i + 1 < stretches.size() ? stretches[i + 1].from_s : span.until_s;
        const double from = x(static_cast<double>(stretches[i].from_s));
        const double width = x(static_cast<double>(end_s)) - from;
        const std::string words = words_of(kind, stretches[i].value);
        if (width < 8.0 * static_cast<double>(words.size()) + 12.0) continue;
        out += fmt::format(
            "<text class=\"strip-word\" text-anchor=\"middle\" x=\"{:.1f}\" "
            "y=\"{}\">{}</text>",
            from + width / 2.0, top + 18.0, words);
    }
    return out;
}

std::string strip(const traces::Table& trace, const char* kind, const Span& span, const Scale& x,
                  double top) {
    const auto column = trace.find(std::string(kind) + "_reason");
    if (!column) return {};
    const auto stretches = stretches_of(trace, *column);
    const auto paint = [&](int value) {
        return value < 0 ? std::string() : fmt::format("fill=\"url(#{}-{})\"", kind, value);
    };
    return boxes(stretches, span, x, top, strip_height, paint) +
           box_words(stretches, span, x, top, kind) +
           fmt::format(
               "<rect class=\"frame\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/><text "
               "class=\"tick\" text-anchor=\"end\" x=\"{}\" y=\"{}\">{}</text>",
               left, top, right - left, strip_height, left - 6.0, top + 17.0, kind);
}

std::string pump_band(const traces::Table& trace, const Span& span, const Scale& x) {
    const auto column = trace.find("pump_relay");
    if (!column) return {};
    const auto paint = [](int value) { return value == 1 ? "class=\"pump-on\"" : ""; };
    return boxes(stretches_of(trace, *column), span, x, temperatures_top,
                 temperatures_bottom - temperatures_top, paint);
}

/// Labels at the lines' right ends, pushed apart so that they can be read.
std::string end_labels(const traces::Table& trace, const Scale& y) {
    struct Label {
        double at;
        const ChartLine* line;
    };
    std::vector<Label> labels;
    for (const ChartLine& line : temperature_lines) {
        const auto column = trace.find(line.column);
        if (!column || trace.row_count() == 0) continue;
        const double last = trace.value(trace.row_count() - 1, *column);
        if (!std::isnan(last)) labels.push_back({y(last), &line});
    }
    std::sort(labels.begin(), labels.end(),
              [](const Label& a, const Label& b) { return a.at > b.at; });
    std::string out;
    double lowest_free = temperatures_bottom + 4.0;
    for (const Label& label : labels) {
        const double at = std::min(label.at, lowest_free);
        lowest_free = at - 18.0;
        out += fmt::format("<text class=\"end-label {}\" x=\"{}\" y=\"{:.1f}\">{}</text>",
                           label.line->style, right + 8.0, at + 4.0, label.line->label);
    }
    return out;
}

std::string sun_area(const traces::Table& trace, const Scale& x) {
    const auto column = trace.find(sun_line.column);
    if (!column) return {};
    const Course course = course_of(trace, *column, drawn_points);
    double most = 1000.0;
    for (const auto& value : course.values) most = std::max(most, value.value_or(0.0));
    const Scale y{0.0, most, sun_bottom, sun_top};
    std::string path;
    for (std::size_t i = 0; i < course.values.size(); ++i) {
        path += fmt::format("{}{:.1f} {:.1f}", i == 0 ? "M" : "L",
                            x(course.t0_s + static_cast<double>(i) * course.dt_s),
                            y(course.values[i].value_or(0.0)));
    }
    if (!path.empty()) path += fmt::format("V{}H{}Z", sun_bottom, left);
    return grid(y, 500.0) + fmt::format("<path class=\"area sun\" d=\"{}\"/>", path) +
           fmt::format("<text class=\"end-label sun\" x=\"{}\" y=\"{}\">sun, W/m²</text>",
                       right + 8.0, sun_bottom);
}

std::string course_json(const traces::Table& trace, const ChartLine& line, double scale) {
    const Course course = course_of(trace, trace.column(line.column), most_points);
    std::string out = fmt::format(
        "{{\"style\":\"{}\",\"label\":\"{}\",\"t0\":{},\"dt\":{},\"scale\":{},\"values\":[",
        line.style, line.label, course.t0_s - static_cast<double>(trace.start_s()), course.dt_s,
        scale);
    for (std::size_t i = 0; i < course.values.size(); ++i) {
        if (i > 0) out += ",";
        out += course.values[i] ? fmt::format("{}", std::lround(*course.values[i] * scale))
                                : std::string("null");
    }
    return out + "]}";
}

std::string stretches_json(const traces::Table& trace, const char* column_name) {
    std::string out = "[";
    const auto column = trace.find(column_name);
    if (column) {
        for (const Stretch& stretch : stretches_of(trace, *column)) {
            out += fmt::format("{}[{},{}]", out.size() == 1 ? "" : ",",
                               stretch.from_s - trace.start_s(), stretch.value);
        }
    }
    return out + "]";
}

std::string words_json(const char* kind, std::size_t count) {
    std::string out = "[";
    for (std::size_t i = 0; i < count; ++i) {
        out += joined({i == 0 ? "" : ",", json_text(words_of(kind, static_cast<int>(i)))});
    }
    return out + "]";
}

/// Legend entries of the reasons that occur, in the order of the enumeration.
std::string reasons_met(const traces::Table& trace, const char* kind) {
    const auto column = trace.find(std::string(kind) + "_reason");
    if (!column) return {};
    std::set<int> met;
    for (const Stretch& stretch : stretches_of(trace, *column)) met.insert(stretch.value);
    met.erase(-1);
    std::string out;
    for (const int value : met) {
        out += joined({"<li>", swatch(fmt::format("{}-{}", kind, value)), kind, ": ",
                       words_of(kind, value), "</li>"});
    }
    return out;
}

}  // namespace

std::string chart_svg(const RunResult& result) {
    const traces::Table& trace = result.trace;
    const Span span = span_of(trace);
    const Scale x{static_cast<double>(span.from_s), static_cast<double>(span.until_s), left, right};
    const Scale y = temperature_scale(trace);
    std::string out = fmt::format(
        "<svg id=\"chart\" viewBox=\"0 0 960 {}\" role=\"img\" aria-label=\"Temperatures, sun and "
        "reasons over the run; the figures below tell the same in numbers\">",
        height);
    out += pump_band(trace, span, x);
    out += grid(y, round_step(y.until - y.from, 6));
    out += fmt::format("<text class=\"tick\" x=\"{}\" y=\"14\">°C</text>", left);
    out += sun_area(trace, x);
    out += time_axis(span, x);
    for (const ChartLine& line : temperature_lines) {
        const auto column = trace.find(line.column);
        if (!column) continue;
        out += fmt::format("<path class=\"line {}\" d=\"{}\"/>", line.style,
                           path_of(course_of(trace, *column, drawn_points), x, y));
    }
    out += end_labels(trace, y);
    out += strip(trace, "pump", span, x, pump_strip);
    out += strip(trace, "backup", span, x, backup_strip);
    return out + "</svg>";
}

std::string chart_json(const RunResult& result) {
    const traces::Table& trace = result.trace;
    const Span span = span_of(trace);
    std::string out = fmt::format("\"start\":{},\"span\":[{},{}],\"series\":[", trace.start_s(),
                                  span.from_s - trace.start_s(), span.until_s - trace.start_s());
    bool first = true;
    for (const ChartLine& line : temperature_lines) {
        if (!trace.find(line.column)) continue;
        out += joined({first ? "" : ",", course_json(trace, line, 10.0)});
        first = false;
    }
    out += "],\"sun\":";
    out += trace.find(sun_line.column) ? course_json(trace, sun_line, 1.0) : "null";
    out += joined({",\"pump_on\":", stretches_json(trace, "pump_relay"),
                   ",\"pump_reasons\":", stretches_json(trace, "pump_reason"),
                   ",\"backup_reasons\":", stretches_json(trace, "backup_reason"),
                   ",\"words\":{\"pump\":", words_json("pump", firmware::pump_reason_count),
                   ",\"backup\":", words_json("backup", firmware::backup_reason_count), "}"});
    return out;
}

std::string chart_legend(const RunResult& result) {
    std::string out = "<ul class=\"legend\">";
    for (const ChartLine& line : temperature_lines) {
        if (!result.trace.find(line.column)) continue;
        out += fmt::format(
            "<li><svg class=\"swatch\" width=\"34\" height=\"16\" "
            "aria-hidden=\"true\"><path class=\"line {}\" d=\"M1 8H33\"/></svg>{}"
            "</li>",
            line.style, line.label);
    }
    out +=
        "<li><svg class=\"swatch\" width=\"26\" height=\"16\" aria-hidden=\"true\"><rect "
        "class=\"pump-on\" width=\"26\" height=\"16\"/></svg>pump switched on</li>";
    return out + reasons_met(result.trace, "pump") + reasons_met(result.trace, "backup") + "</ul>";
}

}  // namespace noonbench::harness
