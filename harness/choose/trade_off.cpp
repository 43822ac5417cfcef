// SPDX-License-Identifier: MIT
#include "trade_off.hpp"

#include "caution_list.hpp"

#include "trade_off_page.hpp"
#include "trade_off_picture.hpp"

#include "harness/report/assets.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <string_view>

namespace noonbench::harness {

namespace {

// ---------------------------------------------------------------- controls

std::string option(std::size_t value, std::string_view text, bool selected) {
    return joined({"<option value=\"", std::to_string(value), "\"", selected ? " selected" : "",
                   ">", escaped(text), "</option>"});
}

std::string axis_choice(const char* id, const char* label, std::size_t selected) {
    std::string options;
    for (std::size_t i = 0; i < figure_axes.size(); ++i) {
        options +=
            option(i, joined({figure_axes[i].name, ", ", figure_axes[i].unit}), i == selected);
    }
    return joined({"<p class=\"axis-choice\"><label for=\"", id, "\">", label,
                   "</label><select id=\"", id, "\">", options, "</select></p>"});
}

std::string setting_filters(const Chosen& chosen) {
    std::string out =
        "<p><label for=\"show\">show</label><select id=\"show\"><option value=\"all\" selected>all "
        "that was tried</option><option value=\"holds\">what keeps every limit</option><option "
        "value=\"set\">what is as good as the best</option></select></p>";
    for (std::size_t s = 0; s < chosen.searched.size(); ++s) {
        const SearchedSetting& setting = chosen.searched[s];
        std::string options = "<option value=\"\" selected>any</option>";
        for (std::size_t v = 0; v < setting.values.size(); ++v) {
            options += option(v, setting.values[v], false);
        }
        out += fmt::format(
            "<p><label for=\"filter-{0}\">{1}</label><select id=\"filter-{0}\">{2}</select></p>", s,
            escaped(setting.name), options);
    }
    return out + fmt::format(
                     "<p><label class=\"tick-box\" for=\"sure\"><input type=\"checkbox\" "
                     "id=\"sure\"> judged in all {} years</label></p>",
                     chosen.worlds);
}

// ---------------------------------------------------------------- legend and table

std::string legend_item(const char* mark_class, const char* path, std::string_view words) {
    return joined(
        {("<li><svg class=\"swatch\" width=\"28\" height=\"26\" viewBox=\"-14 -14 28 26\" "
          "aria-hidden=\"true\"><path class=\""),
         mark_class, "\" d=\"", path, "\"/></svg>", words, "</li>"});
}

std::string marks_legend() {
    return joined(
        {"<ul class=\"legend\">",
         legend_item("mark-winner", path_of(Mark::winner), words_of(Mark::winner)),
         legend_item("mark-in-set", path_of(Mark::in_set), words_of(Mark::in_set)),
         legend_item("mark-tried", path_of(Mark::tried), words_of(Mark::tried)),
         legend_item("mark-breaks", path_of(Mark::breaks_limit), words_of(Mark::breaks_limit)),
         legend_item("mark-delivered", delivered_path, "as delivered (about its mark)"), "</ul>"});
}

std::string table_head(const Chosen& chosen) {
    std::string cells = "<th scope=\"col\" class=\"word\">standing</th>";
    for (const SearchedSetting& setting : chosen.searched) {
        cells += joined({"<th scope=\"col\">", escaped(setting.name), "</th>"});
    }
    for (const FigureAxis& axis : figure_axes) {
        cells += joined({"<th scope=\"col\">", axis.name, ", ", axis.unit, "</th>"});
    }
    return joined({"<thead><tr>", cells,
                   "<th scope=\"col\">limits</th><th scope=\"col\">years judged in</th></tr>"
                   "</thead>"});
}

std::string table_row(const Chosen& chosen, std::size_t index) {
    const TriedChoice& choice = chosen.tried[index];
    const bool notable = chosen.winner == index || chosen.delivered == index;
    std::string cells = joined(
        {"<th scope=\"row\" class=\"word\">", escaped(standing_text(chosen, index)), "</th>"});
    for (std::size_t s = 0; s < chosen.searched.size(); ++s) {
        cells += joined({"<td>", escaped(chosen.searched[s].values[choice.values[s]]), "</td>"});
    }
    for (const FigureAxis& axis : figure_axes) {
        cells += joined({"<td>", number_text(choice.*axis.figure, axis.decimals), "</td>"});
    }
    return fmt::format("<tr data-choice=\"{}\"{}>{}<td>{}</td><td>{}</td></tr>", index,
                       notable ? " class=\"notable\"" : "", cells,
                       choice.holds ? "✓ kept" : "✗ broken", choice.worlds);
}

/// Best objective first.
std::string choices_table(const Chosen& chosen) {
    std::vector<std::size_t> order(chosen.tried.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return chosen.tried[a].objective_kwh > chosen.tried[b].objective_kwh;
    });
    std::string rows;
    for (const std::size_t index : order) rows += table_row(chosen, index);
    return joined({("<table class=\"choices-table\"><caption>Best objective first; a choice judged "
                    "in fewer years lies less surely.</caption>"),
                   table_head(chosen), "<tbody>", rows, "</tbody></table>"});
}

std::string searched_table(const Chosen& chosen) {
    if (chosen.searched.empty()) return "<p>Nothing.</p>";
    std::string rows;
    for (const SearchedSetting& setting : chosen.searched) {
        std::string values;
        for (const std::string& value : setting.values) {
            values += (values.empty() ? "" : "; ") + escaped(value);
        }
        rows += joined({"<tr><th scope=\"row\">", escaped(setting.name), "</th><td>", values,
                        "</td><td>", escaped(setting.ground), "</td></tr>"});
    }
    return joined(
        {"<table class=\"theory-table\"><thead><tr><th scope=\"col\">setting</th><th "
         "scope=\"col\">values</th><th scope=\"col\">why these</th></tr></thead><tbody>",
         rows, "</tbody></table>"});
}

std::string theory_table(const Chosen& chosen) {
    if (chosen.theory.empty()) return "<p>None asked for.</p>";
    std::string rows;
    for (const TheoryLine& line : chosen.theory) {
        rows += joined({"<tr><th scope=\"row\">", escaped(line.name), "</th><td>",
                        escaped(line.rule), "</td><td>", escaped(line.theory), "</td><td>",
                        line.simulated.empty() ? "not asked" : escaped(line.simulated), "</td><td>",
                        escaped(line.why), "</td><td class=\"source\">", escaped(line.source),
                        "</td></tr>"});
    }
    return joined(
        {"<table class=\"theory-table\"><thead><tr><th scope=\"col\">about</th><th "
         "scope=\"col\">rule or finding</th><th scope=\"col\">it says</th><th "
         "scope=\"col\">the bench shows</th><th scope=\"col\">how they agree</th><th "
         "scope=\"col\">source</th></tr></thead><tbody>",
         rows, "</tbody></table>"});
}

// ---------------------------------------------------------------- data of the script

std::string choice_json(const Chosen& chosen, std::size_t index) {
    const TriedChoice& choice = chosen.tried[index];
    std::string values;
    for (const std::size_t value : choice.values) {
        values += (values.empty() ? "" : ",") + std::to_string(value);
    }
    std::string figures;
    for (const FigureAxis& axis : figure_axes) {
        figures += fmt::format("{}{:.3f}", figures.empty() ? "" : ",", choice.*axis.figure);
    }
    return fmt::format(
        "{{\"values\":[{}],\"figures\":[{}],\"worlds\":{},\"holds\":{},\"set\":{},"
        "\"standing\":{}}}",
        values, figures, choice.worlds, choice.holds, choice.in_set,
        json_text(standing_text(chosen, index)));
}

std::string page_data(const Chosen& chosen) {
    std::string figures;
    for (const FigureAxis& axis : figure_axes) {
        figures += fmt::format("{}{{\"name\":{},\"unit\":{},\"decimals\":{},\"more\":{}}}",
                               figures.empty() ? "" : ",", json_text(axis.name),
                               json_text(axis.unit), axis.decimals, axis.more_is_better);
    }
    std::string settings;
    for (const SearchedSetting& setting : chosen.searched) {
        std::string values;
        for (const std::string& value : setting.values) {
            values += (values.empty() ? "" : ",") + json_text(value);
        }
        settings += fmt::format("{}{{\"name\":{},\"values\":[{}]}}", settings.empty() ? "" : ",",
                                json_text(setting.name), values);
    }
    std::string choices;
    for (std::size_t i = 0; i < chosen.tried.size(); ++i) {
        choices += (i == 0 ? "" : ",\n") + choice_json(chosen, i);
    }
    const auto place = [](const std::optional<std::size_t>& index) {
        return index ? std::to_string(*index) : std::string("-1");
    };
    return fmt::format(
        "{{\"figures\":[{}],\"settings\":[{}],\"worlds\":{},\"winner\":{},"
        "\"delivered\":{},\"choices\":[\n{}]}}",
        figures, settings, chosen.worlds, place(chosen.winner), place(chosen.delivered), choices);
}

std::string how_found(const Chosen& chosen) {
    return fmt::format(
        "Found by simulation, not measured: {} choices in up to {} drawn years, {} runs, seed {}, "
        "{}. Objective: backup heat saved less {} times the pump's electricity. As good as the "
        "best: no more than {:.2g} % of the saving behind it, or not proven to be. Where a choice "
        "ran in fewer years than others, what these years give or take to all is taken out.",
        chosen.tried.size(), chosen.worlds, chosen.trials, chosen.seed, escaped(chosen.climate),
        number_text(chosen.electricity_weight, 1), 100.0 * chosen.set_within);
}

}  // namespace

std::string trade_off_html(const Chosen& chosen) {
    check_chosen(chosen);
    return filled_page(
        trade_off_page,
        {{"style", joined({page_css, trade_off_css})},
         {"site", escaped(chosen.site_title)},
         {"site_line", joined({"<p class=\"site\">", escaped(chosen.site_line), "</p>"})},
         {"finding", joined({"<p>", escaped(gain_sentence(chosen)), "</p><p>",
                             escaped(chosen.flat_sentence), "</p>"})},
         {"axis_controls", axis_choice("y-figure", "up the side", first_y) +
                               axis_choice("x-figure", "along the bottom", first_x)},
         {"filters", setting_filters(chosen)},
         {"picture", trade_off_picture(chosen)},
         {"legend", marks_legend()},
         {"none_tried", chosen.tried.empty() ? "<p>Nothing was tried.</p>" : ""},
         {"table", choices_table(chosen)},
         {"searched", searched_table(chosen)},
         {"theory", theory_table(chosen)},
         {"cautions", caution_list(chosen)},
         {"found", how_found(chosen)},
         {"repeat", escaped(chosen.repeat)},
         {"data", page_data(chosen)},
         {"script", std::string(trade_off_js)}});
}

}  // namespace noonbench::harness
