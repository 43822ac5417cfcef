// SPDX-License-Identifier: MIT
#include "harness/report/report.hpp"
#include "harness/report/axis.hpp"
#include "harness/report/courses.hpp"
#include "harness/report/needle.hpp"
#include "harness/report/reason_panel.hpp"
#include "harness/report/sentences.hpp"
#include "harness/report/text.hpp"
#include "harness/scenario/read.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>
#include <string>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(report)

using namespace noonbench;
using namespace noonbench::harness;

namespace {

constexpr std::int64_t midnight_s = 829'872'000;  // 2026-04-19 00:00
constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::vector<traces::Signal> signals() {
    using traces::SignalKind;
    using traces::Visibility;
    std::vector<traces::Signal> signals;
    for (const char* name :
         {"collector_reading_c", "store_bottom_reading_c", "store_top_reading_c", "air_c"}) {
        signals.push_back({.name = name,
                           .unit = "degC",
                           .visible = Visibility::customers_log,
                           .decimals = 2,
                           .meaning = "a temperature <of the test>"});
    }
    traces::Signal reason{.name = "pump_reason",
                          .unit = {},
                          .kind = SignalKind::choice,
                          .visible = Visibility::customers_log,
                          .meaning = "why"};
    for (std::size_t i = 0; i < firmware::pump_reason_count; ++i) {
        reason.choices.emplace_back(name_of(static_cast<firmware::PumpReason>(i)));
    }
    signals.push_back(reason);
    reason.name = "backup_reason";
    reason.choices.clear();
    for (std::size_t i = 0; i < firmware::backup_reason_count; ++i) {
        reason.choices.emplace_back(name_of(static_cast<firmware::BackupReason>(i)));
    }
    signals.push_back(reason);
    signals.push_back(
        {.name = "pump_relay", .unit = {}, .kind = SignalKind::on_off, .meaning = "relay"});
    signals.push_back({.name = "pump_speed_pct", .unit = "%", .meaning = "speed"});
    signals.push_back({.name = "sun_row_1_w_m2", .unit = "W/m2", .decimals = 1, .meaning = "sun"});
    return signals;
}

/// A day by hand, one row each 10 s: the pump runs from 08:00 to 16:00, a one-row peak of 141 degC
/// at 12:00:00, the collector's reading lost from 20:00 on.
RunResult small_result() {
    RunResult result;
    result.scenario.name = "small";
    result.scenario.title = "A small day";
    result.scenario.start_s = midnight_s;
    result.trace = traces::Table(signals(), midnight_s);
    for (std::int64_t s = 0; s < 86400; s += 10) {
        const bool on = s >= 8 * 3600 && s < 16 * 3600;
        double collector = on ? 55.5 : 12.25;
        if (s == 12 * 3600) collector = 141.0;
        if (s >= 20 * 3600) collector = none;
        auto reason = on ? firmware::PumpReason::collecting : firmware::PumpReason::waiting_for_sun;
        if (s >= 20 * 3600) reason = firmware::PumpReason::sensor_lost;
        result.trace.append(midnight_s + s,
                            std::array{collector, 43.2, 61.0, 9.0, static_cast<double>(reason), 1.0,
                                       on ? 1.0 : 0.0, on ? 80.0 : 0.0, on ? 700.0 : 0.0});
    }
    Sums& day = result.total;
    day.from_s = midnight_s;
    day.until_s = midnight_s + 86400;
    day.sun_kwh_m2 = 6.54;
    day.sun_kwh = 27.47;
    day.absorbed_kwh = 20.11;
    day.collector_loss_kwh = 8.76;
    day.pipe_loss_kwh = 0.98;
    day.to_store_kwh = 10.37;
    day.store_loss_kwh = 1.43;
    day.backup_kwh = 0.66;
    day.tapped_kwh = 7.25;
    day.tapped_l = 152.0;
    day.pump_electricity_kwh = 0.21;
    day.pump_run_h = 8.0;
    day.pump_starts = 1;
    day.backup_run_h = 0.3;
    day.first_start_s = 8 * 3600;
    day.last_stop_s = 16 * 3600;
    day.collector_highest_c = 141.0;
    day.store_bottom_lowest_c = 15.0;
    day.store_bottom_highest_c = 58.0;
    day.store_top_lowest_c = 45.0;
    day.store_top_highest_c = 66.0;
    day.reason_h[static_cast<std::size_t>(firmware::PumpReason::collecting)] = 8.0;
    day.reason_h[static_cast<std::size_t>(firmware::PumpReason::waiting_for_sun)] = 12.0;
    day.reason_h[static_cast<std::size_t>(firmware::PumpReason::sensor_lost)] = 4.0;
    result.days = {day};
    result.store_change_kwh = 2.35;
    result.tally_kwh = 11.02;
    result.cautions = {"Scalding: the store reached 66 °C."};
    result.boiling_point_c = 127.9;
    result.balance = {.run_residual_j = 0.0002,
                      .run_throughput_j = 1.2e8,
                      .worst_step_ratio = 0.001,
                      .boundary_gap = 0.0004,
                      .holds = true};
    return result;
}

RunResult year_result() {
    RunResult result = small_result();
    for (unsigned month = 1; month <= 12; ++month) {
        Sums sums = result.total;
        sums.from_s = civil_seconds(2026, static_cast<int>(month), 1);
        sums.to_store_kwh = 100.0 + month;
        result.months.push_back(sums);
    }
    result.days.assign(365, result.total);
    result.total.until_s = midnight_s + 365 * 86400;
    return result;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

boost::json::value data_of(const std::string& html) {
    const std::string open = "<script type=\"application/json\" id=\"run-data\">";
    const auto from = html.find(open) + open.size();
    return boost::json::parse(html.substr(from, html.find("</script>", from) - from));
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_page_asks_for_nothing_outside_itself) {
    for (const auto& html : {report_html(small_result()), report_html(year_result())}) {
        for (const char* part : {"http:", "https:", "//cdn", "src=", "@import", "<link", "fetch(",
                                 "XMLHttpRequest", "url(\"", "url('"}) {
            BOOST_TEST(!contains(html, part), part);
        }
    }
}

BOOST_AUTO_TEST_CASE(all_sections_are_there_and_no_inner_words) {
    const std::string html = report_html(small_result());
    for (const char* id : {"happened", "why", "chart-section", "energy", "figures", "settings",
                           "cautions", "limits", "balance"}) {
        BOOST_TEST(count_of(html, std::string("<section id=\"") + id + "\"") == 1U, id);
    }
    // What a person reads: the body without the script and its data.
    const std::string seen = html.substr(0, html.find("<script"));
    for (const char* word : {"residual", "golden", "seed", "lever", "hysteresis is", "dead band",
                             "centikelvin", "{{", "}}", "nan", ">inf"}) {
        BOOST_TEST(!contains(seen, word), word);
    }
}

BOOST_AUTO_TEST_CASE(hostile_words_stay_words) {
    RunResult result = small_result();
    result.scenario.title = "<script>alert('1')</script> & \"more\"";
    result.scenario.about = "</style><img src=x onerror=alert(2)>{{data}}";
    result.advice = {"Check <b>this</b>: </script>"};
    result.messages = {"file <i>name</i>"};
    const std::string html = report_html(result);
    BOOST_TEST(!contains(html, "<script>alert"));
    BOOST_TEST(!contains(html, "<img"));
    BOOST_TEST(!contains(html, "<b>this"));
    BOOST_TEST(!contains(html, "<i>name"));
    BOOST_TEST(contains(html, "&lt;script&gt;alert(&#39;1&#39;)&lt;/script&gt; &amp; &quot;more"));
    BOOST_TEST(contains(html, "{{data}}"));  // the about text is not filled in again
    BOOST_TEST(count_of(html, "</script>") == 2U);
    BOOST_TEST(json_text("</script><!--") == "\"\\u003c/script>\\u003c!--\"");
}

BOOST_AUTO_TEST_CASE(what_happened_is_told_with_the_figures_of_the_run) {
    const auto sentences = what_happened(small_result());
    BOOST_TEST_REQUIRE(sentences.size() == 5U);
    BOOST_TEST(sentences[0] ==
               "The sun brought 6.54 kWh to each square metre; of the 27.5 kWh on the glass, 10.4 "
               "kWh (38 %) reached the store.");
    BOOST_TEST(sentences[1] ==
               "The pump first started at 08:00, last stopped at 16:00, ran 8.0 h in one run and "
               "used 0.21 kWh of electricity.");
    BOOST_TEST(sentences[2] ==
               "The store lay between 15 °C and 58 °C at its bottom and between 45 °C and 66 °C at "
               "its top; in the end store and pipes held 2.35 kWh more than at the start.");
    BOOST_TEST(sentences[3] ==
               "The taps drew 152 l of hot water (7.25 kWh), none of it cooler than wanted; the "
               "boiler gave 0.66 kWh in 0.3 h.");
    BOOST_TEST(sentences[4] ==
               "The collector reached 141 °C and never barred the pump; the controller asks for no "
               "check.");
}

BOOST_AUTO_TEST_CASE(averages_go_by_the_length_of_the_run_not_by_the_days_it_touches) {
    RunResult result = small_result();
    result.days = {result.total, result.total};
    BOOST_TEST(length_text(result) == "one day");
    BOOST_TEST(what_happened(result)[1] ==
               "The pump ran 8.0 h in one run and used 0.21 kWh of electricity.");
    result.total.until_s += 86400;
    BOOST_TEST(what_happened(result)[1] ==
               "The pump ran 8.0 h in one run and used 0.21 kWh of electricity: 4.0 h and 0.5 "
               "starts a day.");
    result.total.until_s -= 6 * 3600;
    BOOST_TEST(length_text(result) == "42 hours");
}

BOOST_AUTO_TEST_CASE(figures_and_settings_match_the_result) {
    RunResult result = small_result();
    result.scenario.controller.settings[firmware::Setting::start_difference] = 650;
    const std::string html = report_html(result);
    for (const char* part :
         {"<td class=\"loc\">10.4 kWh</td>", "<td class=\"loc\">11.0 kWh</td><td>customer's",
          "<td class=\"loc\">15.0 °C to 58.0 °C</td>", "<td class=\"loc\">127.9 °C</td>",
          "start difference</th><td>6.5 K</td><td>8 K</td>", "<b>The books close.</b> 33.33 kWh",
          "less than 0.001 J"}) {
        BOOST_TEST(contains(html, part), part);
    }
    result.balance.holds = false;
    BOOST_TEST(contains(report_html(result), "The books do not close: do not trust"));
}

BOOST_AUTO_TEST_CASE(the_reason_line_is_true_at_its_moment) {
    RunResult result = small_result();
    // The pump starts at 08:00:00 with 55.5 over 43.2 degC.
    const std::string panel = reason_panel(result);
    BOOST_TEST(contains(panel, "2026-04-19 08:00:00"));
    BOOST_TEST(
        contains(panel, "the collector (55.5 °C) is 12.3 K above the store bottom (43.2 °C)"),
        panel);
    BOOST_TEST(contains(panel, "12.3 K</text>"));
    // A setting changed at 09:00 and mains cut from 10:00 to 11:00 change what is true from then.
    const auto move = [](int hour, MoveOf what) {
        Move move;
        move.at_s = midnight_s + hour * 3600;
        move.what = std::move(what);
        return move;
    };
    result.scenario.moves = {move(9, SettingMove{firmware::Setting::stop_difference, 300}),
                             move(10, OtherWireMove{OtherWire::mains_power, false}),
                             move(11, OtherWireMove{OtherWire::mains_power, true})};
    const auto data = data_of(report_html(result));
    const auto& epochs = data.at("epochs").as_array();
    BOOST_TEST_REQUIRE(epochs.size() == 4U);
    BOOST_TEST(epochs[1].at("from").as_int64() == 9 * 3600);
    const auto collecting = static_cast<std::size_t>(firmware::PumpReason::collecting);
    const auto sentence = [&](std::size_t epoch) {
        return std::string(epochs[epoch].at("pump").as_array().at(collecting).as_string());
    };
    BOOST_TEST(contains(sentence(0), "stops at 4 K"), sentence(0));
    BOOST_TEST(contains(sentence(1), "stops at 3 K"), sentence(1));
    BOOST_TEST(contains(sentence(2), "has no power"), sentence(2));
    BOOST_TEST(sentence(3) == sentence(1));
}

BOOST_AUTO_TEST_CASE(no_difference_is_made_up_while_a_sensor_has_no_reading) {
    RunResult result = small_result();
    traces::Table trace(signals(), midnight_s);
    const auto waiting = static_cast<double>(firmware::PumpReason::waiting_for_sun);
    trace.append(midnight_s, std::array{none, none, none, 9.0, waiting, 1.0, 0.0, 0.0, 0.0});
    result.trace = trace;
    const std::string panel = reason_panel(result);
    BOOST_TEST(contains(panel, "A sensor has no reading yet"), panel);
    BOOST_TEST(contains(panel, "no reading</text>"));
}

BOOST_AUTO_TEST_CASE(the_data_keeps_every_peak_and_every_change) {
    const auto data = data_of(report_html(small_result()));
    const auto& collector = data.at("series").as_array().at(0);
    const auto& values = collector.at("values").as_array();
    BOOST_TEST(values.size() <= 3000U);
    BOOST_TEST(values.size() > 2000U);
    std::int64_t most = 0;
    for (const auto& value : values) {
        if (!value.is_null()) most = std::max(most, value.as_int64());
    }
    BOOST_TEST(most == 1410);  // tenths
    BOOST_TEST(values.back().is_null());
    BOOST_TEST(boost::json::serialize(data.at("pump_on")) == "[[0,0],[28800,1],[57600,0]]");
    BOOST_TEST(boost::json::serialize(data.at("pump_reasons")) ==
               "[[0,0],[28800,1],[57600,0],[72000,14]]");
    const auto& times = data.at("moments").at("time").as_array();
    BOOST_TEST(times.size() == 1440U);  // every minute; the changes lie on minutes here
    BOOST_TEST(data.at("moments").at("collector_reading_c").as_array().back().is_null());
}

BOOST_AUTO_TEST_CASE(a_short_trace_is_not_thinned) {
    traces::Table trace({{.name = "a_c", .unit = "degC", .decimals = 1, .meaning = {}}});
    for (int i = 0; i < 50; ++i) trace.append(i * 60, std::array{0.1 * i});
    const Course whole = course_of(trace, 0, 50);
    BOOST_TEST(whole.values.size() == 50U);
    BOOST_TEST(whole.dt_s == 60.0);
    const Course thinned = course_of(trace, 0, 10);
    BOOST_TEST(thinned.values.size() == 10U);
    BOOST_TEST(thinned.values.front().value() == 0.0);
    BOOST_TEST(thinned.values.back().value() == 4.9);
}

BOOST_AUTO_TEST_CASE(changes_between_minutes_are_moments_too) {
    traces::Table trace(signals(), midnight_s);
    for (std::int64_t s = 0; s < 3600; ++s) {
        const double reason = s < 1234 ? 0.0 : 1.0;
        trace.append(midnight_s + s,
                     std::array{50.0, 40.0, 60.0, 9.0, reason, 1.0, reason, 0.0, 0.0});
    }
    const auto rows = moments_of(trace, 3000);
    BOOST_TEST(rows.size() == 61U);
    BOOST_TEST(std::count(rows.begin(), rows.end(), 1234U) == 1);
    BOOST_TEST(moments_of(trace, 30).size() <= 30U);
}

BOOST_AUTO_TEST_CASE(the_needle_stands_upright_between_stop_and_start) {
    const Needle needle{6.0, 4.0, 8.0};
    BOOST_TEST(needle_angle_deg(needle, 6.0) == 0.0);
    BOOST_TEST(needle_angle_deg(needle, 8.0) == -needle_angle_deg(needle, 4.0));
    BOOST_TEST(needle_angle_deg(needle, 8.0) > 0.0);
    BOOST_TEST(needle_angle_deg(needle, 500.0) == 84.0);  // stays on the dial
    BOOST_TEST(contains(needle_svg({std::nullopt, 4.0, 8.0}), "no reading"));
}

BOOST_AUTO_TEST_CASE(a_year_is_told_by_months) {
    const std::string html = report_html(year_result());
    BOOST_TEST(!contains(html, "id=\"reason-line\""));
    BOOST_TEST(contains(html, "id=\"run-data\">null</script>"));
    BOOST_TEST(contains(html, "Jan 2026</th>"));
    BOOST_TEST(contains(html, "<td>112.0</td>"));  // December
    BOOST_TEST(count_of(html, "class=\"bar\" fill=\"url(#flow-useful)\"") == 12U);
}

BOOST_AUTO_TEST_CASE(streams_are_as_wide_as_they_carry) {
    const std::string html = report_html(small_result());
    const auto width = [&](const std::string& after) {
        const auto at = html.find(after);
        BOOST_TEST_REQUIRE(at != std::string::npos);
        const auto from = html.find("stroke-width=\"", at) + 14;
        return std::stod(html.substr(from, 12));
    };
    const double sun = width("url(#flow-sun)\"");
    const double store = width("url(#flow-useful)\"");
    // Widths are printed to 0.1: that is what the ratio may be off by.
    BOOST_TEST(std::abs(store / sun - 10.37 / 27.47) < 0.1 / sun + 0.1 / store * 10.37 / 27.47);
}

BOOST_AUTO_TEST_CASE(the_same_result_gives_the_same_bytes) {
    BOOST_CHECK(report_html(small_result()) == report_html(small_result()));
    BOOST_TEST(report_html(small_result()).size() < 400'000U);
}

BOOST_AUTO_TEST_CASE(parts_of_the_page_point_at_each_other) {
    const std::string html = report_html(small_result());
    std::set<std::string> ids;
    for (auto at = html.find(" id=\""); at != std::string::npos; at = html.find(" id=\"", at + 1)) {
        const std::string id = html.substr(at + 5, html.find('"', at + 5) - at - 5);
        BOOST_TEST(ids.insert(id).second, "the id " << id << " stands twice");
    }
    const std::string body = html.substr(0, html.find("<script"));
    for (auto at = body.find("url(#"); at != std::string::npos; at = body.find("url(#", at + 1)) {
        const std::string id = body.substr(at + 5, body.find(')', at) - at - 5);
        BOOST_TEST(ids.count(id) == 1U, "nothing has the id " << id);
    }
}

BOOST_AUTO_TEST_CASE(axes_have_round_figures) {
    BOOST_TEST(round_step(83.0, 6) == 20.0);
    BOOST_TEST(round_step(1.0, 5) == 0.2, boost::test_tools::tolerance(1e-12));  // decimal fraction
    const auto ticks = time_ticks(midnight_s + 100, midnight_s + 86400, 9);
    BOOST_TEST(ticks.front() == midnight_s + 10800);
    BOOST_TEST(tick_text(ticks.front()) == "03:00");
    BOOST_TEST(tick_text(ticks.back()) == "20 Apr");
    BOOST_TEST(number_text(-0.001, 1) == "0.0");
    BOOST_TEST(number_text(-3.25, 1) == "\u22123.2");
}

BOOST_AUTO_TEST_CASE(the_page_says_whether_the_flow_was_set_or_found) {
    const auto page = [](const char* how) {
        const std::string set = std::string("loop.hydraulics=") + how;
        const std::vector<std::string> sets{"length=1 h", set};
        return report_html(run(read_scenario_text("title: A test\n", "test.yaml", sets)));
    };
    BOOST_TEST(page("given").find("not found from pump and pipes") != std::string::npos);
    BOOST_TEST(page("solved").find("found each second from pump curve") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
