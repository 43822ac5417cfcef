// SPDX-License-Identifier: MIT
// Which columns the chart draws, and how they are called there.
#pragma once
#include <array>

namespace noonbench::harness {

struct ChartLine {
    const char* column;
    const char* style;  // class of the line: colour and dashes stand in page.css
    const char* label;
};

inline constexpr std::array temperature_lines{
    ChartLine{"collector_reading_c", "collector", "collector"},
    ChartLine{"store_top_reading_c", "top", "store top"},
    ChartLine{"store_bottom_reading_c", "bottom", "store bottom"},
    ChartLine{"air_c", "air", "outside air"},
};
inline constexpr ChartLine sun_line{"sun_row_1_w_m2", "sun", "sun on the collector"};

}  // namespace noonbench::harness
