// SPDX-License-Identifier: MIT
// A fault on the page of all faults: its small picture, and what it moves in words.
#include "harness/report/fault_moves.hpp"
#include "harness/report/fault_picture.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

BOOST_AUTO_TEST_SUITE(fault_drawing)

using namespace noonbench;
using namespace noonbench::harness;

namespace {

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

/// A week of which the collector's reading ends halfway; the pump runs, rests and takes turns.
SeenFault week() {
    SeenFault seen;
    RunPicture& picture = seen.fault.picture;
    picture.from_s = civil_seconds(2026, 7, 29);
    picture.until_s = picture.from_s + 7 * 86400;
    Trail trail;
    for (int hour = 0; hour < 7 * 24; ++hour)
        trail.push_back({picture.from_s + std::int64_t{3600} * hour, 20.0 + hour % 24});
    picture.lines = {trail, trail, trail};
    for (std::size_t i = 84; i < trail.size(); ++i) picture.lines[0][i].value.reset();
    picture.pump.assign(picture_cells, Cell::off);
    picture.lost.assign(picture_cells, Cell::off);
    std::fill_n(picture.pump.begin(), 10, Cell::on);
    std::fill_n(picture.pump.begin() + 20, 5, Cell::both);
    return seen;
}

traces::Table one_column() {
    traces::Signal signal;
    signal.name = "a_c";
    signal.unit = "degC";
    signal.decimals = 1;
    return traces::Table({signal});
}

std::vector<MovedThing> moved(const std::string& yaml) {
    return moved_things(read_scenario_text(
        yaml + "fault:\n  customer_says: a\n  log_shows: b\n  on_site: c\n  measure_first: d\n"
               "  remedy: e\n  caution: f\n  onset: sudden\n",
        "f.yaml"));
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_week_has_a_tick_for_each_day) {
    const std::string svg = fault_picture(week());
    for (const char* tick : {">29 Jul</text>", ">30</text>", ">31</text>", ">1 Aug</text>",
                             ">2</text>", ">3</text>", ">4</text>", ">5</text>"})
        BOOST_TEST(has(svg, tick), tick << " in " << svg);
}

BOOST_AUTO_TEST_CASE(a_reading_that_ends_is_said_to_be_lost) {
    const std::string svg = fault_picture(week());
    BOOST_TEST(has(svg, ">collector: lost</text>"), svg);
    BOOST_TEST(has(svg, ">store top</text>"), svg);
    SeenFault silent = week();
    for (TrailPoint& point : silent.fault.picture.lines[2]) point.value.reset();
    BOOST_TEST(has(fault_picture(silent), ">bottom: none</text>"));
}

BOOST_AUTO_TEST_CASE(the_pumps_band_tells_on_from_on_and_off_by_turns) {
    const std::string svg = fault_picture(week());
    BOOST_TEST(has(svg, "<path fill=\"url(#band-on)\" d=\"M34 175h10v15h-10z\"/>"), svg);
    BOOST_TEST(has(svg, "<path fill=\"url(#band-both)\" d=\"M54 175h5v15h-5z\"/>"), svg);
    BOOST_TEST(!has(svg, ">healthy<"), "nothing to compare with");
}

BOOST_AUTO_TEST_CASE(a_short_loss_of_a_reading_shows_although_the_line_has_no_gap) {
    SeenFault seen = week();
    BOOST_TEST(!has(fault_picture(seen), ">no reading</text>"));
    seen.fault.picture.lost[100] = Cell::both;
    const std::string svg = fault_picture(seen);
    BOOST_TEST(has(svg, "<path class=\"lost\" d=\"M134 10h1v5h-1z\"/>"), svg);
    BOOST_TEST(has(svg, ">no reading</text>"), svg);
}

BOOST_AUTO_TEST_CASE(a_trail_keeps_peaks_at_their_moments_and_gaps) {
    traces::Table trace = one_column();
    for (int t = 0; t < 1000; ++t) {
        const std::vector<double> row{t >= 500 && t < 700 ? std::nan("")
                                      : t == 333          ? 99.0
                                                          : 1e-2 * t};
        trace.append(t, row);
    }
    const Trail trail = trail_of(trace, 0, 20);
    BOOST_TEST(trail.size() <= 20U);
    const auto peak = std::find_if(trail.begin(), trail.end(),
                                   [](const TrailPoint& p) { return p.value && *p.value > 90.0; });
    BOOST_TEST_REQUIRE((peak != trail.end()));
    BOOST_TEST(peak->at_s == 333);
    BOOST_TEST(std::count_if(trail.begin(), trail.end(),
                             [](const TrailPoint& p) { return !p.value; }) == 2);
    BOOST_TEST(std::is_sorted(trail.begin(), trail.end(),
                              [](const auto& a, const auto& b) { return a.at_s < b.at_s; }));
    BOOST_TEST(trail_of(trace, 0, 1000).size() == 1000U, "small enough already");
}

BOOST_AUTO_TEST_CASE(cells_say_never_always_or_now_and_then) {
    traces::Table trace = one_column();
    std::vector<bool> rows;
    for (int t = 0; t <= 40; ++t) {
        trace.append(t, std::vector<double>{0.0});
        rows.push_back(t >= 15 && t < 30);
    }
    const std::vector<Cell> cells = cells_of(trace, rows, 4);
    BOOST_TEST((cells == std::vector<Cell>{Cell::off, Cell::both, Cell::on, Cell::off}));
}

BOOST_AUTO_TEST_CASE(the_gauge_is_drawn_where_it_moves_further_than_in_the_twin) {
    const auto seen = [](double swing_bar, plant::Hydraulics hydraulics) {
        SeenFault two = week();
        two.fault.scenario.plant.loop.hydraulics = hydraulics;
        const std::int64_t from_s = two.fault.picture.from_s;
        two.fault.picture.gauge = {{from_s, 1.0}, {from_s + 86400, 1.0 + swing_bar}};
        two.twin = two.fault;
        two.twin->picture.gauge = {{from_s, 1.5}, {from_s + 86400, 1.9}};
        return two;
    };
    BOOST_TEST(gauge_tells(seen(0.5, plant::Hydraulics::solved)));
    BOOST_TEST(!gauge_tells(seen(0.42, plant::Hydraulics::solved)));
    BOOST_TEST(!gauge_tells(seen(0.5, plant::Hydraulics::given)));
    SeenFault asked = seen(0.1, plant::Hydraulics::given);
    asked.fault.verdicts.push_back({"", "never gauge_bar > 2 bar", {}, "", {}, false});
    BOOST_TEST(gauge_tells(asked));
    const std::string svg = fault_picture(asked);
    BOOST_TEST(has(svg, ">gauge, bar</text>"), svg);
    BOOST_TEST(has(svg, "read on site"), svg);
}

BOOST_AUTO_TEST_CASE(what_a_fault_moves_is_told_in_words) {
    const auto things = moved(
        "faults:\n"
        "  name: f\n"
        "  moves:\n"
        "    - {lever: pump_healthy, to: 0}\n"
        "    - {wire: collector.offset, to: 5 K, at: '12:30', over: 2 h}\n"
        "    - {setting: start_difference, to: 12 K}\n"
        "    - {hand: pump, to: 'on'}\n");
    BOOST_TEST_REQUIRE(things.size() == 4U);
    BOOST_TEST(things[0].what == "the pump is seized or its electronics are dead");
    BOOST_TEST(things[0].here == "", "said already");
    BOOST_TEST(things[1].what ==
               "The pump may start when the collector is this much warmer than the bottom of the "
               "store");
    BOOST_TEST(things[1].here == "12 K");
    BOOST_TEST(things[2].what == "pump switched by hand");
    BOOST_TEST(things[2].here == "on");
    BOOST_TEST(things[3].what == "collector sensor, error of the element");
    BOOST_TEST(things[3].here == "5 K from 12:30 on, within 2 h");
}

BOOST_AUTO_TEST_CASE(a_range_is_told_with_what_is_healthy_or_delivered) {
    const auto things = moved_things(read_scenario_text(
        "fault:\n  customer_says: a\n  log_shows: b\n  on_site: c\n  measure_first: d\n"
        "  remedy: e\n  caution: f\n  onset: sudden\n"
        "  ranges:\n"
        "    - {lever: lost_fluid_m3, least: 3 l, most: 6 l}\n"
        "    - {lever: isolator_closed, to: 0}\n"
        "    - {wire: collector.state, to: open}\n"
        "    - {setting: start_difference, least: 2 K, most: 4 K}\n"
        "    - {key: household.scale, least: 0 %, most: 40 %}\n",
        "f.yaml"));
    BOOST_TEST_REQUIRE(things.size() == 5U);
    BOOST_TEST(things[0].range == "from 3 l to 6 l; healthy: 0");
    BOOST_TEST(things[1].what == "the electrical isolator of the pump is off, or its plug is out");
    BOOST_TEST(things[1].range == "");
    BOOST_TEST(things[2].what == "cable of the collector sensor");
    BOOST_TEST(things[2].range == "open");
    BOOST_TEST(things[3].range == "from 2 K to 4 K; as delivered: 8 K");
    BOOST_TEST(things[4].what == "multiplies the energy of every draw");
    BOOST_TEST(things[4].range == "from 0 % to 40 %");
}

BOOST_AUTO_TEST_SUITE_END()
