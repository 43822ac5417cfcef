// SPDX-License-Identifier: MIT
#include "trade_off_picture.hpp"

#include "harness/report/axis.hpp"
#include "harness/report/scale.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <vector>

namespace noonbench::harness {

namespace {

constexpr double picture_width = 820.0;
constexpr double picture_height = 520.0;
constexpr double room_left = 76.0;
constexpr double room_right = 18.0;
constexpr double room_top = 16.0;
constexpr double room_bottom = 58.0;

/// From the least to the most figure with some room about them.
Scale scale_of_axis(const Chosen& chosen, const FigureAxis& axis, double at_from, double at_until) {
    double least = 0.0;
    double most = 1.0;
    for (std::size_t i = 0; i < chosen.tried.size(); ++i) {
        const double value = chosen.tried[i].*axis.figure;
        least = i == 0 ? value : std::min(least, value);
        most = i == 0 ? value : std::max(most, value);
    }
    const double room = most > least ? 0.05 * (most - least) : 1.0;
    return {least - room, most + room, at_from, at_until};
}

std::string axis_name(const FigureAxis& axis) {
    return fmt::format("{}, {} ({} is better)", axis.name, axis.unit,
                       axis.more_is_better ? "more" : "less");
}

int decimals_for(double step) {
    return step < 0.1 ? 2 : (step < 1.0 ? 1 : 0);
}

std::string x_axis(const Scale& x) {
    const double step = round_step(x.until - x.from, 7);
    std::string out;
    for (const double value : round_values(x.from, x.until, step)) {
        out += fmt::format(
            "<path class=\"grid\" d=\"M{0:.1f} {1:.1f}V{2:.1f}\"/><text class=\"tick\" "
            "x=\"{0:.1f}\" y=\"{3:.1f}\" text-anchor=\"middle\">{4}</text>",
            x(value), room_top, picture_height - room_bottom, picture_height - room_bottom + 18.0,
            number_text(value, decimals_for(step)));
    }
    return out + fmt::format(
                     "<text class=\"end-label\" x=\"{:.1f}\" y=\"{:.1f}\" "
                     "text-anchor=\"middle\">{}</text>",
                     0.5 * (x.at_from + x.at_until), picture_height - 12.0,
                     axis_name(figure_axes[first_x]));
}

std::string y_axis(const Scale& y) {
    const double step = round_step(y.until - y.from, 6);
    std::string out;
    for (const double value : round_values(y.from, y.until, step)) {
        out += fmt::format(
            "<path class=\"grid\" d=\"M{0:.1f} {1:.1f}H{2:.1f}\"/><text class=\"tick\" "
            "x=\"{3:.1f}\" y=\"{4:.1f}\" text-anchor=\"end\">{5}</text>",
            room_left, y(value), picture_width - room_right, room_left - 8.0, y(value) + 4.5,
            number_text(value, decimals_for(step)));
    }
    const double middle = 0.5 * (y.at_from + y.at_until);
    return out + fmt::format(
                     "<text class=\"end-label\" x=\"16\" y=\"{0:.1f}\" "
                     "text-anchor=\"middle\" transform=\"rotate(-90 16 {0:.1f})\">{1}"
                     "</text>",
                     middle, axis_name(figure_axes[first_y]));
}

std::string point(const Chosen& chosen, std::size_t index, const Scale& x, const Scale& y) {
    const TriedChoice& choice = chosen.tried[index];
    static constexpr const char* classes[] = {"tried", "breaks", "in-set", "winner"};
    const Mark mark = mark_of(chosen, index);
    return fmt::format(
        "<g class=\"point\" role=\"img\" tabindex=\"-1\" data-choice=\"{}\" transform=\""
        "translate({:.1f} {:.1f})\" aria-label=\"{}\"><path class=\"mark-{}\" d=\"{}\"/>{}</g>",
        index, x(choice.*figure_axes[first_x].figure), y(choice.*figure_axes[first_y].figure),
        escaped(standing_text(chosen, index) + ": " + choice_text(chosen, choice)),
        classes[static_cast<std::size_t>(mark)], path_of(mark),
        chosen.delivered == index
            ? fmt::format("<path class=\"mark-delivered\" d=\"{}\"/>", delivered_path)
            : std::string());
}

}  // namespace

const char* const delivered_path = "M0 -13L12 9H-12Z";

Mark mark_of(const Chosen& chosen, std::size_t index) {
    if (chosen.winner == index) return Mark::winner;
    if (chosen.tried.at(index).in_set) return Mark::in_set;
    return chosen.tried[index].holds ? Mark::tried : Mark::breaks_limit;
}

const char* words_of(Mark mark) {
    switch (mark) {
        case Mark::tried:
            return "tried";
        case Mark::breaks_limit:
            return "breaks a limit";
        case Mark::in_set:
            return "as good as the best";
        case Mark::winner:
            return "chosen";
    }
    return "";
}

const char* path_of(Mark mark) {
    switch (mark) {
        case Mark::tried:
            return "M4 0A4 4 0 1 1 -4 0A4 4 0 1 1 4 0Z";
        case Mark::breaks_limit:
            return "M-4 -4L4 4M-4 4L4 -4";
        case Mark::in_set:
            return "M-5 -5H5V5H-5Z";
        case Mark::winner:
            return "M0 -12L3.4 -3.9L12 -3.7L5.4 1.8L7.6 10.2L0 5.4L-7.6 10.2L-5.4 1.8L-12 -3.7"
                   "L-3.4 -3.9Z";
    }
    return "";
}

std::string standing_text(const Chosen& chosen, std::size_t index) {
    std::string text = words_of(mark_of(chosen, index));
    if (chosen.delivered == index) text += ", as delivered";
    return text;
}

std::string trade_off_picture(const Chosen& chosen) {
    const Scale x =
        scale_of_axis(chosen, figure_axes[first_x], room_left, picture_width - room_right);
    const Scale y =
        scale_of_axis(chosen, figure_axes[first_y], picture_height - room_bottom, room_top);
    std::vector<std::size_t> order(chosen.tried.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto rank = [&](std::size_t index) {
        const int mark = static_cast<int>(mark_of(chosen, index));
        return mark + (chosen.delivered == index ? 10 : 0);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    std::string points;
    for (const std::size_t index : order) points += point(chosen, index, x, y);
    return fmt::format(
        "<svg id=\"plot\" viewBox=\"0 0 {0:.0f} {1:.0f}\" role=\"group\" "
        "aria-labelledby=\"plot-heading\" aria-describedby=\"keys\"><g id=\"axes\" "
        "aria-hidden=\"true\">{2}{3}<rect class=\"frame\" x=\"{4:.1f}\" y=\"{5:.1f}\" "
        "width=\"{6:.1f}\" height=\"{7:.1f}\"/></g><circle id=\"ring\" r=\"17\" cx=\"-50\" "
        "cy=\"-50\"/><g id=\"points\">{8}</g></svg>",
        picture_width, picture_height, x_axis(x), y_axis(y), room_left, room_top,
        picture_width - room_left - room_right, picture_height - room_top - room_bottom, points);
}

}  // namespace noonbench::harness
