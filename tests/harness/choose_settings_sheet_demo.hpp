// SPDX-License-Identifier: MIT
// A search that never was, for the pages made from one; and whether a page is well formed.
#pragma once
#include "harness/choose/chosen.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness::testing {

/// Invented figures over a grid of start difference, stop difference and drive: flat in the first
/// two, with fewer starts the further they lie apart.
inline TriedChoice invented_choice(std::size_t start, std::size_t stop, std::size_t drive) {
    const double start_k = 4.0 + static_cast<double>(start);
    const double stop_k = 1.0 + static_cast<double>(stop);
    const double off_k = std::abs(start_k - 7.0) + 0.7 * std::abs(stop_k - 3.0);
    TriedChoice choice;
    choice.values = {start, stop, drive};
    choice.worlds = off_k < 5.0 ? 24 : 6;
    choice.saving_kwh = 1480.0 - 0.5 * off_k * off_k - (drive == 0 ? 6.0 : 0.0);
    choice.pump_electricity_kwh = (drive == 0 ? 58.0 : 24.0) + 4.0 / (1.0 + stop_k);
    choice.objective_kwh = choice.saving_kwh - 2.5 * choice.pump_electricity_kwh;
    choice.starts_a_day = (drive == 0 ? 26.0 : 11.0) * std::exp(-0.12 * (start_k - stop_k));
    choice.litres_below_comfort = 900.0 + 9.0 * off_k;
    choice.stagnation_h = 14.0 + 0.6 * start_k;
    choice.holds = choice.starts_a_day < 20.0;
    choice.in_set = drive == 1 && off_k < 2.5;
    return choice;
}

inline std::vector<ChosenSetting> invented_settings() {
    return {{.name = "start difference",
             .value = "7 K",
             .as_delivered = "8 K",
             .tolerance = {},
             .because = "Long pipes cool a first slug; below 5 K it turns back before it pays.",
             .check = "Warm the collector sensor by hand: the pump starts 7 K above the store's."},
            {.name = "stop difference",
             .value = "3 K",
             .as_delivered = "4 K",
             .tolerance = {},
             .because = "Two class B sensors may differ by 1.2 K; less would run the pump on that.",
             .check = "In the evening the pump stops before hot and cold thermometer are level."},
            {.name = "pump drive",
             .value = "target difference",
             .as_delivered = "on and off",
             .tolerance = {},
             .because = "Halves the starts in weak sun and the electricity.",
             .check = "Speed wire in, profile of the pump as on its plate, 30 % moves the flow."},
            {.name = "store limit",
             .value = "70 °C",
             .as_delivered = "75 °C",
             .tolerance = "65 °C to 75 °C",
             .because = "The water is hard; 5 K cost 9 kWh a year and 11 h of boiling.",
             .check = "Mixing valve delivers no more than 50 °C at the nearest tap."},
            {.name = "backup window 1",
             .value = "17:00 to 22:00",
             .as_delivered = "00:00 to 24:00",
             .tolerance = "16:00 to 18:00 start",
             .because = "Leaves the morning's store to the sun; comfort holds in every year.",
             .check = "The controller's clock against a watch, summer time included."}};
}

inline Chosen invented_search() {
    Chosen chosen;
    chosen.site_title = "Mill Row 12, Quellrain";
    chosen.site_line =
        "2 collectors of 2 m², 40° south; 28 m of 18 mm pipe each way, 8 m outdoors; store of "
        "250 l; four people";
    chosen.climate = "average climate, 47.9° north";
    chosen.seed = 7;
    chosen.searched = {
        {"start difference", {"4 K", "5 K", "6 K", "7 K", "8 K", "9 K", "10 K", "11 K", "12 K"}},
        {"stop difference", {"1 K", "2 K", "3 K", "4 K", "5 K"}},
        {"pump drive", {"on and off", "target difference"}}};
    for (std::size_t drive = 0; drive < 2; ++drive) {
        for (std::size_t start = 0; start < 9; ++start) {
            for (std::size_t stop = 0; stop < 5; ++stop) {
                if (stop + 2 > start + 4) continue;
                const TriedChoice choice = invented_choice(start, stop, drive);
                if (start == 3 && stop == 2 && drive == 1) chosen.winner = chosen.tried.size();
                if (start == 4 && stop == 3 && drive == 0) chosen.delivered = chosen.tried.size();
                chosen.tried.push_back(choice);
            }
        }
    }
    chosen.trials = 1512;
    chosen.worlds = 24;
    chosen.fresh_worlds = 24;
    chosen.electricity_weight = 2.5;
    chosen.settings = invented_settings();
    chosen.saving_kwh = {1478.0, 1441.0, 1516.0};
    chosen.objective_kwh = {1415.5, 1379.0, 1452.0};
    chosen.pump_electricity_kwh = {25.0, 23.6, 26.2};
    chosen.gain_kwh = {92.4, 81.3, 104.9};
    chosen.limits = {{"starts a day", "", 20.0, 6.8, 13.2, 1, 1.0},
                     {"water below comfort", "l", 1000.0, 905.0, 95.0, 0, 0.96},
                     {"hours above 120 °C", "h", 20.0, 18.2, 1.8, 1, 0.92}};
    chosen.probability_reached = 0.92;
    chosen.theory = {
        {"start over stop, full flow", "no start and stop by turns from ε ṁ c / (A F_R U_L) on",
         "Duffie & Beckman, controls (from memory)", "at least 6.8; set 2.3: by turns",
         "11.9 starts a day",
         "The rule knows no least run and no heat in metal and fluid; both bridge short gaps"},
        {"start over stop, 30 % flow", "the same", "the same", "at least 3.2; set 2.3: by turns",
         "6.8 starts a day", "Slow flow keeps the collector warm: the speed drive does most of it"},
        {"critical irradiance", "equation 6.8.2", "Duffie & Beckman",
         "218 W/m²; 278 before the coil gets any", "283 W/m²", ""},
        {"published", "start difference raised by 5 to 10 K: daily collection efficiency",
         "Eur. J. Sust. Dev. Res. 2019 (summary seen)", "−26 to 0 points", "−0.9 points",
         "within the published band"}};
    chosen.cautions = usual_cautions();
    chosen.repeat = "noonbench choose scenarios/sites/mill_row_12.yaml --seed 7 --worlds 24";
    fill_in_flatness(chosen);
    return chosen;
}

/// Every text of the search holds `text`; for what must not become markup.
inline Chosen with_text_everywhere(Chosen chosen, const std::string& text) {
    for (std::string* place : {&chosen.site_title, &chosen.site_line, &chosen.climate,
                               &chosen.flat_sentence, &chosen.repeat}) {
        *place += text;
    }
    for (SearchedSetting& searched : chosen.searched) {
        searched.name += text;
        for (std::string& value : searched.values) value += text;
        searched.ground += text;
    }
    for (ChosenSetting& setting : chosen.settings) {
        for (std::string* place : {&setting.name, &setting.value, &setting.as_delivered,
                                   &setting.tolerance, &setting.because, &setting.check}) {
            *place += text;
        }
    }
    for (KeptLimit& limit : chosen.limits) {
        limit.name += text;
        limit.unit += text;
    }
    for (TheoryLine& line : chosen.theory) {
        for (std::string* place :
             {&line.name, &line.rule, &line.source, &line.theory, &line.simulated, &line.why}) {
            *place += text;
        }
    }
    for (Caution& caution : chosen.cautions) {
        caution.about += text;
        caution.text += text;
    }
    return chosen;
}

/// The first thing that is wrong with a page's elements, or nothing: each is closed in its turn
/// (those that HTML never closes, and closed ones of SVG, apart), no id stands twice, and every
/// label and description refers to an id that there is.
class PageCheck {
  public:
    explicit PageCheck(std::string_view page) : page_(page) { walk(); }
    [[nodiscard]] const std::string& wrong() const { return wrong_; }

  private:
    void walk() {
        std::size_t at = page_.find('>', page_.find("<!DOCTYPE html>"));
        while (wrong_.empty() && (at = page_.find('<', at)) != std::string_view::npos) {
            at = tag(at);
        }
        if (wrong_.empty() && !open_.empty()) wrong_ = "<" + open_.back() + "> is never closed";
        for (const std::string& id : asked_) {
            if (wrong_.empty() && ids_.count(id) == 0) wrong_ = "no element has the id " + id;
        }
    }

    std::size_t tag(std::size_t from) {
        const std::size_t end = end_of_tag(from);
        if (end == std::string_view::npos) return fail("a tag has no end", from);
        std::string_view inner = page_.substr(from + 1, end - from - 1);
        if (inner.starts_with('/')) {
            const std::string name(inner.substr(1));
            if (open_.empty() || open_.back() != name) {
                return fail("</" + name + "> closes nothing", end);
            }
            open_.pop_back();
            return end;
        }
        const bool closed = inner.ends_with('/');
        const std::string name(inner.substr(0, inner.find_first_of(" \n/")));
        if (name.empty() || std::isalpha(static_cast<unsigned char>(name[0])) == 0) {
            return fail("a bare < stands at " + std::string(page_.substr(from, 40)), end);
        }
        attributes(inner);
        if (closed || is_void(name)) return end;
        open_.push_back(name);
        if (name == "script" || name == "style") return page_.find("</" + name, end);
        return end;
    }

    [[nodiscard]] std::size_t end_of_tag(std::size_t from) const {
        bool quoted = false;
        for (std::size_t i = from; i < page_.size(); ++i) {
            if (page_[i] == '"') quoted = !quoted;
            if (page_[i] == '>' && !quoted) return i;
        }
        return std::string_view::npos;
    }

    void attributes(std::string_view inner) {
        const std::string id = attribute(inner, " id=\"");
        if (!id.empty() && !ids_.insert(id).second) wrong_ = "the id " + id + " stands twice";
        for (const char* name : {" for=\"", " aria-labelledby=\"", " aria-describedby=\"",
                                 " aria-controls=\"", " href=\"#"}) {
            const std::string asked = attribute(inner, name);
            if (!asked.empty()) asked_.insert(asked);
        }
    }

    static std::string attribute(std::string_view inner, std::string_view name) {
        const std::size_t at = inner.find(name);
        if (at == std::string_view::npos) return {};
        const std::size_t from = at + name.size();
        return std::string(inner.substr(from, inner.find('"', from) - from));
    }

    static bool is_void(const std::string& name) {
        return name == "meta" || name == "input" || name == "br" || name == "hr" || name == "img";
    }

    std::size_t fail(const std::string& what, std::size_t at) {
        wrong_ = what;
        return at;
    }

    std::string_view page_;
    std::vector<std::string> open_;
    std::set<std::string> ids_;
    std::set<std::string> asked_;
    std::string wrong_;
};

inline std::string first_fault_of_page(std::string_view page) {
    return PageCheck(page).wrong();
}

}  // namespace noonbench::harness::testing
