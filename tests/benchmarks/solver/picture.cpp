// SPDX-License-Identifier: MIT
// One drawing: what a simulated year costs by each way (logarithmic), and how cost grows with size.
#include "results.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace noonbench::benchmarks {
namespace {

constexpr double width = 960.0;
constexpr double names_until = 300.0;  // names of the ways stand left of it
constexpr double bars_until = 690.0;   // figures stand right of it
constexpr double line_height = 20.0;
constexpr double title_height = 30.0;
constexpr double top = 84.0;
constexpr double growth_height = 320.0;

constexpr std::string_view style = R"(<style>
svg { background: #ffffff; font: 13px system-ui, sans-serif; }
text { fill: #22272e; } .soft { fill: #59636e; } .title { font-weight: 600; }
.halo { paint-order: stroke; stroke: #ffffff; stroke-width: 4px; }
.big { font-size: 18px; font-weight: 600; }
.grid { stroke: #d5dbe1; stroke-width: 1; } .axis { stroke: #59636e; stroke-width: 1; }
.own { fill: #b4530a; } .other { fill: #7d95ad; }
.l0 { stroke: #b4530a; } .l1 { stroke: #1f6f8b; } .l2 { stroke: #6b4fa0; }
.f0 { fill: #b4530a; } .f1 { fill: #1f6f8b; } .f2 { fill: #6b4fa0; }
.line { fill: none; stroke-width: 2; } .even { stroke: #59636e; stroke-dasharray: 4 4; }
@media (prefers-color-scheme: dark) {
svg { background: #14181d; } .halo { stroke: #14181d; } text { fill: #e4e8ec; } .soft { fill: #a3adb8; }
.grid { stroke: #313a44; } .axis { stroke: #a3adb8; } .even { stroke: #a3adb8; }
.own { fill: #f0924a; } .other { fill: #66809a; }
.l0 { stroke: #f0924a; } .l1 { stroke: #5fbcd6; } .l2 { stroke: #b79df0; }
.f0 { fill: #f0924a; } .f1 { fill: #5fbcd6; } .f2 { fill: #b79df0; }
}
</style>
)";

std::string escaped(std::string_view text) {
    std::string safe;
    safe.reserve(text.size());
    for (const char c : text) {
        if (c == '<') {
            safe += "&lt;";
        } else if (c == '&') {
            safe += "&amp;";
        } else {
            safe += c;
        }
    }
    return safe;
}

std::string text_at(double x, double y, std::string_view kind, std::string_view anchor,
                    std::string_view text) {
    return fmt::format(R"(<text x="{:.1f}" y="{:.1f}" class="{}" text-anchor="{}">{}</text>)"
                       "\n",
                       x, y, kind, anchor, escaped(text));
}

std::string line_at(std::string_view kind, double x1, double y1, double x2, double y2) {
    return fmt::format(R"(<line class="{}" x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}"/>)"
                       "\n",
                       kind, x1, y1, x2, y2);
}

/// Powers of ten around all values.
struct LogScale {
    int from = 0;  // power of ten
    int until = 1;
    double at = 0.0;  // where it begins and ends on the drawing
    double end = 1.0;

    [[nodiscard]] double place(double value) const {
        const double share = (std::log10(value) - from) / (until - from);
        return at + share * (end - at);
    }
    /// 1, 2 and 5 of each power.
    [[nodiscard]] std::vector<double> ticks() const {
        std::vector<double> all;
        all.reserve(static_cast<std::size_t>(3 * (until - from) + 1));
        for (int power = from; power < until; ++power) {
            for (const double digit : {1.0, 2.0, 5.0}) all.push_back(digit * std::pow(10.0, power));
        }
        all.push_back(std::pow(10.0, until));
        return all;
    }
};

LogScale scale_of(const std::vector<Comparison>& comparisons) {
    double least = 1e9;
    double most = 1e-9;
    for (const Comparison& comparison : comparisons) {
        for (const ResultRow& row : comparison.rows) {
            least = std::min(least, std::max(1e-6, row.s_per_year));
            most = std::max(most, row.s_per_year);
        }
    }
    LogScale scale{static_cast<int>(std::floor(std::log10(least))),
                   static_cast<int>(std::ceil(std::log10(most))), names_until, bars_until};
    scale.until = std::max(scale.until, scale.from + 1);
    return scale;
}

double height_of(const Comparison& comparison) {
    return title_height + 16.0 + line_height * static_cast<double>(comparison.rows.size());
}

/// "3.35 s*, 1.62 x, 92.0 %, 2 alone"
std::string words_of(const ResultRow& row, const Comparison& comparison) {
    const int alone = row.switchings.unmatched;
    return fmt::format("{:.3g} s{}, {:.2f} x, {:.1f} %{}", row.s_per_year, row.scaled ? "*" : "",
                       row.s_per_year / comparison.rows.front().s_per_year,
                       row.switchings.within_1s_pct,
                       alone > 0 ? fmt::format(", {} alone", alone) : std::string{});
}

std::string bars(const Comparison& comparison, const LogScale& scale, double y) {
    std::string drawn = text_at(20.0, y + 16.0, "title", "start", comparison.title);
    y += title_height;
    const double foot = y + line_height * static_cast<double>(comparison.rows.size());
    for (const double tick : scale.ticks()) {
        drawn += line_at("grid", scale.place(tick), y, scale.place(tick), foot);
    }
    bool own = true;
    for (const ResultRow& row : comparison.rows) {
        const double end = scale.place(std::max(1e-6, row.s_per_year));
        drawn += text_at(names_until - 8.0, y + 14.0, "", "end", row.name);
        drawn += fmt::format(
            R"(<rect class="{}" x="{:.1f}" y="{:.1f}" width="{:.1f}" height="14" rx="2"/>)"
            "\n",
            own ? "own" : "other", names_until, y + 3.0, std::max(1.0, end - names_until));
        drawn += text_at(end + 6.0, y + 14.0, "soft halo", "start", words_of(row, comparison));
        y += line_height;
        own = false;
    }
    return drawn;
}

std::string seconds_axis(const LogScale& scale, double y) {
    std::string drawn = line_at("axis", scale.at, y, scale.end, y);
    for (const double tick : scale.ticks()) {
        const double x = scale.place(tick);
        drawn += line_at("axis", x, y, x, y + 5.0);
        drawn += text_at(x, y + 19.0, "soft", "middle", fmt::format("{:g}", tick));
    }
    drawn += text_at((scale.at + scale.end) / 2.0, y + 38.0, "", "middle",
                     "CPU seconds a simulated year (logarithmic; * scaled from fewer days)");
    return drawn;
}

/// Both axes in multiples of each line's first point, from 1 to `most`.
struct GrowthFrame {
    double most = 2.0;
    double left = 80.0;
    double right = 480.0;
    double head = 0.0;
    double foot = 0.0;

    [[nodiscard]] double across(double times) const {
        return left + (times - 1.0) / (most - 1.0) * (right - left);
    }
    [[nodiscard]] double down(double times) const {
        return foot - (times - 1.0) / (most - 1.0) * (foot - head);
    }
};

GrowthFrame frame_of(const std::vector<CostLine>& lines, double y) {
    GrowthFrame frame;
    for (const CostLine& line : lines) {
        const CostPoint& first = line.points.front();
        for (const CostPoint& p : line.points) {
            frame.most = std::max({frame.most, p.size / first.size, p.cpu_s / first.cpu_s});
        }
    }
    frame.most = std::ceil(frame.most);
    frame.head = y + 34.0;
    frame.foot = y + growth_height - 60.0;
    return frame;
}

std::string growth_axes(const GrowthFrame& frame) {
    std::string drawn;
    const double step = std::ceil(frame.most / 10.0);
    for (double times = 1.0; times <= frame.most; times += step) {
        const double x = frame.across(times);
        const double y = frame.down(times);
        const std::string word = fmt::format("{:g}", times);
        drawn += line_at("grid", frame.left, y, frame.right, y);
        drawn += line_at("grid", x, frame.head, x, frame.foot);
        drawn += text_at(frame.left - 8.0, y + 4.0, "soft", "end", word);
        drawn += text_at(x, frame.foot + 18.0, "soft", "middle", word);
    }
    drawn += line_at("even", frame.across(1.0), frame.down(1.0), frame.across(frame.most),
                     frame.down(frame.most));
    drawn += text_at((frame.left + frame.right) / 2.0, frame.foot + 40.0, "", "middle",
                     "size, in multiples of the first point");
    drawn += fmt::format(
        "<text transform='translate(28 {:.1f}) rotate(-90)' text-anchor='middle'>"
        "CPU time, in multiples</text>\n",
        (frame.head + frame.foot) / 2.0);
    return drawn;
}

std::string growth_line(const CostLine& line, const GrowthFrame& frame, std::size_t number) {
    const CostPoint& first = line.points.front();
    std::string path;
    std::string dots;
    for (const CostPoint& p : line.points) {
        const double x = frame.across(p.size / first.size);
        const double y = frame.down(std::max(1.0, p.cpu_s / first.cpu_s));
        path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : " L", x, y);
        dots += fmt::format(R"(<circle class="f{}" cx="{:.1f}" cy="{:.1f}" r="4"/>)", number, x, y);
    }
    return fmt::format(R"(<path class="line l{}" d="{}"/>{})"
                       "\n",
                       number, path, dots);
}

std::string growth_key(const CostLine& line, double y, std::size_t number) {
    const CostPoint& first = line.points.front();
    const std::size_t comma = line.name.find(", ");
    const std::string rest =
        comma == std::string::npos ? std::string{} : line.name.substr(comma + 2) + "; ";
    return fmt::format(R"(<circle class="f{}" cx="510" cy="{:.1f}" r="5"/>)", number, y - 4.0) +
           text_at(524.0, y, "", "start", line.name.substr(0, comma)) +
           text_at(524.0, y + 17.0, "soft", "start",
                   fmt::format("{}first point {:g}: {:.3g} s", rest, first.size, first.cpu_s));
}

std::string growth(const std::vector<CostLine>& lines, double y) {
    const GrowthFrame frame = frame_of(lines, y);
    std::string drawn = text_at(20.0, y + 16.0, "title", "start", "How cost grows with size");
    drawn += growth_axes(frame);
    double key_y = frame.head + 16.0;
    for (std::size_t l = 0; l < lines.size(); ++l) {
        drawn += growth_line(lines[l], frame, l) + growth_key(lines[l], key_y, l);
        key_y += 44.0;
    }
    return drawn + line_at("even", 500.0, key_y - 4.0, 520.0, key_y - 4.0) +
           text_at(524.0, key_y, "soft", "start", "in proportion");
}

std::string list_of(const std::vector<Figure>& figures, double y) {
    std::string drawn;
    for (const Figure& figure : figures) {
        drawn += text_at(20.0, y + 14.0, "", "start",
                         fmt::format("{}: {:.4g} {}", figure.name, figure.value, figure.unit));
        y += line_height;
    }
    return drawn;
}

}  // namespace

std::string picture_of(const Results& results) {
    std::string body = text_at(20.0, 30.0, "big", "start", "What a simulated year costs");
    body += text_at(20.0, 50.0, "soft", "start",
                    "CPU seconds of one thread, and as multiple of the strides' in the same run;");
    body += text_at(20.0, 67.0, "soft", "start",
                    "share of the pump's switchings within 1 s of the truth's; \"alone\": without "
                    "partner within 300 s");
    double y = top;
    if (!results.comparisons.empty()) {
        const LogScale scale = scale_of(results.comparisons);
        for (const Comparison& comparison : results.comparisons) {
            body += bars(comparison, scale, y);
            y += height_of(comparison);
        }
        body += seconds_axis(scale, y - 8.0);
        y += 56.0;
    }
    if (!results.costs.empty()) {
        body += growth(results.costs, y);
        y += growth_height;
    }
    body += list_of(results.figures, y);
    if (!results.figures.empty())
        y += line_height * static_cast<double>(results.figures.size() + 1);
    return fmt::format(
               R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0:.0f} {1:.0f}" width="{0:.0f}" height="{1:.0f}" role="img">)"
               "\n",
               width, y) +
           std::string(style) + body + "</svg>\n";
}

}  // namespace noonbench::benchmarks
