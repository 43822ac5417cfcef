// SPDX-License-Identifier: MIT
#include "choose_answer.hpp"

#include "plant/climate.hpp"
#include "plant/si.hpp"

#include "harness/choose/flat_set_bootstrap.hpp"
#include "harness/choose/halving_scores.hpp"
#include "harness/choose/instead.hpp"
#include "harness/choose/theory_effects.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <string_view>
#include <utility>

namespace noonbench::cli {
namespace {

using harness::Chosen;
using harness::number_text;
using harness::YearFigures;

/// A day in spring, for the theory: the store half warm.
constexpr harness::Moment spring_noon{.store_c = 40.0, .air_c = 15.0};

/// As people write degrees.
std::string with_degrees(std::string text) {
    for (std::size_t at = text.find("degC"); at != std::string::npos; at = text.find("degC", at)) {
        text.replace(at, 4, "°C");
    }
    return text;
}

/// What to look at on the day, for each dimension of the search space.
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> checks_on_the_day{{
    {"start difference", "Warm the collector sensor by hand: the pump starts at this difference."},
    {"stop difference",
     "In the evening the pump stops while the hot pipe is still the warmer one."},
    {"pump drive", "Speed wire in, profile as on the pump's plate, flow seen at the least level."},
    {"store limit", "The mixing valve delivers no more than 50 °C at the nearest tap."},
    {"collector cut-out", "Gauge at the cold pressure for which this was worked out."},
    {"backup windows", "The controller's clock against a watch, summer time included."},
    {"backup temperature", "A thermometer at the nearest tap, after the backup has run."},
    {"solar first", "On a sunny morning the backup waits; on a dull one the shower is warm."},
    {"frost guard", "Cool the collector sensor: the pump starts at this temperature."},
    {"sampling runs", "On a clear morning a short run ends with a warm sensor."},
}};

std::string check_for(std::string_view name) {
    for (const auto& [dimension, check] : checks_on_the_day) {
        if (dimension == name) return std::string(check);
    }
    return {};
}

std::string site_line(const harness::Scenario& site) {
    double area_m2 = 0.0;
    int collectors = 0;
    for (const plant::Row& row : site.plant.rows) {
        area_m2 += row.collector.area_m2 * row.collectors_in_series;
        collectors += row.collectors_in_series;
    }
    const plant::PipeRun& pipe = site.plant.loop.hot_pipe;
    std::string line = fmt::format(
        "{} collector{}, {} m²; {} m of {} mm pipe each way, {} m outdoors; store of {} l",
        collectors, collectors == 1 ? "" : "s", number_text(area_m2, 1),
        number_text(pipe.length_m, 0), number_text(1000.0 * pipe.outer_diameter_m, 0),
        number_text(pipe.outdoor_m, 0), number_text(1000.0 * site.plant.store.volume_m3, 0));
    if (site.household.pattern.profile == plant::DrawProfile::people) {
        line += fmt::format("; {} people", site.household.pattern.people);
    }
    return line;
}

/// Sites are files without a title: "Mill row 12".
std::string name_as_title(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    if (!name.empty() && name[0] >= 'a' && name[0] <= 'z') {
        name[0] = static_cast<char>(name[0] - 'a' + 'A');
    }
    return name;
}

std::string climate_line(const harness::Scenario& site) {
    if (site.sky.kind == harness::SkyKind::file) {
        return "weather of " + site.sky.weather_file.path.filename().string() +
               ", other clouds in each world";
    }
    return fmt::format(
        "{} climate of Regulation (EU) 812/2013, {}° north, another year in each "
        "world",
        plant::climate_table(site.sky.seeded_year.climate).name,
        number_text(plant::degrees(site.plant.site.latitude_rad), 1));
}

double mean_of(std::size_t count, const std::function<double(std::size_t)>& value) {
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) sum += value(i);
    return sum / static_cast<double>(count);
}

/// Builds the plain data piece by piece.
class Answer {
  public:
    explicit Answer(const SearchDone& done) : done_(done) {
        const std::size_t winner = done.search.set.winner;
        winner_point_ = done.grid.point_of(winner);
        for (const std::size_t world : done.fresh_worlds) {
            winner_.push_back(done.years.figures_of_trial({winner, world}));
            as_delivered_.push_back(done.years.figures_as_delivered(world));
            without_sun_.push_back(done.years.figures_without_sun(world));
        }
    }

    Chosen make() {
        chosen_.site_title = done_.site.title;
        if (chosen_.site_title.empty()) chosen_.site_title = name_as_title(done_.site.name);
        chosen_.site_line = site_line(done_.site);
        chosen_.climate = climate_line(done_.site);
        chosen_.seed = done_.seed;
        chosen_.trials = done_.search.trials;
        chosen_.worlds = done_.search.set.worlds;
        chosen_.fresh_worlds = done_.fresh_worlds.size();
        chosen_.electricity_weight = done_.weights.pump;
        chosen_.repeat = done_.repeat;
        add_searched();
        add_tried();
        add_settings();
        add_gains();
        add_limits();
        add_words();
        harness::fill_in_flatness(chosen_);
        return std::move(chosen_);
    }

  private:
    void add_searched() {
        for (const harness::SettingDimension& each : done_.space.dimensions) {
            harness::SearchedSetting searched{each.name, {}, each.scale, with_degrees(each.ground)};
            searched.values.reserve(each.choices.size());
            for (const auto& choice : each.choices) {
                searched.values.push_back(with_degrees(choice.text));
            }
            chosen_.searched.push_back(std::move(searched));
        }
    }

    /// Of the worlds 0 to `worlds` - 1 of the search.
    [[nodiscard]] std::vector<harness::Score> scores_of(std::size_t candidate,
                                                        std::size_t worlds) const {
        std::vector<harness::Score> scores;
        scores.reserve(worlds);
        for (std::size_t world = 0; world < worlds; ++world) {
            scores.push_back(harness::score_of(
                {done_.weeks.figures_of_trial({candidate, world}),
                 done_.weeks.figures_as_delivered(world), done_.weeks.figures_without_sun(world)},
                done_.weights));
        }
        return scores;
    }

    /// Plain means over those worlds; whether the limits hold and the set has it stay open.
    [[nodiscard]] harness::TriedChoice plain_means(std::size_t candidate,
                                                   std::size_t worlds) const {
        harness::TriedChoice choice;
        choice.values = done_.grid.point_of(candidate);
        choice.worlds = worlds;
        const std::vector<harness::Score> scores = scores_of(candidate, worlds);
        std::vector<YearFigures> years;
        years.reserve(worlds);
        for (std::size_t world = 0; world < worlds; ++world) {
            years.push_back(done_.weeks.figures_of_trial({candidate, world}));
        }
        const auto mean = [&](double YearFigures::*figure) {
            return mean_of(worlds, [&](std::size_t i) { return years[i].*figure; });
        };
        choice.objective_kwh =
            mean_of(worlds, [&](std::size_t i) { return scores[i].objective_kwh; });
        choice.saving_kwh = mean_of(worlds, [&](std::size_t i) { return scores[i].saving_kwh; });
        choice.pump_electricity_kwh = mean(&YearFigures::pump_kwh);
        choice.starts_a_day = mean(&YearFigures::pump_starts) / 365.0;
        choice.litres_below_comfort = mean(&YearFigures::cool_l);
        choice.stagnation_h = mean(&YearFigures::stagnation_h);
        return choice;
    }

    /// The estimate is over all worlds.
    [[nodiscard]] harness::TriedChoice tried_choice(const harness::Tried& tried,
                                                    const harness::Estimate& estimate) const {
        harness::TriedChoice choice = plain_means(tried.candidate, tried.by_world.size());
        choice.saving_kwh += estimate.objective_kwh - choice.objective_kwh;
        choice.objective_kwh = estimate.objective_kwh;
        choice.holds = std::all_of(estimate.margins.begin(), estimate.margins.end(),
                                   [](double margin) { return margin >= 0.0; });
        const auto& members = done_.search.set.members;
        choice.in_set = std::any_of(members.begin(), members.end(), [&](const auto& member) {
            return member.candidate == tried.candidate;
        });
        return choice;
    }

    void add_tried() {
        const std::vector<harness::Tried>& all = done_.search.tried;
        const std::vector<harness::Estimate> estimates =
            harness::estimates(all, done_.search.set.worlds);
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (all[i].candidate == done_.search.set.winner) chosen_.winner = i;
            if (all[i].candidate == done_.delivered) chosen_.delivered = i;
            chosen_.tried.push_back(tried_choice(all[i], estimates[i]));
        }
    }

    [[nodiscard]] std::string because(std::size_t dimension) const {
        const harness::SettingDimension& each = done_.space.dimensions[dimension];
        const std::optional<std::size_t>& candidate = done_.instead[dimension];
        if (!candidate) return "Nothing else goes with the other settings.";
        const std::size_t worlds = done_.search.set.worlds;
        const std::size_t level = done_.grid.point_of(*candidate)[dimension];
        harness::Instead instead;
        instead.value = with_degrees(each.choices[level].text);
        instead.as_delivered = level == each.as_delivered;
        instead.chosen = plain_means(done_.search.set.winner, worlds);
        instead.other = plain_means(*candidate, worlds);
        const std::vector<harness::Score> ours = scores_of(done_.search.set.winner, worlds);
        const std::vector<harness::Score> others = scores_of(*candidate, worlds);
        std::vector<double> better;
        better.reserve(worlds);
        for (std::size_t i = 0; i < worlds; ++i) {
            better.push_back(others[i].objective_kwh - ours[i].objective_kwh);
        }
        instead.better_kwh = interval_of(better);
        for (std::size_t c = 0; c < harness::constraint_table().size(); ++c) {
            const double margin =
                mean_of(worlds, [&](std::size_t i) { return others[i].margins[c]; });
            if (margin < 0.0) {
                instead.broken.push_back(
                    with_degrees(std::string(harness::constraint_table()[c].name)));
            }
        }
        return harness::reason_text(instead);
    }

    void add_settings() {
        for (std::size_t i = 0; i < done_.space.dimensions.size(); ++i) {
            const harness::SettingDimension& each = done_.space.dimensions[i];
            harness::ChosenSetting setting;
            setting.name = each.name;
            setting.value = with_degrees(each.choices[winner_point_[i]].text);
            setting.as_delivered = with_degrees(each.choices[each.as_delivered].text);
            setting.because = because(i);
            setting.check = check_for(each.name);
            chosen_.settings.push_back(std::move(setting));
        }
    }

    [[nodiscard]] harness::Interval over_fresh(
        const std::function<double(std::size_t)>& value) const {
        std::vector<double> by_world;
        by_world.reserve(winner_.size());
        for (std::size_t i = 0; i < winner_.size(); ++i) by_world.push_back(value(i));
        return interval_of(by_world);
    }

    /// One number a world.
    [[nodiscard]] harness::Interval interval_of(const std::vector<double>& by_world) const {
        constexpr std::size_t draws = 4000;
        const harness::MeanInterval interval =
            harness::mean_interval(by_world, chosen_.confidence, draws, done_.seed);
        const double mean = harness::mean_of(by_world);
        return {mean, std::min(mean, interval.low), std::max(mean, interval.high)};
    }

    [[nodiscard]] harness::Score score(std::size_t i) const {
        return harness::score_of({winner_[i], as_delivered_[i], without_sun_[i]}, done_.weights);
    }

    void add_gains() {
        chosen_.saving_kwh = over_fresh([&](std::size_t i) { return score(i).saving_kwh; });
        chosen_.objective_kwh = over_fresh([&](std::size_t i) { return score(i).objective_kwh; });
        chosen_.pump_electricity_kwh =
            over_fresh([&](std::size_t i) { return winner_[i].pump_kwh; });
        chosen_.gain_kwh = over_fresh([&](std::size_t i) { return done_.fresh.by_world_kwh[i]; });
    }

    void add_limits() {
        const std::size_t count = winner_.size();
        std::vector<bool> all_held(count, true);
        for (const harness::ConstraintInfo& each : harness::constraint_table()) {
            harness::KeptLimit limit;
            limit.name = with_degrees(std::string(each.name));
            limit.unit = each.unit == "1" ? "" : with_degrees(std::string(each.unit));
            limit.decimals = each.decimals;
            std::size_t held = 0;
            for (std::size_t i = 0; i < count; ++i) {
                const bool holds = each.limit(as_delivered_[i]) >= winner_[i].*each.figure;
                held += holds ? 1U : 0U;
                all_held[i] = all_held[i] && holds;
            }
            limit.figure = mean_of(count, [&](std::size_t i) { return winner_[i].*each.figure; });
            limit.limit =
                mean_of(count, [&](std::size_t i) { return each.limit(as_delivered_[i]); });
            limit.margin = limit.limit - limit.figure;
            limit.probability = static_cast<double>(held) / static_cast<double>(count);
            chosen_.limits.push_back(std::move(limit));
        }
        const auto all = std::count(all_held.begin(), all_held.end(), true);
        chosen_.probability_reached = static_cast<double>(all) / static_cast<double>(count);
    }

    void add_words() {
        harness::Scenario with_winner = done_.site;
        with_winner.controller.settings = harness::settings_at(done_.space, winner_point_);
        chosen_.theory = harness::theory_lines(with_winner, spring_noon, done_.weights.pump);
        chosen_.cautions = harness::usual_cautions();
        for (const std::string& text : done_.space.cautions) {
            chosen_.cautions.push_back({"Settings", with_degrees(text)});
        }
    }

    const SearchDone& done_;
    Chosen chosen_;
    harness::GridPoint winner_point_;
    std::vector<YearFigures> winner_;  // of the fresh worlds, in their order
    std::vector<YearFigures> as_delivered_;
    std::vector<YearFigures> without_sun_;
};

}  // namespace

Chosen chosen_from(const SearchDone& done) {
    return Answer(done).make();
}

std::string chosen_text(const Chosen& chosen) {
    std::string text = fmt::format("{}\n{}\n\n", chosen.site_title, chosen.site_line);
    const auto out = std::back_inserter(text);
    for (const harness::ChosenSetting& each : chosen.settings) {
        fmt::format_to(out, "  {:<20} {:<32} as delivered {}\n", each.name, each.value,
                       each.as_delivered);
        fmt::format_to(out, "  {:<20} {}\n", "", "as good: " + each.tolerance);
    }
    fmt::format_to(out, "\n{}\n{}\n", harness::gain_sentence(chosen), chosen.flat_sentence);
    fmt::format_to(out, "Saves {} kWh of backup heat a year ({} to {}), for {} kWh of pump.\n",
                   number_text(chosen.saving_kwh.figure, 0), number_text(chosen.saving_kwh.low, 0),
                   number_text(chosen.saving_kwh.high, 0),
                   number_text(chosen.pump_electricity_kwh.figure, 0));
    for (const harness::KeptLimit& limit : chosen.limits) {
        if (limit.margin >= 0.0) continue;
        fmt::format_to(out, "NOT KEPT: {}: {} {}, limit {} {}\n", limit.name,
                       number_text(limit.figure, limit.decimals), limit.unit,
                       number_text(limit.limit, limit.decimals), limit.unit);
    }
    fmt::format_to(out, "{} trials in up to {} worlds, {} fresh ones.\n", chosen.trials,
                   chosen.worlds, chosen.fresh_worlds);
    return text;
}

}  // namespace noonbench::cli
