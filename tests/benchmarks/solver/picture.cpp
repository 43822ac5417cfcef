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
constexpr double bars_until = 800.0;   // figures stand right of it
constexpr double line_height = 20.0;
constexpr double title_height = 30.0;
constexpr double top = 64.0;
constexpr double growth_height = 320.0;

constexpr std::string_view style = R"(<style>
svg { background: #ffffff; font: 13px system-ui, sans-serif; }
text { fill: #22272e; } .soft { fill: #59636e; } .title { font-weight: 600; }
.big { font-size: 18px; font-weight: 600; }
.grid { stroke: #d5dbe1; stroke-width: 1; } .axis { stroke: #59636e; stroke-width: 1; }
.own { fill: #b4530a; } .other { fill: #7d95ad; }
.l0 { stroke: #b4530a; } .l1 { stroke: #1f6f8b; } .l2 { stroke: #6b4fa0; }
.f0 { fill: #b4530a; } .f1 { fill: #1f6f8b; } .f2 { fill: #6b4fa0; }
.line { fill: none; stroke-width: 2; } .even { stroke: #59636e; stroke-dasharray: 4 4; }
@media (prefers-color-scheme: dark) {
svg { background: #14181d; } text { fill: #e4e8ec; } .soft { fill: #a3adb8; }
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

std::string bars(const Comparison& comparison, const LogScale& scale, double y) {
    std::string drawn = text_at(20.0, y + 16.0, "title", "start", comparison.title);
    y += title_height;
    const double foot = y + line_height * static_cast<double>(comparison.rows.size());
    for (int power = scale.from; power <= scale.until; ++power) {
        const double x = scale.place(std::pow(10.0, power));
        drawn += line_at("grid", x, y, x, foot);
    }
    bool own = true;
    for (const ResultRow& row : comparison.rows) {
        const double end = scale.place(std::max(1e-6, row.s_per_year));
        drawn += text_at(names_until - 8.0, y + 14.0, "", "end", row.name);
        drawn += fmt::format(
            R"(<rect class="{}" x="{:.1f}" y="{:.1f}" width="{:.1f}" height="14" rx="2"/>)"
            "\n",
            own ? "own" : "other", names_until, y + 3.0, std::max(1.0, end - names_until));
        drawn +=
            text_at(end + 6.0, y + 14.0, "soft", "start",
                    fmt::format("{:.3g} s{}  ({:.3g} x)", row.s_per_year, row.scaled ? "*" : "",
                                row.s_per_year / comparison.rows.front().s_per_year));
        y += line_height;
        own = false;
    }
    return drawn;
}

std::string seconds_axis(const LogScale& scale, double y) {
    std::string drawn = line_at("axis", scale.at, y, scale.end, y);
    for (int power = scale.from; power <= scale.until; ++power) {
        const double x = scale.place(std::pow(10.0, power));
        drawn += line_at("axis", x, y, x, y + 5.0);
        drawn += text_at(x, y + 19.0, "soft", "middle", fmt::format("{:g}", std::pow(10.0, power)));
    }
    drawn += text_at((scale.at + scale.end) / 2.0, y + 38.0, "", "middle",
                     "CPU seconds a simulated year (logarithmic; * scaled from fewer days)");
    return drawn;
}

/// Both axes in multiples of each line's first point.
std::string growth(const std::vector<CostLine>& lines, double y) {
    double most = 2.0;
    for (const CostLine& line : lines) {
        for (const CostPoint& p : line.points) {
            most = std::max(
                {most, p.size / line.points.front().size, p.cpu_s / line.points.front().cpu_s});
        }
    }
    most = std::ceil(most);
    const double left = 80.0;
    const double right = 480.0;
    const double head = y + 34.0;
    const double foot = y + growth_height - 60.0;
    const auto across = [&](double times) {
        return left + (times - 1.0) / (most - 1.0) * (right - left);
    };
    const auto down = [&](double times) {
        return foot - (times - 1.0) / (most - 1.0) * (foot - head);
    };
    std::string drawn = text_at(20.0, y + 16.0, "title", "start", "How cost grows with size");
    const double step = most > 12.0 ? std::ceil(most / 8.0) : 1.0;
    for (double times = 1.0; times <= most; times += step) {
        drawn += line_at("grid", left, down(times), right, down(times));
        drawn += line_at("grid", across(times), head, across(times), foot);
        drawn += text_at(left - 8.0, down(times) + 4.0, "soft", "end", fmt::format("{:g}", times));
        drawn += text_at(across(times), foot + 18.0, "soft", "middle", fmt::format("{:g}", times));
    }
    drawn += line_at("even", across(1.0), down(1.0), across(most), down(most));
    for (std::size_t l = 0; l < lines.size(); ++l) {
        const CostLine& line = lines[l];
        std::string path;
        std::string dots;
        for (const CostPoint& p : line.points) {
            const double px = across(p.size / line.points.front().size);
            const double py = down(std::max(1.0, p.cpu_s / line.points.front().cpu_s));
            path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : " L", px, py);
            dots +=
                fmt::format(R"(<circle class="f{}" cx="{:.1f}" cy="{:.1f}" r="4"/>)", l, px, py);
        }
        drawn += fmt::format(R"(<path class="line l{}" d="{}"/>{})"
                             "\n",
                             l, path, dots);
        const double key_y = head + 16.0 + 44.0 * static_cast<double>(l);
        drawn += fmt::format(R"(<circle class="f{}" cx="510" cy="{:.1f}" r="5"/>)", l, key_y - 4.0);
        const std::size_t comma = line.name.find(", ");
        drawn += text_at(524.0, key_y, "", "start", line.name.substr(0, comma));
        drawn += text_at(
            524.0, key_y + 17.0, "soft", "start",
            fmt::format("{}first point {:g}: {:.3g} s",
                        comma == std::string::npos ? "" : line.name.substr(comma + 2) + "; ",
                        line.points.front().size, line.points.front().cpu_s));
    }
    drawn += line_at("even", 500.0, head + 148.0, 520.0, head + 148.0);
    drawn += text_at(524.0, head + 152.0, "soft", "start", "in proportion");
    drawn += text_at((left + right) / 2.0, foot + 40.0, "", "middle",
                     "size, in multiples of the first point");
    drawn += fmt::format(
        "<text transform='translate(28 {:.1f}) rotate(-90)' text-anchor='middle'>"
        "CPU time, in multiples</text>\n",
        (head + foot) / 2.0);
    return drawn;
}

}  // namespace

std::string picture_of(const Results& results) {
    std::string body = text_at(20.0, 30.0, "big", "start", "What a simulated year costs");
    body += text_at(20.0, 50.0, "soft", "start",
                    "user CPU seconds, one thread; in brackets multiples of the strides' time in "
                    "the same run");
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
    return fmt::format(
               R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0:.0f} {1:.0f}" width="{0:.0f}" height="{1:.0f}" role="img">)"
               "\n",
               width, y) +
           std::string(style) + body + "</svg>\n";
}

}  // namespace noonbench::benchmarks
