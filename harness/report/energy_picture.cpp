// SPDX-License-Identifier: MIT
#include "energy_picture.hpp"

#include "sentences.hpp"
#include "text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace noonbench::harness {
namespace {

// The roof falls to the left from (430, 150) at the angle of the unit vector (0.80, -0.60) that
// points up along it; (-0.60, -0.80) points out of it into the sky.
constexpr double up_x = 0.80;
constexpr double up_y = -0.60;
constexpr double out_x = -0.60;
constexpr double out_y = -0.80;
constexpr double glass_x = 250.0;  // middle of the collector
constexpr double glass_y = 285.0;
constexpr double glass_length = 270.0;
constexpr double store_left = 478.0;
constexpr double store_right = 600.0;
constexpr double store_top = 330.0;
constexpr double store_bottom = 640.0;

/// Nothing that flows is thinner than this; nothing that does not flow is drawn.
double width_of(double kwh, double px_per_kwh) {
    return kwh <= 0.0005 ? 0.0 : std::max(1.5, kwh * px_per_kwh);
}

struct Streams {
    double sun;
    double reflected;
    double collector_loss;
    double pipe_loss;
    double to_store;
    double store_loss;
    double circulation;
    double backup;
    double tapped;
};

Streams streams_of(const Sums& total) {
    return {total.sun_kwh,
            total.sun_kwh - total.absorbed_kwh,
            total.collector_loss_kwh,
            total.pipe_loss_kwh,
            total.to_store_kwh,
            total.store_loss_kwh,
            total.circulation_loss_kwh,
            total.backup_kwh,
            total.tapped_kwh};
}

/// The widest that fits: on the glass sun and losses lie side by side, on the store's right
/// backup, tap and losses.
double scale_of(const Streams& s) {
    const double on_glass = s.sun + std::max(0.0, s.reflected) + std::max(0.0, s.collector_loss);
    const double at_store = std::max(s.backup, 0.0) + std::max(s.tapped, 0.0) +
                            std::max(s.store_loss, 0.0) + std::max(s.circulation, 0.0);
    return std::min((glass_length - 16.0) / std::max(on_glass, 1e-6),
                    190.0 / std::max({at_store, s.to_store, 1e-6}));
}

std::string stream(const char* kind, double width, const std::string& path) {
    if (width <= 0.0) return {};
    return fmt::format(
        "<path class=\"stream\" stroke=\"url(#flow-{})\" stroke-width=\"{:.1f}\" "
        "d=\"{}\"/>",
        kind, width, path);
}

std::string label(double x, double y, const char* anchor, const std::string& words, double kwh) {
    return fmt::format(
        "<text x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}<tspan class=\"loc kwh\" "
        "x=\"{}\" dy=\"27\">{}</tspan></text>",
        x, y, anchor, words, x, kwh_text(kwh));
}

/// A point on the glass, `along` from its lower end, `above` over the roof.
std::string on_glass(double along, double above) {
    const double from_middle = along - glass_length / 2.0;
    return fmt::format("{:.1f} {:.1f}", glass_x + from_middle * up_x + above * out_x,
                       glass_y + from_middle * up_y + above * out_y);
}

std::string house() {
    return "<path class=\"house\" d=\"M96 400 430 150 806 400M140 370V660H756V367\"/>"
           "<path class=\"house floor\" d=\"M40 660H860\"/>"
           "<path class=\"tap\" d=\"M726 330H746V352M736 330V318M724 316H748\"/>";
}

std::string roof_streams(const Streams& s, double px) {
    const double sun = width_of(s.sun, px);
    const double reflected = width_of(s.reflected, px);
    const double lost = width_of(s.collector_loss, px);
    double along = 8.0 + sun / 2.0;
    std::string out =
        stream("sun", sun, joined({"M", on_glass(along, 190.0), "L", on_glass(along, 6.0)}));
    out += joined({"<g class=\"sun-disc\" transform=\"translate(", on_glass(along, 190.0),
                   ")\"><circle r=\"40\"/><path d=\"M0 -52v-14M-52 0h-14M-37 -37l-10 -10M37 -37l10 "
                   "-10M-37 37l-10 10\"/></g>"});
    along += sun / 2.0 + reflected / 2.0;
    out += stream("lost", reflected,
                  joined({"M", on_glass(along, 6.0), "C", on_glass(along, 50.0), " ",
                          on_glass(along + 6.0, 90.0), " ", on_glass(along + 40.0, 120.0)}));
    along += reflected / 2.0 + lost / 2.0;
    out += stream("lost", lost,
                  joined({"M", on_glass(along, 6.0), "C", on_glass(along, 40.0), " ",
                          on_glass(along + 10.0, 70.0), " ", on_glass(along + 70.0, 96.0)}));
    return out;
}

std::string inner_streams(const Streams& s, double px) {
    const double store = width_of(s.to_store, px);
    const double pipe = width_of(s.pipe_loss, px);
    const double middle = glass_length / 2.0;
    std::string out = stream("useful", store,
                             joined({"M", on_glass(middle, -4.0), "C", on_glass(middle, -170.0),
                                     fmt::format(" 330 560 {} 560", store_left + 4.0)}));
    const double beside = middle - store / 2.0 - pipe / 2.0;
    out += stream(
        "lost", pipe,
        joined({"M", on_glass(beside, -4.0), "C", on_glass(beside, -70.0), " 250 470 180 500"}));
    const double backup = width_of(s.backup, px);
    const double tapped = width_of(s.tapped, px);
    const double loss = width_of(s.store_loss, px);
    const double circulation = width_of(s.circulation, px);
    double y = store_top + 14.0 + tapped / 2.0;
    out += stream("useful", tapped, fmt::format("M{} {:.1f}H722", store_right - 4.0, y));
    y += tapped / 2.0 + 8.0 + circulation / 2.0;
    out += stream("lost", circulation, fmt::format("M{} {:.1f}H720", store_right - 4.0, y));
    y = std::max(y + circulation / 2.0 + 10.0 + backup / 2.0, 466.0);
    out += stream("backup", backup, fmt::format("M800 {:.1f}H{}", y, store_right - 4.0));
    y = std::max(y + backup / 2.0 + 14.0 + loss / 2.0, 560.0);
    out += stream("lost", loss,
                  fmt::format("M{} {:.1f}C660 {:.1f} 730 {:.1f} 766 {:.1f}", store_right - 4.0, y,
                              y, y + 6.0, y + 24.0));
    return out;
}

std::string bodies() {
    return fmt::format("<path class=\"glass\" d=\"M{} L{}\"/>", on_glass(0.0, 3.0),
                       on_glass(glass_length, 3.0)) +
           fmt::format("<path class=\"store\" d=\"M{0} {1}q{2} -34 {3} 0V{4}q-{2} 34 -{3} 0Z\"/>",
                       store_left, store_top, (store_right - store_left) / 2.0,
                       store_right - store_left, store_bottom - 14.0);
}

std::string labels(const RunResult& result, const Streams& s) {
    std::string out = label(20.0, 44.0, "start", "sun on the glass", s.sun);
    out += label(392.0, 44.0, "start", "thrown back by the glass", s.reflected);
    out += label(500.0, 118.0, "start", "lost by the collector", s.collector_loss);
    out += label(162.0, 540.0, "start", "lost by pipes", s.pipe_loss);
    out += label(346.0, 612.0, "middle", "into the store", s.to_store);
    out += label(776.0, 330.0, "start", "to the taps", s.tapped);
    if (result.scenario.plant.backup.kind != plant::BackupKind::none) {
        out += label(806.0, 462.0, "start", std::string("from the ") + backup_name(result.scenario),
                     s.backup);
    }
    if (s.circulation > 0.0) out += label(700.0, 424.0, "start", "circulation", s.circulation);
    out += label(776.0, 586.0, "start", "lost by the store", s.store_loss);
    const double change = result.store_change_kwh;
    out += fmt::format(
        "<text x=\"539\" y=\"420\" text-anchor=\"middle\">store</text><text "
        "class=\"loc\" x=\"539\" y=\"452\" text-anchor=\"middle\">{}{} kWh</text>",
        change < 0.0 ? "" : "+", number_text(change, 1));
    return out;
}

std::string row(const char* words, double kwh) {
    return fmt::format("<li>{} <b class=\"loc\">{}</b></li>", words, kwh_text(kwh));
}

}  // namespace

std::string energy_picture(const RunResult& result) {
    const Streams s = streams_of(result.total);
    const double px = scale_of(s);
    std::string out =
        "<svg class=\"energy\" viewBox=\"-20 0 1020 690\" role=\"img\" aria-label=\"Heat from the "
        "sun "
        "through the collector into the store and to the taps; the list beside it tells the same "
        "in numbers\">";
    out += house() + roof_streams(s, px) + inner_streams(s, px) + bodies() + labels(result, s);
    out += "</svg><ul class=\"energy-list\">";
    out += row("Sun on the glass", s.sun) + row("thrown back by the glass", s.reflected) +
           row("lost by the collector", s.collector_loss) +
           row("lost by pipes and pump station", s.pipe_loss) +
           row("through the solar coil into the store", s.to_store) +
           row("from the backup into the store", s.backup) +
           row("lost by the store", s.store_loss) +
           row("lost by hot-water circulation", s.circulation) + row("to the taps", s.tapped) +
           row("kept in store and pipes", result.store_change_kwh);
    return out + "</ul>";
}

}  // namespace noonbench::harness
