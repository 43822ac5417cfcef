// SPDX-License-Identifier: MIT
#include "sky_feed.hpp"

#include "clock.hpp"

#include "plant/irradiance.hpp"

#include "harness/weather/weather_file.hpp"

#include <utility>

namespace noonbench::harness {
namespace {

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

SkyFeed::Sky sky_of(const Scenario& scenario, std::vector<std::string>& messages) {
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

SkyFeed::SkyFeed(const Scenario& scenario)
    : site_(scenario.plant.site),
      rows_(scenario.plant.rows),
      sky_(std::make_shared<const Sky>(sky_of(scenario, messages_))) {
    if (const auto* file = std::get_if<plant::HourlySky>(sky_.get())) site_ = file->site;
    if (const auto* file = std::get_if<plant::CloudedHours>(sky_.get())) site_ = file->hours.site;
}

std::vector<plant::SkyKnot> SkyFeed::day_of_sky(CivilSeconds midnight) const {
    return std::visit([&](const auto& source) { return plant::knots_of_day(source, midnight); },
                      *sky_);
}

/// A day ends with the first knot of the next, which is kept for then.
std::shared_ptr<const SkyFeed::Knots> SkyFeed::planes_of_day(CivilSeconds midnight) {
    if (tomorrow_.empty() || tomorrow_.front().at_s != midnight) tomorrow_ = day_of_sky(midnight);
    std::vector<plant::SkyKnot> today = std::move(tomorrow_);
    tomorrow_ = day_of_sky(midnight + plant::seconds_a_day);
    if (today.back().at_s < tomorrow_.front().at_s) today.push_back(tomorrow_.front());
    Knots knots;
    knots.reserve(today.size());
    for (const plant::SkyKnot& knot : today) {
        knots.push_back(plant::on_planes(site_, rows_, knot));
    }
    return std::make_shared<const Knots>(std::move(knots));
}

void SkyFeed::keep_days(CivilSeconds from_midnight, CivilSeconds until_midnight) {
    for (CivilSeconds day = from_midnight; day < until_midnight; day += plant::seconds_a_day) {
        if (!kept_.contains(day)) kept_[day] = planes_of_day(day);
    }
}

void SkyFeed::load_day(CivilSeconds midnight) {
    const auto kept = kept_.find(midnight);
    knots_ = kept != kept_.end() ? kept->second : planes_of_day(midnight);
    end_ = 1;
    span_ = {(*knots_)[0], (*knots_)[1]};
}

const plant::WeatherSpan& SkyFeed::at(CivilSeconds now) {
    if (now >= span_.from.at_s && now < span_.to.at_s) return span_;
    if (!knots_ || now < span_.from.at_s || now >= knots_->back().at_s) {
        load_day(day_start(now));
    }
    const Knots& knots = *knots_;
    while (knots[end_].at_s <= now) ++end_;
    span_ = {knots[end_ - 1], knots[end_]};
    return span_;
}

}  // namespace noonbench::harness
