// SPDX-License-Identifier: MIT
#include "settings_sheet.hpp"

#include "caution_list.hpp"

#include "settings_sheet_page.hpp"

#include "harness/report/assets.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>

namespace noonbench::harness {

namespace {

std::string paragraph(std::string_view text) {
    return text.empty() ? std::string() : joined({"<p>", escaped(text), "</p>"});
}

/// Escaped, and no number is parted from its unit at the end of a line.
std::string with_units_kept(std::string_view text) {
    static constexpr std::string_view units[] = {"°C", "K", "%", "kWh", "W", "l", "h", "bar"};
    std::string out = escaped(text);
    for (std::size_t at = 1; at + 1 < out.size(); ++at) {
        if (out[at] != ' ' || out[at - 1] < '0' || out[at - 1] > '9') continue;
        const std::string_view behind = std::string_view(out).substr(at + 1);
        const bool unit = std::any_of(std::begin(units), std::end(units),
                                      [&](std::string_view u) { return behind.starts_with(u); });
        if (unit) out.replace(at, 1, "\u00a0");
    }
    return out;
}

std::string cell(const char* name, const char* label, std::string_view text) {
    return joined({"<td class=\"", name, "\"><span class=\"label\">", label, ": </span>",
                   with_units_kept(text), "</td>"});
}

/// A sentence of its own.
std::string with_capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 32);
    return text;
}

/// Without the bytes that only continue a letter of UTF-8.
std::size_t letters_in(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

constexpr std::size_t short_value = 8;  // letters: "120 °C"

/// What was there before, in words: nothing hangs on a colour.
std::string before(const ChosenSetting& setting) {
    if (setting.value == setting.as_delivered) return "as delivered";
    return joined({"<b>change</b>, was ", with_units_kept(setting.as_delivered)});
}

std::string setting_row(const ChosenSetting& setting) {
    return joined({("<tr><th scope=\"row\"><span class=\"what\"><span class=\"box\"></span>"
                    "<span class=\"told\"><span class=\"name\">"),
                   escaped(setting.name), "</span> <span class=\"value",
                   letters_in(setting.value) > short_value ? " words" : "", "\">",
                   with_units_kept(setting.value), "</span> <span class=\"was\">", before(setting),
                   "</span></span></span></th>", cell("because", "because", setting.because),
                   cell("tolerance", "tolerance", setting.tolerance),
                   cell("check", "check", setting.check), "</tr>"});
}

std::string settings_table(const Chosen& chosen) {
    std::string rows;
    for (const ChosenSetting& setting : chosen.settings) rows += setting_row(setting);
    return joined(
        {"<table class=\"set\"><thead><tr><th scope=\"col\">Set this</th><th "
         "scope=\"col\">because</th><th scope=\"col\">tolerance *</th><th scope=\"col\">"
         "check on the day</th></tr></thead><tbody>",
         rows, "</tbody></table>"});
}

std::string with_interval(const Interval& interval) {
    return fmt::format("{} kWh <span class=\"margin\">({} to {})</span>",
                       number_text(interval.figure, 0), number_text(interval.low, 0),
                       number_text(interval.high, 0));
}

std::string figure_row(std::string_view name, std::string_view value) {
    return joined({"<tr><th scope=\"row\">", escaped(name), "</th><td>", value, "</td></tr>"});
}

std::string with_unit(double value, const KeptLimit& limit) {
    const std::string number = number_text(value, limit.decimals);
    return limit.unit.empty() ? number : number + " " + limit.unit;
}

/// A sign and a word: colour carries nothing.
std::string limit_row(const KeptLimit& limit) {
    const std::string rest =
        joined({" <span class=\"margin\">", limit.margin < 0.0 ? "✗ broken by " : "✓ margin ",
                escaped(with_unit(std::abs(limit.margin), limit)), "; kept in ",
                number_text(100.0 * limit.probability, 0), " %</span>"});
    return figure_row(joined({limit.name, ", limit ", with_unit(limit.limit, limit)}),
                      joined({escaped(with_unit(limit.figure, limit)), rest}));
}

std::string figures_table(const Chosen& chosen) {
    std::string rows = figure_row("backup heat saved", with_interval(chosen.saving_kwh)) +
                       figure_row("pump electricity", with_interval(chosen.pump_electricity_kwh)) +
                       figure_row(fmt::format("saved less {} × electricity",
                                              number_text(chosen.electricity_weight, 1)),
                                  with_interval(chosen.objective_kwh)) +
                       figure_row("gain over as delivered", with_interval(chosen.gain_kwh));
    for (const KeptLimit& limit : chosen.limits) rows += limit_row(limit);
    rows += figure_row("all limits at once",
                       fmt::format("kept in {} % of the fresh worlds",
                                   number_text(100.0 * chosen.probability_reached, 0)));
    return joined({"<table class=\"figures\"><tbody>", rows, "</tbody></table>"});
}

/// The first lines only: rules, sources and the rest stand on the page of all choices tried.
std::string theory_lines_of(const Chosen& chosen, std::size_t most_lines) {
    std::string out;
    for (std::size_t i = 0; i < std::min(most_lines, chosen.theory.size()); ++i) {
        const TheoryLine& line = chosen.theory[i];
        out += joined({"<div><dt>", escaped(line.name), "</dt><dd>", escaped(line.theory)});
        if (!line.simulated.empty()) {
            out += joined({". <b>Bench:</b> ", escaped(line.simulated)});
        }
        if (!line.why.empty()) out += joined({". ", escaped(with_capital(line.why))});
        out += "</dd></div>";
    }
    if (out.empty()) return "<p>None asked for.</p>";
    return joined({"<dl class=\"theory-lines\">", out, "</dl>"});
}

std::string found_line(const Chosen& chosen) {
    return fmt::format(
        "Found by simulation, not measured: {} choices in up to {} drawn years, {} runs of the "
        "search, seed {}, "
        "{}; gain and limits in {} fresh worlds. Intervals {} %. Because: that setting alone at "
        "another value, objective (saved less {} × electricity), the search's worlds. * Values of "
        "the choices within {:.2g} % of the best or not proven to be worse, not in every "
        "combination. K = degrees of difference.",
        chosen.tried.size(), chosen.worlds, chosen.trials, chosen.seed, escaped(chosen.climate),
        chosen.fresh_worlds, number_text(100.0 * chosen.confidence, 0),
        number_text(chosen.electricity_weight, 1), 100.0 * chosen.set_within);
}

/// A size of type for paper: what it takes of a page that is 279 mm high between its margins. The
/// columns are in letters of a wide face (DejaVu Sans); narrower faces leave room.
struct TypeSize {
    const char* name;
    double line_mm;
    std::size_t because;  // letters in a column
    std::size_t tolerance;
    std::size_t check;
    double head_mm;  // name, value and what was before
    double pad_mm;
    double small_line_mm;       // cautions, theory
    std::size_t small_letters;  // in half the page's width
    double row_mm;              // of the figures
    double fixed_mm;            // headings, blanks, footer
    std::size_t theory_lines;
};

constexpr TypeSize type_sizes[] = {
    {"roomy", 4.4, 22, 12, 24, 15.0, 2.2, 3.45, 52, 4.1, 76.0, 4},
    {"usual", 4.1, 24, 13, 26, 11.5, 1.7, 3.3, 55, 4.1, 71.0, 3},
    {"dense", 3.4, 28, 15, 30, 7.0, 1.4, 3.0, 58, 3.6, 62.0, 3},
};

std::size_t lines_in(std::string_view text, std::size_t letters) {
    return (letters_in(text) + letters - 1) / letters;
}

double height_mm(const Chosen& chosen, const TypeSize& type) {
    double mm = type.fixed_mm;
    for (const ChosenSetting& setting : chosen.settings) {
        const std::size_t lines = std::max({lines_in(setting.because, type.because),
                                            lines_in(setting.tolerance, type.tolerance),
                                            lines_in(setting.check, type.check)});
        mm += std::max(type.head_mm, static_cast<double>(lines) * type.line_mm) + type.pad_mm;
    }
    mm += static_cast<double>(lines_in(chosen.flat_sentence, 90)) * 4.2;
    std::size_t theory_lines = 0;
    for (std::size_t i = 0; i < std::min(type.theory_lines, chosen.theory.size()); ++i) {
        const TheoryLine& line = chosen.theory[i];
        theory_lines +=
            lines_in(line.name + line.theory + line.simulated + line.why, type.small_letters - 12);
    }
    mm += std::max(static_cast<double>(5 + chosen.limits.size()) * type.row_mm,
                   static_cast<double>(theory_lines) * (type.small_line_mm + 0.3));
    std::size_t caution_lines = 0;
    for (const Caution& caution : chosen.cautions) {
        caution_lines += lines_in(caution.about + caution.text, type.small_letters);
    }
    return mm + 0.5 * static_cast<double>(caution_lines + 1) * (type.small_line_mm + 0.3);
}

/// The largest type that leaves one side of A4; the smallest if none does.
const TypeSize& size_for(const Chosen& chosen) {
    constexpr double page_mm = 279.0;
    for (const TypeSize& type : type_sizes) {
        if (height_mm(chosen, type) <= page_mm) return type;
    }
    return type_sizes[std::size(type_sizes) - 1];
}

}  // namespace

std::string settings_sheet_html(const Chosen& chosen) {
    check_chosen(chosen);
    const TypeSize& type = size_for(chosen);
    return filled_page(
        settings_page,
        {{"style", joined({page_css, settings_css})},
         {"size", type.name},
         {"site", escaped(chosen.site_title)},
         {"site_line", chosen.site_line.empty()
                           ? std::string()
                           : joined({"<p class=\"site\">", escaped(chosen.site_line), "</p>"})},
         {"finding", paragraph(gain_sentence(chosen)) + paragraph(chosen.flat_sentence)},
         {"settings", settings_table(chosen)},
         {"figures", figures_table(chosen)},
         {"theory", theory_lines_of(chosen, type.theory_lines)},
         {"cautions", caution_list(chosen)},
         {"found", found_line(chosen)},
         {"repeat", escaped(chosen.repeat)}});
}

}  // namespace noonbench::harness
