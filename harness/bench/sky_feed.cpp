// SPDX-License-Identifier: MIT
#include "sky_feed.hpp"

#include "clock.hpp"

#include "plant/irradiance.hpp"

#include "harness/weather/weather_file.hpp"

#include <utility>

namespace noonbench::harness {
namespace {

using AnySky =
    std::variant<plant::ClearDay, plant::SeededYear, plant::HourlySky, plant::CloudedHours>;

/// A weather file brings its own place and clock: the sun must stand where its irradiance was
/// measured. The scenario's place serves files that name none.
plant::HourlySky weather_sky(const Scenario& scenario, std::vector<std::string>& messages) {
    const plant::Site& site = scenario.plant.site;
    const WeatherYear year =
        read_weather(scenario.sky.weather_file.path,
                     WeatherPlace{"the scenario's site", plant::degrees(site.latitude_rad),
                                  plant::degrees(site.longitude_rad), site.elevation_m});
    messages.insert(messages.end(), year.messages.begin(), year.messages.end());
    return hourly_sky(year, site_of(year, site));
}

AnySky sky_of(const Scenario& scenario, std::vector<std::string>& messages) {
    switch (scenario.sky.kind) {
        case SkyKind::clear_day:
            break;
        case SkyKind::seeded_year:
            return plant::make_seeded_year(scenario.sky.seeded_year.climate, scenario.seed,
                                           scenario.plant.site);
        case SkyKind::file:
            if (scenario.sky.weather_file.minute_clouds) {
                return plant::CloudedHours{weather_sky(scenario, messages), scenario.seed};
            }
            return weather_sky(scenario, messages);
    }
    plant::ClearDay day = scenario.sky.clear_day;
    day.site = scenario.plant.site;
    return day;
}

}  // namespace

SkyFeed::SkyFeed(const Scenario& scenario, std::vector<std::string>& messages)
    : site_(scenario.plant.site), rows_(scenario.plant.rows), sky_(sky_of(scenario, messages)) {
    if (const auto* file = std::get_if<plant::HourlySky>(&sky_)) site_ = file->site;
    if (const auto* file = std::get_if<plant::CloudedHours>(&sky_)) site_ = file->hours.site;
}

std::vector<plant::SkyKnot> SkyFeed::day_of_sky(CivilSeconds midnight) const {
    return std::visit([&](const auto& source) { return plant::knots_of_day(source, midnight); },
                      sky_);
}

/// A day ends with the first knot of the next, which is kept for then.
void SkyFeed::load_day(CivilSeconds midnight) {
    if (tomorrow_.empty() || tomorrow_.front().at_s != midnight) tomorrow_ = day_of_sky(midnight);
    std::vector<plant::SkyKnot> today = std::move(tomorrow_);
    tomorrow_ = day_of_sky(midnight + plant::seconds_a_day);
    if (today.back().at_s < tomorrow_.front().at_s) today.push_back(tomorrow_.front());
    knots_.clear();
    knots_.reserve(today.size());
    for (const plant::SkyKnot& knot : today) {
        knots_.push_back(plant::on_planes(site_, rows_, knot));
    }
    end_ = 1;
    span_ = {knots_[0], knots_[1]};
}

const plant::WeatherSpan& SkyFeed::at(CivilSeconds now) {
    if (now >= span_.from.at_s && now < span_.to.at_s) return span_;
    if (knots_.empty() || now < span_.from.at_s || now >= knots_.back().at_s) {
        load_day(day_start(now));
    }
    while (knots_[end_].at_s <= now) ++end_;
    span_ = {knots_[end_ - 1], knots_[end_]};
    return span_;
}

}  // namespace noonbench::harness
