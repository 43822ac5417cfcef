// SPDX-License-Identifier: MIT
#include "climate.hpp"

#include "clear_moment.hpp"
#include "climate_fit.hpp"
#include "cloud_spells.hpp"
#include "seeded_air.hpp"

#include <algorithm>

namespace noonbench::plant {

namespace {

Site place(double latitude_deg, double longitude_deg, double elevation_m, std::int32_t offset_s) {
    Site site;
    site.latitude_rad = radians(latitude_deg);
    site.longitude_rad = radians(longitude_deg);
    site.elevation_m = elevation_m;
    site.utc_offset_s = offset_s;
    return site;
}

/// The day's sky, as a function of the second.
class DayOfSky {
  public:
    DayOfSky(const SeededYear& year, CivilSeconds day_start_s)
        : year_(year),
          start_s_(day_start_s),
          day_(day_of_weather_year(date_of(day_start_s))),
          turbidity_(year.linke_turbidity[static_cast<std::size_t>(month_of_day(day_))]),
          clouds_(cloud_climate(year.days[static_cast<std::size_t>(day_)].clearness)),
          edges_(cloud_edges(clouds_.cloudy_share, cloud_stream(year, day_))) {}

    [[nodiscard]] std::vector<SkyKnot> knots() const {
        CoverReader cover(edges_);
        std::vector<SkyKnot> all;
        for (const std::int32_t second : seconds()) {
            all.push_back(knot(second, cover.at(second)));
        }
        return all;
    }

  private:
    [[nodiscard]] std::vector<std::int32_t> seconds() const {
        std::vector<std::int32_t> marks = daylight_marks(year_.site, start_s_, seeded_grid_s);
        if (!marks.empty()) {
            // By night a cloud has nothing to cover.
            const std::int32_t first = marks.front();
            const std::int32_t last = marks.back();
            for (const std::int32_t second : bends(edges_)) {
                if (second > first && second < last) {
                    marks.push_back(second);
                }
            }
        }
        for (std::int32_t hour = 0; hour < 24; ++hour) {
            marks.push_back(hour * 3600);
        }
        std::erase_if(marks, [](std::int32_t second) { return second >= seconds_a_day; });
        std::sort(marks.begin(), marks.end());
        marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
        return marks;
    }

    [[nodiscard]] SkyKnot knot(std::int32_t second, double cover) const {
        SkyKnot sky;
        sky.at_s = start_s_ + second;
        const ClearMoment clear = clear_moment(year_.site, turbidity_, sky.at_s);
        const HorizontalSky clouded = behind_clouds(clear.sky, clouds_, cover, clear.cos_zenith);
        sky.beam_normal_w_m2 = clouded.beam_normal_w_m2;
        sky.diffuse_horizontal_w_m2 = clouded.diffuse_horizontal_w_m2;
        sky.air_c = seeded_air_c(year_, day_, second);
        sky.sky_c = seeded_sky_c(year_, day_, second, sky.air_c);
        sky.wind_m_s = seeded_wind_m_s(year_, day_, second);
        return sky;
    }

    const SeededYear& year_;
    CivilSeconds start_s_;
    int day_;
    double turbidity_;
    CloudClimate clouds_;
    std::vector<CloudEdge> edges_;
};

}  // namespace

ClimateTable climate_table(Climate climate) {
    // Regulation (EU) 812/2013, Annex VII: table 5 (irradiance) for all three, table 4 (daytime
    // temperature) for `average`. Daytime temperatures of `colder` and `warmer` are from memory.
    // Places' heights and turbidities: typical, no source.
    switch (climate) {
        case Climate::colder:
            return {"colder",
                    "Helsinki",
                    place(60.2, 24.9, 20.0, 7200),
                    {22, 75, 124, 192, 234, 237, 238, 181, 120, 64, 23, 13},
                    {-3.8, -4.1, -0.6, 5.2, 11.0, 16.5, 19.3, 18.4, 12.8, 6.7, 1.2, -3.5},
                    {2.2, 2.4, 2.7, 2.9, 2.9, 3.0, 3.1, 3.1, 2.8, 2.6, 2.3, 2.2},
                    4.0};
        case Climate::warmer:
            return {"warmer",
                    "Athens",
                    place(38.0, 23.7, 100.0, 7200),
                    {128, 137, 182, 227, 248, 268, 268, 263, 243, 175, 126, 109},
                    {9.5, 10.1, 11.6, 15.3, 21.4, 26.5, 28.8, 27.9, 23.6, 19.0, 14.5, 10.4},
                    {2.8, 3.0, 3.3, 3.5, 3.6, 3.5, 3.5, 3.5, 3.4, 3.2, 2.9, 2.8},
                    2.2};
        case Climate::average:
            break;
    }
    return {"average",
            "Strasbourg",
            place(48.6, 7.75, 140.0, 3600),
            {70, 104, 149, 192, 221, 222, 232, 217, 176, 129, 80, 56},
            {2.8, 2.6, 7.4, 12.2, 16.3, 19.8, 21.0, 22.0, 17.0, 11.9, 5.6, 3.2},
            {2.6, 2.8, 3.1, 3.3, 3.4, 3.5, 3.5, 3.4, 3.2, 2.9, 2.7, 2.6},
            3.0};
}

SeededYear make_seeded_year(Climate climate, std::uint64_t seed, const Site& site) {
    const ClimateTable table = climate_table(climate);
    SeededYear year;
    year.site = site;
    year.seed = seed;
    year.linke_turbidity = table.linke_turbidity;
    draw_clearness(table, year);
    draw_air(table, year);
    return year;
}

std::vector<SkyKnot> knots_of_day(const SeededYear& year, CivilSeconds day_start_s) {
    return DayOfSky(year, day_start_s).knots();
}

}  // namespace noonbench::plant
