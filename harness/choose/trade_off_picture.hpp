// SPDX-License-Identifier: MIT
// The figures that can be drawn against each other, and the first picture.
#pragma once
#include "chosen.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace noonbench::harness {

/// One of the figures, the only list of them: axes, table and the page's data go by it.
struct FigureAxis {
    const char* name;
    const char* unit;
    double TriedChoice::*figure;
    int decimals;
    bool more_is_better;
};
inline constexpr std::array<FigureAxis, 6> figure_axes{{
    {"objective", "kWh a year", &TriedChoice::objective_kwh, 0, true},
    {"backup heat saved", "kWh a year", &TriedChoice::saving_kwh, 0, true},
    {"pump electricity", "kWh a year", &TriedChoice::pump_electricity_kwh, 1, false},
    {"pump starts", "a day", &TriedChoice::starts_a_day, 1, false},
    {"water below comfort", "l a year", &TriedChoice::litres_below_comfort, 0, false},
    {"hours of stagnation", "h a year", &TriedChoice::stagnation_h, 1, false},
}};
inline constexpr std::size_t first_x = 3;  // starts against
inline constexpr std::size_t first_y = 0;  // objective

/// What a point is drawn as; of several the last that fits. Shapes differ, not colours alone.
enum class Mark : std::uint8_t { tried, breaks_limit, in_set, winner };
[[nodiscard]] Mark mark_of(const Chosen& chosen, std::size_t index);
/// "in the set", ...
[[nodiscard]] const char* words_of(Mark mark);
/// Path about 0, 0.
[[nodiscard]] const char* path_of(Mark mark);
/// Drawn about the settings as delivered, over their own mark.
extern const char* const delivered_path;
/// "winner, as delivered"
[[nodiscard]] std::string standing_text(const Chosen& chosen, std::size_t index);

/// The scatter of first_y over first_x, as an SVG with one element a choice, the notable ones last
/// and so on top. The page's script moves the elements and draws the axes again.
[[nodiscard]] std::string trade_off_picture(const Chosen& chosen);

}  // namespace noonbench::harness
