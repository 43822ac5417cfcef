// SPDX-License-Identifier: MIT
// The proving ground: that it measures what is there, on any device, and says so.
#include "firmware-model/priority.hpp"
#include "firmware-model/sensors.hpp"

#include "harness/bench/wires.hpp"
#include "harness/prove/data_sheet.hpp"
#include "harness/prove/firmware_device.hpp"
#include "harness/prove/prove.hpp"
#include "harness/prove/proving_keys.hpp"
#include "harness/prove/read_proving.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(proving)

using namespace noonbench;
using namespace noonbench::harness;

namespace {

const std::filesystem::path shelf = std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/proving";

TestResult proven(const char* file) {
    return prove(read_proving(shelf / file), make_firmware_device);
}

/// A thermostat of three lines: a controller that has nothing in common with ours but terminals.
class ToyDevice final : public Device {
  public:
    ToyDevice(double start_k, double stop_k) : start_k_(start_k), stop_k_(stop_k) {}
    void set_by_hand(const firmware::Settings& /*settings*/) override {}
    void set_clock(CivilSeconds /*standard_time*/) override {}
    TerminalsOut second(const TerminalsIn& in) override {
        const double gap_k = celsius(in.milliohm[0]) - celsius(in.milliohm[1]);
        on_ = gap_k >= (on_ ? stop_k_ : start_k_);
        return {on_, false, on_ ? std::uint8_t{100} : std::uint8_t{0}};
    }

  private:
    static double celsius(std::uint32_t milliohm) {
        double low = -100.0;
        double high = 400.0;
        while (high - low > 1e-6) {
            const double middle = 0.5 * (low + high);
            const bool below = 1000.0 * element_ohm(SensorType::platinum_1000, middle) < milliohm;
            (below ? low : high) = middle;
        }
        return low;
    }
    double start_k_;
    double stop_k_;
    bool on_ = false;
};

DeviceMaker toy(double start_k, double stop_k) {
    return [=](const DeviceSpec& /*spec*/) { return std::make_unique<ToyDevice>(start_k, stop_k); };
}

/// All problems of a text that has to be refused.
std::string refusal(const std::string& yaml) {
    try {
        (void)read_proving_text(yaml, "mine.yaml");
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return "";
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

constexpr auto short_difference =
    "title: Short\n"
    "difference: {store: [40 degC], repeat: 1}\n"
    "controller: {backup_control: off}\n";

}  // namespace

// ------------------------------------------------------------------ what is measured

BOOST_AUTO_TEST_CASE(start_and_stop_difference_are_measured_within_one_step_of_the_setting) {
    const TestResult result = proven("difference.yaml");
    const double step_k = std::get<DifferenceTest>(result.test.what).steps.step_k;
    BOOST_TEST(step_k <= 0.1);
    int starts = 0;
    int stops = 0;
    for (const Measurement& m : result.measurements) {
        BOOST_TEST_CONTEXT(m.name << ", " << m.where << ", run " << m.run) {
            BOOST_TEST_REQUIRE(m.measured.has_value());
            // 1e-9: steps are multiples in binary
            BOOST_TEST(std::abs(*m.measured - m.set) <= step_k + 1e-9, *m.measured);
            BOOST_TEST((standing_of(m) == Standing::within));
        }
        starts += m.name == "start difference" && m.set == 8.0 ? 1 : 0;
        stops += m.name == "stop difference" && m.set == 4.0 ? 1 : 0;
    }
    BOOST_TEST(starts == 12);  // four store temperatures, three runs
    BOOST_TEST(stops == 12);
}

// The ground of the step: half of it (0.05 K) is the reading of the staircase, so what the two
// sensor inputs do to a switching point has to stay within the other half, at every setting and
// level.
BOOST_AUTO_TEST_CASE(the_two_sensor_inputs_leave_half_a_step_of_a_tenth_of_a_kelvin) {
    const auto read_c = [](double celsius) {
        const std::uint32_t counts = counts_from_milliohm(socket_milliohm({}, celsius, 0.0));
        return firmware::temperature_of(counts * 8U).centicelsius;
    };
    double worst_k = 0.0;
    for (int set_ck = 200; set_ck <= 2000; set_ck += 150) {
        for (double store_c = 10.0; store_c < 90.0; store_c += 0.83) {
            const int store_read = read_c(store_c);
            double collector_c = store_c + set_ck / 100.0 - 0.2;
            while (read_c(collector_c) - store_read < set_ck) collector_c += 0.002;
            worst_k = std::max(worst_k, std::abs(collector_c - store_c - set_ck / 100.0));
        }
    }
    BOOST_TEST_MESSAGE("switching point of a difference errs by up to " << worst_k << " K");
    BOOST_TEST(worst_k <= 0.05);
    BOOST_TEST(worst_k > 0.02);  // else the scan would not see the converter's counts
}

BOOST_AUTO_TEST_CASE(another_device_at_the_same_terminals_is_measured_as_it_is) {
    const ProvingTest test = read_proving_text(short_difference, "mine.yaml");
    const TestResult good = prove(test, toy(8.0, 4.0));
    BOOST_TEST(count_of(good).all_within());
    const TestResult other = prove(test, toy(7.3, 4.6));
    BOOST_TEST_REQUIRE(other.measurements.size() >= 2U);
    BOOST_CHECK_SMALL(*other.measurements[0].measured - 7.3, 0.051);  // half a step
    BOOST_CHECK_SMALL(*other.measurements[1].measured - 4.6, 0.051);
    BOOST_TEST(count_of(other).outside == 2);
}

BOOST_AUTO_TEST_CASE(what_does_not_happen_is_not_observed_and_is_no_pass) {
    const ProvingTest test = read_proving_text(short_difference, "mine.yaml");
    const TestResult never = prove(test, toy(1000.0, 900.0));
    const TestResult always = prove(test, toy(-1000.0, -1000.0));
    for (const TestResult* result : {&never, &always}) {
        for (const Measurement& m : result->measurements) {
            BOOST_TEST(!m.measured.has_value(), m.name);
        }
        BOOST_TEST(!count_of(*result).all_within());
    }
}

BOOST_AUTO_TEST_CASE(a_deviation_of_just_the_limit_is_within_and_a_hair_more_is_outside) {
    Measurement m;
    m.set = 8.0;
    m.unit = "K";
    m.decimals = 2;
    m.allowed = {-0.1, 0.1, "a step"};
    m.measured = 8.0 + 0.1;
    BOOST_TEST((standing_of(m) == Standing::within));
    m.measured = 8.1001;
    BOOST_TEST((standing_of(m) == Standing::outside));
    m.measured = 7.8999;
    BOOST_TEST((standing_of(m) == Standing::outside));
    BOOST_TEST(allowed_text(m) == "± 0.1");
    BOOST_TEST(deviation_text(m) == "\u22120.10");
    m.measured.reset();
    BOOST_TEST((standing_of(m) == Standing::not_observed));
    BOOST_TEST(value_text(m, m.measured) == "none");
}

// The file states who wins; here it is held to the tables that arbitrate. The proving ground itself
// never looks at them.
BOOST_AUTO_TEST_CASE(the_contests_on_the_shelf_are_the_controllers_own_statements) {
    using firmware::PumpClaim;
    const std::array claims{PumpClaim::store_ceiling,    PumpClaim::store_sensor,
                            PumpClaim::hand_on,          PumpClaim::hand_off,
                            PumpClaim::collector_sensor, PumpClaim::collector_cut_out,
                            PumpClaim::frost_guard,      PumpClaim::store_limit,
                            PumpClaim::difference,       PumpClaim::nobody};
    const ProvingTest test = read_proving(shelf / "priority.yaml");
    for (const Contest& contest : std::get<PriorityTest>(test.what).contests) {
        if (contest.output != Output::pump) continue;
        const auto wins =
            static_cast<std::size_t>(claims.at(static_cast<std::size_t>(contest.wins)));
        const auto over =
            static_cast<std::size_t>(claims.at(static_cast<std::size_t>(contest.over)));
        BOOST_TEST(wins < over);
        BOOST_TEST((firmware::pump_priority.at(wins).forces == firmware::Forces::on) ==
                   contest.is_on);
    }
}

// ------------------------------------------------------------------ what is read

BOOST_AUTO_TEST_CASE(every_file_on_the_shelf_is_read_and_every_kind_has_one) {
    std::vector<bool> seen(all_kinds().size(), false);
    for (const auto& entry : std::filesystem::directory_iterator(shelf)) {
        const ProvingTest test = read_proving(entry.path());
        BOOST_TEST(!test.about.empty(), entry.path());
        seen.at(test.what.index()) = true;
    }
    for (std::size_t i = 0; i < seen.size(); ++i) BOOST_TEST(seen[i], all_kinds()[i].word);
    BOOST_TEST(all_kinds().size() == std::variant_size_v<AnyTest>);
}

BOOST_AUTO_TEST_CASE(a_wrong_file_is_refused_with_its_place_and_what_is_allowed) {
    const std::string typo = refusal("differense: {}\n");
    BOOST_TEST(has(typo, "mine.yaml:1:1: \"differense\" is not a key of a proving file"), typo);
    BOOST_TEST(has(typo, "did you mean difference?"), typo);
    const std::string key = refusal("difference:\n  stor: [20 degC]\n");
    BOOST_TEST(has(key, "mine.yaml:2:3: "), key);
    BOOST_TEST(has(key, "did you mean store?"), key);
    const std::string step = refusal("difference:\n  step: 0.5 K\n");
    BOOST_TEST(has(step, "mine.yaml:2:9: difference.step: 0.5 K is out of range"), step);
    BOOST_TEST(has(step, "0.01 K to 0.1 K"), step);
    const std::string unit = refusal("difference:\n  store: [20 degC, 40 bar]\n");
    BOOST_TEST(has(unit, "mine.yaml:2:20: "), unit);
    BOOST_TEST(has(unit, "bar"), unit);
    const std::string setting = refusal("frost: {}\ncontroller: {frost_strat: 3 degC}\n");
    BOOST_TEST(has(setting, "mine.yaml:2:14: "), setting);
    BOOST_TEST(has(setting, "frost_start"), setting);
}

BOOST_AUTO_TEST_CASE(a_file_holds_one_test_with_all_that_it_needs) {
    BOOST_TEST(has(refusal("title: Nothing\n"), "mine.yaml:1:1: no test stands here"));
    const std::string two = refusal("frost: {}\nspeed: {}\n");
    BOOST_TEST(has(two, "mine.yaml:2:1: speed cannot stand beside frost"), two);
    BOOST_TEST(has(refusal("clock: {days: 3}\n"), "clock.from is missing"));
    BOOST_TEST(has(refusal("- frost\n"), "a list stands where a proving file is wanted"));
    const std::string beyond =
        refusal("sensor_accuracy:\n  points:\n    - {by: store_limit, at: [99 degC]}\n");
    BOOST_TEST(has(beyond, "mine.yaml:3:7: "), beyond);
    BOOST_TEST(has(beyond, "store_limit cannot be set to 99 degC"), beyond);
}

// ------------------------------------------------------------------ what is left

BOOST_AUTO_TEST_CASE(the_data_sheet_holds_the_figures_and_repeats_byte_for_byte) {
    const std::vector<TestResult> results{proven("difference.yaml"), proven("frost.yaml")};
    const std::string text = data_sheet_json(results);
    const auto sheet = boost::json::parse(text);
    BOOST_TEST(!sheet.at("certificate").as_bool());
    BOOST_TEST(sheet.at("all_within").as_bool());
    const auto& tests = sheet.at("tests").as_array();
    BOOST_TEST_REQUIRE(tests.size() == 2U);
    for (std::size_t t = 0; t < tests.size(); ++t) {
        const auto& measurements = tests[t].at("measurements").as_array();
        BOOST_TEST_REQUIRE(measurements.size() == results[t].measurements.size());
        for (std::size_t i = 0; i < measurements.size(); ++i) {
            const Measurement& m = results[t].measurements[i];
            BOOST_TEST(measurements[i].at("name").as_string().c_str() == m.name);
            // written to a micro-unit
            BOOST_CHECK_SMALL(measurements[i].at("measured").to_number<double>() - *m.measured,
                              1e-6);
            BOOST_CHECK_SMALL(
                measurements[i].at("deviation").to_number<double>() - (*m.measured - m.set), 2e-6);
            BOOST_TEST(measurements[i].at("verdict").as_string() == "within");
            BOOST_TEST(!measurements[i].at("done").as_string().empty());
            BOOST_TEST(!measurements[i].at("allowed_because").as_string().empty());
        }
    }
    const std::vector<TestResult> again{proven("difference.yaml"), proven("frost.yaml")};
    BOOST_TEST((data_sheet_json(again) == text));
    BOOST_TEST((data_sheet_html(again) == data_sheet_html(results)));
}

BOOST_AUTO_TEST_CASE(the_page_says_that_it_is_no_certificate_and_shows_what_is_wrong) {
    const std::string good = data_sheet_html({proven("difference.yaml")});
    BOOST_TEST(has(good, "This is NOT a certificate of conformity with EN 12977-5"));
    BOOST_TEST(has(good, "230 V"));
    BOOST_TEST(has(good, "licensed electrician"));
    BOOST_TEST(has(good, "Not covered"));
    BOOST_TEST(!has(good, "class=\"bad\""));
    BOOST_TEST(!has(good, "http"));  // one page by itself
    std::size_t points = 0;
    for (std::size_t at = good.find("<circle"); at != std::string::npos;
         at = good.find("<circle", at + 1)) {
        ++points;
    }
    BOOST_TEST(points == 24U);  // each run of start and of stop
    const ProvingTest test =
        read_proving_text("title: A <b>bold</b> test\ndifference: {}\n", "x.yaml");
    const std::string bad = data_sheet_html({prove(test, toy(7.0, 4.0))});
    BOOST_TEST(has(bad, "class=\"bad\""));
    BOOST_TEST(has(bad, "✗ outside"));
    BOOST_TEST(has(bad, "A &lt;b&gt;bold"));
}

BOOST_AUTO_TEST_SUITE_END()
