// SPDX-License-Identifier: MIT
#include "needle.hpp"

#include "axis.hpp"
#include "text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::harness {
namespace {

constexpr double pivot_x = 220.0;
constexpr double pivot_y = 206.0;
constexpr double radius = 168.0;
constexpr double band = 34.0;       // width of the dial's band
constexpr double end_deg = 84.0;    // the dial ends here; the needle stays within
constexpr double scale_deg = 72.0;  // as far from upright as one half-span

/// A half-span shows twice and a half what lies between stop and start, at least 16 K.
double half_span_k(const Needle& needle) {
    return std::max(16.0, 2.5 * (needle.start_k - needle.stop_k));
}

std::string point(double angle_deg, double at_radius) {
    const double angle = angle_deg * std::numbers::pi / 180.0;
    return fmt::format("{:.1f} {:.1f}", pivot_x + at_radius * std::sin(angle),
                       pivot_y - at_radius * std::cos(angle));
}

std::string band_path(double from_deg, double to_deg) {
    return fmt::format("M{} A{} {} 0 0 1 {} L{} A{} {} 0 0 0 {}Z", point(from_deg, radius), radius,
                       radius, point(to_deg, radius), point(to_deg, radius - band), radius - band,
                       radius - band, point(from_deg, radius - band));
}

std::string ticks(const Needle& needle) {
    std::string out;
    const double middle = 0.5 * (needle.stop_k + needle.start_k);
    const double half = half_span_k(needle) * end_deg / scale_deg;
    for (const double k : round_values(middle - half, middle + half, 5.0)) {
        const double angle = needle_angle_deg(needle, k);
        if (std::abs(angle) >= end_deg) continue;
        out += fmt::format("M{} L{}", point(angle, radius - band), point(angle, radius - band - 7));
    }
    return out;
}

std::string mark(const char* id, const char* word, double k, double angle_deg, bool to_the_left) {
    return fmt::format(
        "<g id=\"{0}\"><path class=\"needle-mark\" d=\"M{1} L{2}\"/><text class=\"loc\" "
        "text-anchor=\"{3}\" x=\"{4:.1f}\" y=\"24\"><tspan class=\"needle-word\">{5}</tspan> "
        "{6} K</text></g>",
        id, point(angle_deg, radius - band - 4), point(angle_deg, radius + 8),
        to_the_left ? "end" : "start",
        pivot_x + (radius + 8) * std::sin(angle_deg * std::numbers::pi / 180.0) +
            (to_the_left ? -4.0 : 4.0),
        word, number_text(k, std::floor(k) == k ? 0 : 1));
}

std::string word_on_band(const char* id, const char* word, double angle_deg) {
    return fmt::format(
        "<text id=\"{}\" class=\"needle-zone\" text-anchor=\"middle\" "
        "transform=\"translate({}) rotate({:.1f})\">{}</text>",
        id, point(angle_deg, radius - 0.65 * band), angle_deg, word);
}

}  // namespace

double needle_angle_deg(const Needle& needle, double gap_k) {
    const double middle = 0.5 * (needle.stop_k + needle.start_k);
    return std::clamp((gap_k - middle) / half_span_k(needle) * scale_deg, -end_deg, end_deg);
}

std::string needle_svg(const Needle& needle) {
    const double stop = needle_angle_deg(needle, needle.stop_k);
    const double start = needle_angle_deg(needle, needle.start_k);
    const double turned = needle.gap_k ? needle_angle_deg(needle, *needle.gap_k) : 0.0;
    std::string out =
        "<svg id=\"needle\" viewBox=\"0 0 440 272\" role=\"img\" aria-label=\"Dial: collector "
        "minus store bottom, with the marks of stop and start\">";
    out += fmt::format("<path id=\"needle-rest\" fill=\"url(#pump-0)\" d=\"{}\"/>",
                       band_path(-end_deg, stop));
    out += fmt::format("<path id=\"needle-keep\" class=\"needle-keep\" d=\"{}\"/>",
                       band_path(stop, start));
    out += fmt::format("<path id=\"needle-run\" fill=\"url(#pump-1)\" d=\"{}\"/>",
                       band_path(start, end_deg));
    out +=
        fmt::format("<path id=\"needle-ticks\" class=\"needle-ticks\" d=\"{}\"/>", ticks(needle));
    out += word_on_band("needle-word-rest", "pump stops", 0.5 * (stop - end_deg));
    out += word_on_band("needle-word-run", "pump starts", 0.5 * (start + end_deg));
    out += mark("needle-stop", "stop", needle.stop_k, stop, true);
    out += mark("needle-start", "start", needle.start_k, start, false);
    out += fmt::format(
        "<g id=\"needle-hand\" transform=\"rotate({:.1f} {} {})\"{}>"
        "<path class=\"needle-hand\" d=\"M{} {} l-7 0 l5.5 -{} l3 0 l5.5 {}z\"/></g>",
        turned, pivot_x, pivot_y, needle.gap_k ? "" : " visibility=\"hidden\"", pivot_x, pivot_y,
        radius - 6, radius - 6);
    out += fmt::format("<circle class=\"needle-hub\" cx=\"{}\" cy=\"{}\" r=\"13\"/>", pivot_x,
                       pivot_y);
    out += fmt::format(
        "<text id=\"needle-gap\" class=\"needle-gap loc\" text-anchor=\"middle\" "
        "x=\"{}\" y=\"262\">{}</text></svg>",
        pivot_x, needle.gap_k ? number_text(*needle.gap_k, 1) + " K" : "no reading");
    return out;
}

}  // namespace noonbench::harness
