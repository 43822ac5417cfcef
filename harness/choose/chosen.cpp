// SPDX-License-Identifier: MIT
#include "chosen.hpp"

#include "notable.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace noonbench::harness {

namespace {

void demand(bool holds, const std::string& what) {
    if (!holds) throw std::invalid_argument(what);
}

void check_tried(const Chosen& chosen, std::size_t index) {
    const TriedChoice& choice = chosen.tried[index];
    const std::string which = fmt::format("choice {}", index);
    demand(choice.values.size() == chosen.searched.size(),
           fmt::format("{} has {} values, {} settings were searched", which, choice.values.size(),
                       chosen.searched.size()));
    for (std::size_t s = 0; s < choice.values.size(); ++s) {
        demand(choice.values[s] < chosen.searched[s].values.size(),
               which + " has no such " + chosen.searched[s].name);
    }
    for (const double figure :
         {choice.objective_kwh, choice.saving_kwh, choice.pump_electricity_kwh, choice.starts_a_day,
          choice.litres_below_comfort, choice.stagnation_h}) {
        demand(std::isfinite(figure), which + " has a figure that is not finite");
    }
}

/// One quantity over the set.
struct Extent {
    double least = 0.0;
    double most = 0.0;
};

using Quantity = double TriedChoice::*;

Extent extent_in_set(const Chosen& chosen, Quantity quantity) {
    Extent extent;
    bool first = true;
    for (const TriedChoice& choice : chosen.tried) {
        if (!choice.in_set) continue;
        const double value = choice.*quantity;
        extent.least = first ? value : std::min(extent.least, value);
        extent.most = first ? value : std::max(extent.most, value);
        first = false;
    }
    return extent;
}

/// Every choice tried between the ends of the set is in the set.
bool set_is_a_box(const Chosen& chosen) {
    std::vector<std::vector<std::size_t>> inside;
    inside.reserve(chosen.searched.size());
    for (std::size_t s = 0; s < chosen.searched.size(); ++s) {
        inside.push_back(values_in_set(chosen, s));
    }
    return std::all_of(chosen.tried.begin(), chosen.tried.end(), [&](const TriedChoice& choice) {
        for (std::size_t s = 0; s < inside.size(); ++s) {
            const std::size_t value = choice.values[s];
            if (value < inside[s].front() || value > inside[s].back()) return true;
        }
        return choice.in_set;
    });
}

/// "5 K, 7 K to 9 K": neighbours run together.
std::string scale_text(const SearchedSetting& setting, const std::vector<std::size_t>& at) {
    std::string text;
    for (std::size_t i = 0; i < at.size();) {
        std::size_t end = i;
        while (end + 1 < at.size() && at[end + 1] == at[end] + 1) ++end;
        if (!text.empty()) text += ", ";
        text += setting.values[at[i]];
        if (end > i) text += " to " + setting.values[at[end]];
        i = end + 1;
    }
    return text;
}

/// "off, for up to 60 min or 240 min": the words before the first digit are said once.
std::string words_text(const SearchedSetting& setting, const std::vector<std::size_t>& at) {
    std::string text;
    std::string said;
    for (std::size_t i = 0; i < at.size(); ++i) {
        const std::string& value = setting.values[at[i]];
        const std::string words = value.substr(0, value.find_first_of("0123456789"));
        if (i > 0) text += i + 1 == at.size() ? " or " : ", ";
        text += words == said ? value.substr(words.size()) : value;
        said = words;
    }
    return text;
}

std::string ranges_text(const SearchedSetting& setting, const std::vector<std::size_t>& at) {
    return setting.scale ? scale_text(setting, at) : words_text(setting, at);
}

/// "any but off": where nearly everything is as good.
std::string all_but_text(const SearchedSetting& setting, const std::vector<std::size_t>& at) {
    std::vector<std::size_t> others;
    others.reserve(setting.values.size());
    for (std::size_t i = 0; i < setting.values.size(); ++i) {
        if (std::find(at.begin(), at.end(), i) == at.end()) others.push_back(i);
    }
    return "any but " + ranges_text(setting, others);
}

std::string tolerance_text(const SearchedSetting& setting, const std::vector<std::size_t>& at) {
    if (at.empty()) return "not known";
    if (at.size() == 1) return setting.values[at.front()];
    const bool all = at.size() == setting.values.size();
    if (setting.scale) return ranges_text(setting, at) + (all ? " (all that was tried)" : "");
    if (all) return "any that was tried";
    const bool most = at.size() > 3 && at.size() + 1 >= setting.values.size();
    return most ? all_but_text(setting, at) : ranges_text(setting, at);
}

/// "start difference 5 K to 9 K, any stop difference, the rest as chosen"
std::string set_ranges(const Chosen& chosen) {
    std::string text;
    bool rest = false;
    for (std::size_t s = 0; s < chosen.searched.size(); ++s) {
        const SearchedSetting& setting = chosen.searched[s];
        const std::vector<std::size_t> at = values_in_set(chosen, s);
        if (at.size() < 2) {
            rest = true;
            continue;
        }
        if (!text.empty()) text += ", ";
        text += at.size() == setting.values.size() ? "any " + setting.name
                                                   : setting.name + " " + ranges_text(setting, at);
    }
    return rest && !text.empty() ? text + ", the rest as chosen" : text;
}

/// What a choice within the set still decides.
std::string what_differs(const Chosen& chosen) {
    std::string text;
    for (const NotableFigure& item : notable_figures()) {
        const Extent extent = extent_in_set(chosen, item.quantity);
        if (!is_notable(item, extent.least, extent.most)) continue;
        text += fmt::format("{}{}, {} to {} {}", text.empty() ? " What differs is " : "; ",
                            item.name, number_text(extent.least, item.decimals),
                            number_text(extent.most, item.decimals), item.unit);
    }
    return text.empty() ? text : text + ".";
}

/// The search may not be able to tell the settings as delivered from the best while the fresh
/// worlds, which compare just these two, can.
std::string standing_of_delivered(const Chosen& chosen) {
    if (!chosen.delivered || !chosen.tried[*chosen.delivered].in_set) {
        return "; the settings as delivered are not.";
    }
    if (chosen.gain_kwh.low > 0.0) {
        return "; the settings as delivered were among them until the fresh worlds told them "
               "apart.";
    }
    return ", the settings as delivered among them: keep what the customer knows.";
}

std::string flatness(const Chosen& chosen) {
    const auto in_set = static_cast<std::size_t>(
        std::count_if(chosen.tried.begin(), chosen.tried.end(),
                      [](const TriedChoice& choice) { return choice.in_set; }));
    const std::string share = fmt::format("{:.2g} %", 100.0 * chosen.set_within);
    if (in_set < 2) {
        return fmt::format("None of the other choices tried comes within {} of the best.", share);
    }
    const std::string ranges = set_ranges(chosen);
    std::string text;
    if (in_set == chosen.tried.size()) {
        text = fmt::format("Everything that was tried is as good as the best, within {}", share);
    } else if (!ranges.empty() && set_is_a_box(chosen)) {
        text = fmt::format("Everything tried with {} is as good as the best, within {}", ranges,
                           share);
    } else {
        text = fmt::format(
            "{} of the {} choices tried are as good as the best, within {} or not proven to be "
            "worse (their values below, not in every combination)",
            in_set, chosen.tried.size(), share);
    }
    text += standing_of_delivered(chosen);
    return text + what_differs(chosen);
}

}  // namespace

void check_chosen(const Chosen& chosen) {
    for (std::size_t i = 0; i < chosen.tried.size(); ++i) check_tried(chosen, i);
    demand(!chosen.winner || *chosen.winner < chosen.tried.size(), "the winner was not tried");
    demand(!chosen.delivered || *chosen.delivered < chosen.tried.size(),
           "the settings as delivered were not tried");
    for (const Interval& interval :
         {chosen.saving_kwh, chosen.objective_kwh, chosen.pump_electricity_kwh, chosen.gain_kwh}) {
        demand(std::isfinite(interval.figure) && std::isfinite(interval.low) &&
                   std::isfinite(interval.high) && interval.low <= interval.figure &&
                   interval.figure <= interval.high,
               "an interval does not hold its figure");
    }
    for (const KeptLimit& limit : chosen.limits) {
        demand(std::isfinite(limit.limit) && std::isfinite(limit.figure) &&
                   std::isfinite(limit.margin),
               "limit '" + limit.name + "' has a figure that is not finite");
    }
}

std::vector<std::size_t> values_in_set(const Chosen& chosen, std::size_t searched) {
    std::vector<std::size_t> at;
    at.reserve(chosen.searched.at(searched).values.size());
    for (const TriedChoice& choice : chosen.tried) {
        if (choice.in_set) at.push_back(choice.values.at(searched));
    }
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end()), at.end());
    return at;
}

void fill_in_flatness(Chosen& chosen) {
    chosen.flat_sentence = flatness(chosen);
    for (ChosenSetting& setting : chosen.settings) {
        const auto found = std::find_if(
            chosen.searched.begin(), chosen.searched.end(),
            [&](const SearchedSetting& searched) { return searched.name == setting.name; });
        if (found == chosen.searched.end()) continue;
        const auto index = static_cast<std::size_t>(found - chosen.searched.begin());
        setting.tolerance = tolerance_text(*found, values_in_set(chosen, index));
    }
}

std::string choice_text(const Chosen& chosen, const TriedChoice& choice) {
    std::string text;
    for (std::size_t s = 0; s < chosen.searched.size(); ++s) {
        if (!text.empty()) text += ", ";
        text += chosen.searched[s].name + " " + chosen.searched[s].values.at(choice.values.at(s));
    }
    return text;
}

std::string gain_sentence(const Chosen& chosen) {
    if (chosen.winner && chosen.winner == chosen.delivered) {
        return "Nothing tried did better than the settings as delivered.";
    }
    if (!chosen.delivered) return "The settings as delivered were not tried beside these.";
    const Interval& gain = chosen.gain_kwh;
    const std::string interval = fmt::format(
        "{} to {} kWh with {} % confidence, {} fresh worlds", number_text(gain.low, 0),
        number_text(gain.high, 0), number_text(100.0 * chosen.confidence, 0), chosen.fresh_worlds);
    if (gain.low > 0.0) {
        return fmt::format("{} kWh a year better than as delivered ({}).",
                           number_text(gain.figure, 0), interval);
    }
    if (gain.high < 0.0) {
        return fmt::format("{} kWh a year WORSE than as delivered ({}): leave it as delivered.",
                           number_text(-gain.figure, 0), interval);
    }
    return fmt::format("No gain over the settings as delivered can be told: {} kWh a year ({}).",
                       number_text(gain.figure, 0), interval);
}

std::vector<Caution> usual_cautions() {
    return {
        {"Steam",
         "never fill, vent or open the loop while the collector may be hot; before sunrise or with "
         "the collector covered, gauge and collector temperature read first."},
        {"Scalding",
         "the store may stand far above 60 °C, which burns skin in 3 to 5 s. Mixing valve fitted "
         "and tested at a tap with a thermometer before you leave."},
        {"Legionella",
         "what saves heat here does not disinfect. Local rules say how hot, how long and how often "
         "(60 °C in the store is common); rented homes and vulnerable people first."},
        {"Pressure",
         "no setting replaces the relief valve, the vessel or the store's own cut-out. An unvented "
         "store is for licensed people only."},
        {"Height",
         "nothing on this sheet needs the roof. If a check leads there: plan access and protection "
         "from falls first."},
        {"Mains",
         "230 V behind the cover. Isolate, lock off, prove dead; wiring by a licensed "
         "electrician."},
        {"Who decides",
         "local codes, the makers' papers and licensed practice come before anything printed "
         "here."}};
}

}  // namespace noonbench::harness
