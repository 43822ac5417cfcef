// SPDX-License-Identifier: MIT
#include "data_sheet.hpp"
#include "proving_keys.hpp"
#include "statements.hpp"

#include "traces/file.hpp"

#include "harness/bench/words.hpp"
#include "harness/report/json_text.hpp"

#include <boost/json.hpp>

#include <cmath>

namespace noonbench::harness {

namespace {

namespace json = boost::json;

/// A micro-unit is far below every step of a decade.
double rounded(double value) {
    const double r = std::round(value * 1e6) / 1e6;
    return r == 0.0 ? 0.0 : r;  // no "-0"
}

json::array texts(const std::vector<std::string_view>& lines) {
    json::array array;
    for (const std::string_view line : lines) array.push_back(json::value(line));
    return array;
}

json::object count_json(const Count& count) {
    return {
        {"within", count.within}, {"outside", count.outside}, {"not_observed", count.not_observed}};
}

json::object measurement_json(const Measurement& m) {
    json::object object{{"name", m.name}, {"where", m.where}};
    if (m.run != 0) object["run"] = m.run;
    object["unit"] = m.unit;
    object["set"] = rounded(m.set);
    object["measured"] = m.measured ? json::value(rounded(*m.measured)) : json::value(nullptr);
    object["deviation"] =
        m.measured ? json::value(rounded(*m.measured - m.set)) : json::value(nullptr);
    object["allowed_least"] = rounded(m.allowed.least);
    object["allowed_most"] = rounded(m.allowed.most);
    object["allowed_because"] = m.allowed.ground;
    object["verdict"] = words_of(standing_of(m));
    object["done"] = m.done;
    return object;
}

json::object settings_json(const ProvingTest& test) {
    json::object object;
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const auto setting = static_cast<firmware::Setting>(i);
        object[firmware::setting_table()[i].name] = setting_text(setting, test.settings[setting]);
    }
    return object;
}

json::object test_json(const TestResult& result) {
    json::array measurements;
    for (const Measurement& m : result.measurements) measurements.push_back(measurement_json(m));
    return {{"test", result.test.name},
            {"kind", all_kinds()[result.test.what.index()].word},
            {"title", result.test.title},
            {"about", result.test.about},
            {"count", count_json(count_of(result))},
            {"settings", settings_json(result.test)},
            {"measurements", std::move(measurements)}};
}

}  // namespace

std::string data_sheet_json(const std::vector<TestResult>& results) {
    json::array tests;
    for (const TestResult& result : results) tests.push_back(test_json(result));
    const Count count = count_of(results);
    return json_lines(json::object{{"device", device_line},
                                   {"certificate", false},
                                   {"not_a_certificate", texts(not_a_certificate())},
                                   {"all_within", count.all_within()},
                                   {"count", count_json(count)},
                                   {"tests", std::move(tests)},
                                   {"not_covered", texts(not_covered())},
                                   {"cautions", texts(board_cautions())}});
}

void write_data_sheet(const std::vector<TestResult>& results, const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    traces::write_whole(folder / "data_sheet.json", data_sheet_json(results));
    traces::write_whole(folder / "data_sheet.html", data_sheet_html(results));
}

}  // namespace noonbench::harness
