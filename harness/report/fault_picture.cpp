// SPDX-License-Identifier: MIT
#include "fault_picture.hpp"

#include "axis.hpp"
#include "scale.hpp"
#include "tables.hpp"
#include "text.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>

namespace noonbench::harness {
namespace {

// Where things lie. The letters are as large as a phone of 360 px needs.
constexpr double width = 470.0;
constexpr double left = 34.0;
constexpr double right = left + double{picture_cells};
constexpr double sample = right + 6.0;  // a piece of the line before its name
constexpr double sample_end = sample + 18.0;
constexpr double words = sample_end + 5.0;
constexpr double lost_top = 10.0;
constexpr double lost_height = 5.0;
constexpr double temperatures_top = 18.0;
constexpr double temperatures_bottom = 166.0;
constexpr double pump_top = 175.0;
constexpr double pump_height = 15.0;
constexpr double twin_pump_top = 194.0;
constexpr double twin_pump_height = 9.0;
constexpr double gauge_top = 214.0;
constexpr double gauge_height = 44.0;
constexpr double between_labels = 16.0;

/// Where the lowest thing above the clock ends.
double foot_of(const SeenFault& seen, bool with_gauge) {
    if (with_gauge) return gauge_top + gauge_height;
    return seen.twin ? twin_pump_top + twin_pump_height : pump_top + pump_height;
}

struct Extent {
    double least = std::numeric_limits<double>::infinity();
    double most = -std::numeric_limits<double>::infinity();
    void take(const Trail& trail) {
        for (const TrailPoint& point : trail) {
            if (!point.value) continue;
            least = std::min(least, *point.value);
            most = std::max(most, *point.value);
        }
    }
    [[nodiscard]] double size() const { return most > least ? most - least : 0.0; }
};

/// To round figures, between two heights of the drawing.
Scale round_scale(Extent extent, double step, double at_least, double at_most) {
    const double from = std::floor(extent.least / step) * step;
    const double until = std::max(from + step, std::ceil(extent.most / step) * step);
    return {from, until, at_least, at_most};
}

Scale temperature_scale(const SeenFault& seen) {
    Extent extent{0.0, 10.0};
    for (const Trail& line : seen.fault.picture.lines) extent.take(line);
    if (seen.twin && !seen.twin->picture.lines.empty())
        extent.take(seen.twin->picture.lines.front());
    return round_scale(extent, round_step(extent.size(), 4), temperatures_bottom, temperatures_top);
}

/// A level line; its figure stands `drop` below it.
std::string across(const Scale& y, double value, int decimals, double drop = 4.0) {
    return fmt::format(
        "<path class=\"grid\" d=\"M{} {:.1f}H{}\"/><text class=\"tick\" text-anchor=\"end\" "
        "x=\"{}\" y=\"{:.1f}\">{}</text>",
        left, y(value), right, left - 4.0, y(value) + drop, number_text(value, decimals));
}

std::string temperature_grid(const Scale& y) {
    std::string out;
    for (const double value : round_values(y.from, y.until, round_step(y.until - y.from, 4)))
        out += across(y, value, 0);
    return out + fmt::format("<text class=\"tick\" x=\"0\" y=\"11\">°C</text>");
}

/// Days by their number alone after the first, so that a week has room for each.
std::string time_axis(const RunPicture& picture, const Scale& x, double foot) {
    constexpr std::int64_t few_days_s = 172800;
    const bool long_run = picture.until_s - picture.from_s > few_days_s;
    std::string out;
    std::string month;
    for (const std::int64_t at_s : time_ticks(picture.from_s, picture.until_s, long_run ? 9 : 6)) {
        const double here = x(static_cast<double>(at_s));
        std::string text = tick_text(at_s);
        const CivilDate date = date_of(at_s);
        if (long_run && month == month_text(date.month)) text = fmt::format("{}", date.day);
        month = month_text(date.month);
        out += fmt::format(
            "<path class=\"grid\" d=\"M{0:.1f} {1}V{2}\"/><text class=\"tick\" "
            "text-anchor=\"middle\" x=\"{0:.1f}\" y=\"{3}\">{4}</text>",
            here, temperatures_top, foot, foot + 14.0, text);
    }
    return out;
}

std::string path_of(const Trail& trail, const Scale& x, const Scale& y) {
    std::string path;
    bool pen_is_down = false;
    for (const TrailPoint& point : trail) {
        if (point.value)
            path += fmt::format("{}{:.1f} {:.1f}", pen_is_down ? "L" : "M",
                                x(static_cast<double>(point.at_s)), y(*point.value));
        pen_is_down = point.value.has_value();
    }
    return path;
}

std::string line(const Trail& trail, const Scale& x, const Scale& y, std::string_view style) {
    return fmt::format("<path class=\"line {}\" d=\"{}\"/>", style, path_of(trail, x, y));
}

/// A piece of the line and its name, at the right.
std::string label(double at, std::string_view style, std::string_view text) {
    return fmt::format(
        "<path class=\"line {0}\" d=\"M{1} {2:.1f}H{3}\"/><text class=\"end-label {0}\" x=\"{4}\" "
        "y=\"{5:.1f}\">{6}</text>",
        style, sample, at, sample_end, words, at + 4.0, text);
}

struct Label {
    double at = 0.0;
    std::string style;
    std::string text;
};

/// "store bottom" as "bottom", which leaves room for a word.
std::string short_name(const std::string& name) {
    return name.substr(name.rfind(' ') + 1);
}

/// At the height of the last value; a reading that is gone at the end says so.
void add_label(std::vector<Label>& labels, const Trail& trail, const Scale& y, Label of) {
    const auto last = std::find_if(trail.rbegin(), trail.rend(),
                                   [](const TrailPoint& point) { return point.value.has_value(); });
    if (last == trail.rend()) {
        of.at = temperatures_bottom;
        of.text = short_name(of.text) + ": none";
    } else {
        of.at = y(*last->value);
        if (last != trail.rbegin()) of.text = short_name(of.text) + ": lost";
    }
    labels.push_back(std::move(of));
}

/// Pushed apart so that they can be read: upwards from the lowest, then down from the top.
std::string labels_text(std::vector<Label> labels) {
    std::stable_sort(labels.begin(), labels.end(),
                     [](const Label& a, const Label& b) { return a.at > b.at; });
    double free = temperatures_bottom;
    for (Label& each : labels) {
        each.at = std::min(each.at, free);
        free = each.at - between_labels;
    }
    free = temperatures_top;
    for (auto each = labels.rbegin(); each != labels.rend(); ++each) {
        each->at = std::max(each->at, free);
        free = each->at + between_labels;
    }
    std::string out;
    for (const Label& each : labels) out += label(each.at, each.style, each.text);
    return out;
}

std::string temperatures(const SeenFault& seen, const Scale& x) {
    const Scale y = temperature_scale(seen);
    std::string out = temperature_grid(y);
    std::vector<Label> labels;
    if (seen.twin && !seen.twin->picture.lines.empty()) {
        const std::string style = std::string(picture_lines.front().style) + " twin";
        const Trail& trail = seen.twin->picture.lines.front();
        out += line(trail, x, y, style);
        add_label(labels, trail, y, {0.0, style, "healthy"});
    }
    for (std::size_t i = 0; i < seen.fault.picture.lines.size(); ++i) {
        const Trail& trail = seen.fault.picture.lines[i];
        out += line(trail, x, y, picture_lines[i].style);
        add_label(labels, trail, y, {0.0, picture_lines[i].style, picture_lines[i].label});
    }
    return out + labels_text(std::move(labels));
}

/// All boxes of one kind as one path.
std::string cell_boxes(const std::vector<Cell>& cells, Cell kind, double top, double high) {
    std::string path;
    for (std::size_t i = 0; i < cells.size();) {
        std::size_t end = i + 1;
        while (end < cells.size() && cells[end] == cells[i]) ++end;
        if (cells[i] == kind)
            path += fmt::format("M{} {}h{}v{}h-{}z", left + static_cast<double>(i), top, end - i,
                                high, end - i);
        i = end;
    }
    return path;
}

std::string pump_band(const RunPicture& picture, double top, double high, const char* name) {
    std::string out;
    for (const auto& [kind, pattern] :
         {std::pair{Cell::on, "band-on"}, std::pair{Cell::both, "band-both"}}) {
        const std::string path = cell_boxes(picture.pump, kind, top, high);
        if (!path.empty()) out += fmt::format("<path fill=\"url(#{})\" d=\"{}\"/>", pattern, path);
    }
    return out + fmt::format(
                     "<rect class=\"frame\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/><text "
                     "class=\"tick\" x=\"{}\" y=\"{}\">{}</text>",
                     left, top, picture_cells, high, sample, top + high / 2.0 + 4.0, name);
}

/// Where a sensor has no reading, be it too short for a gap in its line.
std::string lost_band(const RunPicture& picture) {
    const std::string path = cell_boxes(picture.lost, Cell::on, lost_top, lost_height) +
                             cell_boxes(picture.lost, Cell::both, lost_top, lost_height);
    if (path.empty()) return {};
    return fmt::format(
        "<path class=\"lost\" d=\"{}\"/><text class=\"tick\" x=\"{}\" y=\"{}\">no reading</text>",
        path, sample, lost_top + 3.0);
}

/// At least a tenth of a bar high, so that a calm needle stays a calm line.
std::string gauge_strip(const SeenFault& seen, const Scale& x) {
    Extent extent;
    extent.take(seen.fault.picture.gauge);
    if (seen.twin) extent.take(seen.twin->picture.gauge);
    const double step = std::max(0.1, round_step(std::max(extent.size(), 0.1), 8));
    const Scale y = round_scale(extent, step, gauge_top + gauge_height, gauge_top);
    const int decimals = step < 1.0 ? 1 : 0;
    std::string out = across(y, y.from, decimals, 0.0) + across(y, y.until, decimals, 8.0);
    if (seen.twin) out += line(seen.twin->picture.gauge, x, y, "gauge twin");
    out += line(seen.fault.picture.gauge, x, y, "gauge");
    return out + label(gauge_top + 12.0, "gauge", "gauge, bar") +
           fmt::format("<text class=\"tick\" x=\"{}\" y=\"{}\">({})</text>", sample,
                       gauge_top + 33.0, words_of(seen.fault.picture.gauge_visible));
}

/// What the picture shows, for those who do not see it.
std::string told(const SeenFault& seen) {
    const auto starts = [](const SeenRun& run) {
        return fmt::format("{} pump {}", run.total.pump_starts,
                           run.total.pump_starts == 1 ? "start" : "starts");
    };
    Extent collector;
    if (!seen.fault.picture.lines.empty()) collector.take(seen.fault.picture.lines.front());
    std::string out = "Course of the run: ";
    out += collector.most < collector.least
               ? std::string("no reading of the collector")
               : fmt::format("collector reading {} to {} °C", number_text(collector.least, 0),
                             number_text(collector.most, 0));
    out += ", " + starts(seen.fault);
    if (seen.twin) out += "; healthy: " + starts(*seen.twin);
    return out;
}

std::string pattern(const char* id, const char* marks) {
    return fmt::format(
        "<pattern id=\"{}\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\"><rect "
        "class=\"tint-run\" width=\"8\" height=\"8\"/><path class=\"mark\" d=\"{}\"/></pattern>",
        id, marks);
}

}  // namespace

bool gauge_tells(const SeenFault& seen) {
    const auto& verdicts = seen.fault.verdicts;
    Extent here;
    here.take(seen.fault.picture.gauge);
    if (here.most < here.least) return false;
    if (std::any_of(verdicts.begin(), verdicts.end(), [](const SeenVerdict& v) {
            return v.text.find("gauge_bar") != std::string::npos;
        }))
        return true;
    if (!seen.twin || seen.fault.scenario.plant.loop.hydraulics != plant::Hydraulics::solved)
        return false;
    constexpr double finest_bar = 0.05;  // what an eye reads on a gauge
    Extent healthy;
    healthy.take(seen.twin->picture.gauge);
    return here.size() > healthy.size() + finest_bar;
}

std::string fault_picture(const SeenFault& seen) {
    const RunPicture& picture = seen.fault.picture;
    const bool with_gauge = gauge_tells(seen);
    const double foot = foot_of(seen, with_gauge);
    const Scale x{static_cast<double>(picture.from_s), static_cast<double>(picture.until_s), left,
                  right};
    std::string out = fmt::format(
        "<svg class=\"fault-picture\" viewBox=\"0 0 {} {}\" role=\"img\" "
        "aria-label=\"{}\">",
        width, foot + 20.0, escaped(told(seen)));
    out += time_axis(picture, x, foot);
    out += temperatures(seen, x);
    out += lost_band(picture);
    out += pump_band(picture, pump_top, pump_height, "pump on");
    if (seen.twin) out += pump_band(seen.twin->picture, twin_pump_top, twin_pump_height, "healthy");
    if (with_gauge) out += gauge_strip(seen, x);
    return out + "</svg>";
}

std::string picture_patterns() {
    return "<defs>" + pattern("band-on", "M-2 2 2 -2M-2 10 10 -2M6 10 10 6") +
           pattern("band-both", "M2 0v8M6 0v8") + "</defs>";
}

}  // namespace noonbench::harness
