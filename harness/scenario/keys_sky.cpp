// SPDX-License-Identifier: MIT
// A clear day with clouds where one wants them, a seeded year, or a weather file.
#include "key_making.hpp"

#include <filesystem>
#include <system_error>

namespace noonbench::harness {

namespace {

plant::ClearDay& day(Draft& d) {
    return d.scenario.sky.clear_day;
}

Key clouds_key() {
    std::vector<Key> items;
    items.push_back(required(key_of(Form::moment, "from", "first second of the shadow's edge",
                                    [](Draft& d) { return &d.cloud.from_s; })));
    items.push_back(number_key("lasts", {"min", 0.05, 1440}, "both edges included",
                               [](Draft& d) { return &d.cloud.lasts_s; }));
    items.push_back(number_key("edge", {"s", 1, 3600}, "from sun to shadow, and back",
                               [](Draft& d) { return &d.cloud.edge_s; }));
    items.push_back(number_key("beam_share", {"%", 0, 100}, "of the clear sun that is left",
                               [](Draft& d) { return &d.cloud.beam_share; }));
    items.push_back(number_key("diffuse_factor", {"", 0, 5}, "on the clear sky's diffuse light",
                               [](Draft& d) { return &d.cloud.diffuse_factor; }));
    items.push_back(key_of(Form::flag, "daily", "again on each later day",
                           [](Draft& d) { return &d.cloud.daily; }));
    Key key =
        list_key("sky.clear_day.clouds", {"", 0, 1000}, "passages of clouds", std::move(items));
    key.open = [](Draft& d) { day(d).clouds.clear(); };
    key.begin = [](Draft& d) { d.cloud = {}; };
    key.take = [](Draft& d) -> std::vector<Objection> {
        day(d).clouds.push_back(d.cloud);
        return {};
    };
    return key;
}

std::vector<Objection> take_weather_file(Draft& d) {
    namespace fs = std::filesystem;
    const Raw& raw = d.weather_file;
    WeatherFile& file = d.scenario.sky.weather_file;
    file.path = path_seen_from(raw.place, raw.text);
    file.place = raw.place;
    std::error_code error;
    if (fs::is_regular_file(file.path, error)) return {};
    return {{"there is no weather file " + file.path.string(),
             "a path seen from the file that names it", raw.place}};
}

}  // namespace

void add_sky_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("sky.clear_day.air_least", {"degC", -40, 45}, "coldest of the day",
                              [](Draft& d) { return &day(d).air_least_c; }));
    keys.push_back(number_key("sky.clear_day.air_most", {"degC", -40, 50}, "warmest of the day",
                              [](Draft& d) { return &day(d).air_most_c; }));
    keys.push_back(number_key("sky.clear_day.turbidity", {"", 1.5, 8},
                              "Linke's; 2 very clean, 7 murky",
                              [](Draft& d) { return &day(d).turbidity; }));
    keys.push_back(number_key("sky.clear_day.wind", {"m/s", 0, 30}, "at the collectors",
                              [](Draft& d) { return &day(d).wind_m_s; }));
    keys.push_back(number_key("sky.clear_day.sky_depression", {"K", 0, 40},
                              "sky dome below the air; left out: from the air temperature",
                              [](Draft& d) { return &day(d).sky_depression_k; }));
    keys.push_back(clouds_key());
    keys.push_back(word_key("sky.seeded_year.climate", {"average", "colder", "warmer"},
                            "of Regulation (EU) 812/2013: Strasbourg, Helsinki, Athens",
                            [](Draft& d) { return byte_of(d.scenario.sky.seeded_year.climate); }));
    keys.push_back(taken(required(key_of(Form::raw, "sky.weather.file", "a year of hourly weather",
                                         [](Draft& d) { return &d.weather_file; })),
                         take_weather_file));
    keys.push_back(key_of(Form::flag, "sky.weather.minute_clouds",
                          "seeded clouds, minute by minute, under the hourly means",
                          [](Draft& d) { return &d.scenario.sky.weather_file.minute_clouds; }));
}

}  // namespace noonbench::harness
