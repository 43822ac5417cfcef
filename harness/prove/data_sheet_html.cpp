// SPDX-License-Identifier: MIT
#include "data_sheet.hpp"
#include "sheet_chart.hpp"
#include "sheet_page.hpp"
#include "statements.hpp"

#include "harness/bench/words.hpp"
#include "harness/report/assets.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>

namespace noonbench::harness {

namespace {

std::string paragraphs(const std::vector<std::string_view>& lines) {
    std::string out;
    for (const std::string_view line : lines) out += "<p>" + escaped(line) + "</p>";
    return out;
}

/// Lines one after the other, to save paper.
std::string run_in(const char* heading, const std::vector<std::string_view>& lines) {
    std::string out = joined({"<p><b>", heading, "</b>"});
    for (const std::string_view line : lines) out += " " + escaped(line);
    return out + "</p>";
}

std::string list_of(const std::vector<std::string_view>& lines) {
    std::string out = "<ul>";
    for (const std::string_view line : lines) out += "<li>" + escaped(line) + "</li>";
    return out + "</ul>";
}

std::string counted(const Count& count) {
    return fmt::format("{} measured: {} within, {} outside, {} not observed",
                       count.within + count.outside + count.not_observed, count.within,
                       count.outside, count.not_observed);
}

/// A sign and a word: colour is never the only carrier.
std::string standing_cell(Standing standing) {
    switch (standing) {
        case Standing::within:
            return "<td>✓ within</td>";
        case Standing::outside:
            return "<td class=\"bad\">✗ outside</td>";
        case Standing::not_observed:
            return "<td class=\"bad\">? not observed</td>";
    }
    return "";
}

/// The grounds of allowed deviations, each once, referred to by number.
class Grounds {
  public:
    std::size_t number_of(const std::string& ground) {
        const auto found = std::find(grounds_.begin(), grounds_.end(), ground);
        if (found == grounds_.end()) grounds_.push_back(ground);
        return static_cast<std::size_t>(std::find(grounds_.begin(), grounds_.end(), ground) -
                                        grounds_.begin()) +
               1;
    }
    [[nodiscard]] std::string list() const {
        std::string out = "<ol class=\"grounds\">";
        for (const std::string& ground : grounds_) out += "<li>" + escaped(ground) + "</li>";
        return out + "</ol>";
    }

  private:
    std::vector<std::string> grounds_;
};

std::string row(const MeasuredLine& line, const std::string& heading, Grounds& grounds) {
    const Measurement& m = line.first();
    const std::string where =
        line.runs.size() > 1 ? fmt::format("{}, {} runs", m.where, line.runs.size()) : m.where;
    return fmt::format(
        "<tr>{}<td>{}</td><td class=\"number\">{}</td><td class=\"number\">{}</td><td "
        "class=\"number\">{}</td><td class=\"number\">{}<sup>{}</sup></td>{}</tr>",
        heading, escaped(where), escaped(value_text(m, m.set)), escaped(line.measured_text()),
        escaped(line.deviation_text()), escaped(allowed_text(m)),
        grounds.number_of(m.allowed.ground), standing_cell(line.standing()));
}

/// Lines that follow each other under one name share its cell.
std::string rows(const std::vector<MeasuredLine>& lines, Grounds& grounds) {
    std::string out;
    for (std::size_t i = 0; i < lines.size();) {
        std::size_t end = i + 1;
        while (end < lines.size() && lines[end].first().name == lines[i].first().name) ++end;
        const std::string heading = fmt::format(
            "<th scope=\"rowgroup\" rowspan=\"{}\"><b>{}</b><span class=\"done\">{}</span></th>",
            end - i, escaped(lines[i].first().name), escaped(lines[i].first().done));
        out += "<tbody>";
        for (std::size_t j = i; j < end; ++j) {
            out += row(lines[j], j == i ? heading : std::string(), grounds);
        }
        out += "</tbody>";
        i = end;
    }
    return out;
}

/// All lines of one name together, in order of the first.
std::vector<MeasuredLine> by_name(std::vector<MeasuredLine> lines) {
    std::vector<std::string> names;
    names.reserve(lines.size());
    for (const MeasuredLine& line : lines) names.push_back(line.first().name);
    const auto place = [&](const MeasuredLine& line) {
        return std::find(names.begin(), names.end(), line.first().name);
    };
    std::stable_sort(lines.begin(), lines.end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
    return lines;
}

std::string test_section(const TestResult& result, Grounds& grounds) {
    const std::string settings = settings_line(result.test);
    const std::string body = rows(by_name(lines_of(result.measurements)), grounds);
    return joined(
        {"<section class=\"test\"><h2>", escaped(result.test.title), "<small>",
         counted(count_of(result)), "</small></h2>",
         result.test.about.empty()
             ? ""
             : joined({"<p class=\"about\">", escaped(result.test.about), "</p>"}),
         "<p class=\"settings\">Settings: ", settings.empty() ? "as delivered" : escaped(settings),
         ".</p>", "<div class=\"wide\">", difference_chart(result), "</div>",
         "<div class=\"wide\"><table class=\"measured\"><thead><tr><th scope=\"col\">measurement"
         "</th><th scope=\"col\">where</th><th scope=\"col\" class=\"number\">set</th><th "
         "scope=\"col\" class=\"number\">measured</th><th scope=\"col\" class=\"number\">deviation"
         "</th><th scope=\"col\" class=\"number\">allowed</th><th scope=\"col\">verdict</th></tr>"
         "</thead>",
         body, "</table></div></section>"});
}

/// What a reader must not have to look for.
std::string troubles(const std::vector<TestResult>& results) {
    std::string out;
    for (const TestResult& result : results) {
        for (const MeasuredLine& line : lines_of(result.measurements)) {
            if (line.standing() == Standing::within) continue;
            const Measurement& m = line.first();
            out +=
                joined({"<li>", escaped(result.test.title), ": <b>", escaped(m.name), "</b>, ",
                        escaped(m.where), ": set ", escaped(value_text(m, m.set)), ", measured ",
                        escaped(line.measured_text()), " (", words_of(line.standing()), ")</li>"});
        }
    }
    return out.empty() ? out : "<ul class=\"bad\">" + out + "</ul>";
}

}  // namespace

std::string settings_line(const ProvingTest& test) {
    const firmware::Settings delivered = firmware::default_settings();
    std::string line;
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const auto setting = static_cast<firmware::Setting>(i);
        if (test.settings[setting] == delivered[setting]) continue;
        std::string name = firmware::setting_table()[i].name;
        std::replace(name.begin(), name.end(), '_', ' ');
        line +=
            (line.empty() ? "" : ", ") + name + " " + setting_text(setting, test.settings[setting]);
    }
    return line;
}

std::string data_sheet_html(const std::vector<TestResult>& results) {
    std::string tests;
    Grounds grounds;
    for (const TestResult& result : results) tests += test_section(result, grounds);
    return filled_page(sheet_page, {{"style", joined({page_css, sheet_css})},
                                    {"device", escaped(device_line)},
                                    {"not_a_certificate", paragraphs(not_a_certificate())},
                                    {"not_covered", run_in("Not covered:", not_covered())},
                                    {"result", counted(count_of(results))},
                                    {"troubles", troubles(results)},
                                    {"tests", tests},
                                    {"grounds", grounds.list()},
                                    {"cautions", list_of(board_cautions())}});
}

}  // namespace noonbench::harness
