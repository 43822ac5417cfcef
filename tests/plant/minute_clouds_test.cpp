// SPDX-License-Identifier: MIT
#include "plant/minute_clouds.hpp"
#include "plant/calendar.hpp"
#include "plant/clear_moment.hpp"
#include "plant/si.hpp"
#include "plant/sky_source.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <map>
#include <stdexcept>
#include <vector>

BOOST_AUTO_TEST_SUITE(minute_clouds)

namespace {

using namespace noonbench::plant;

static_assert(SkySource<CloudedHours>);

Site site_at(double latitude_deg, double longitude_deg, int offset_h) {
    Site site;
    site.latitude_rad = radians(latitude_deg);
    site.longitude_rad = radians(longitude_deg);
    site.elevation_m = 100.0;
    site.utc_offset_s = offset_h * 3600;
    return site;
}

constexpr double dull_hour = 0.05;
constexpr double clear_hour = 0.96;

/// Share of the clear beam in hour i of the year: clear, dull, and twice broken days in turn. A
/// broken day has clear and dull hours too, and always a clear noon that tells its haze.
double blocked(int i) {
    const int day = i / 24;
    if (day % 4 == 0) return 0.97;
    if (day % 4 == 1) return 0.02;
    if (i % 24 == 12 || i % 5 == 1) return clear_hour;
    return i % 7 == 3 ? dull_hour : 0.1 + 0.07 * (i % 11);
}

bool stays_smooth(int i) {
    return blocked(i) <= dull_hour || blocked(i) >= clear_hour;
}

/// Means of each hour by steps of 5 min under the clear sky's own beam.
HourlySky made_up(const Site& site, std::int32_t first_stamp_s, std::int32_t shift_s) {
    HourlySky sky{site, {}, first_stamp_s, shift_s};
    for (int i = 0; i < 8760; ++i) {
        const CivilSeconds begin =
            midnight_of({2023, 1, 1}) + i * 3600 + first_stamp_s + shift_s - 1800;
        SkyHour hour;
        for (int part = 0; part < 12; ++part) {
            const ClearMoment clear = clear_moment(site, 3.0, begin + 150 + 300 * part);
            const double sine = std::max(0.0, clear.cos_zenith);
            const double beam = clear.sky.beam_normal_w_m2 * sine;
            const double diffuse =
                clear.sky.diffuse_horizontal_w_m2 + 0.2 * (1.0 - blocked(i)) * beam;
            hour.diffuse_horizontal_w_m2 += diffuse / 12.0;
            hour.global_horizontal_w_m2 += (diffuse + blocked(i) * beam) / 12.0;
        }
        hour.air_c = 10.0 + i % 24;
        hour.sky_c = hour.air_c - 15.0;
        hour.wind_m_s = 1.0 + i % 3;
        sky.hours.push_back(hour);
    }
    return sky;
}

const Site middle = site_at(48.0, 8.0, 1);
constexpr CivilSeconds new_year = midnight_of({2023, 1, 1});

template <typename Source>
std::vector<SkyKnot> year_of(const Source& sky) {
    std::vector<SkyKnot> knots;
    for (CivilSeconds day = 0; day <= 365; ++day) {
        const auto more = knots_of_day(sky, new_year + day * seconds_a_day);
        knots.insert(knots.end(), more.begin(), day == 365 ? more.begin() + 1 : more.end());
    }
    return knots;
}

struct Means {
    double global_w_m2 = 0.0, diffuse_w_m2 = 0.0;
};

/// By hours of irradiance, by trapezoids between knots as the plant integrates.
std::map<CivilSeconds, Means> hour_means(const Site& site, CivilSeconds phase_s,
                                         const std::vector<SkyKnot>& knots) {
    std::map<CivilSeconds, Means> means;
    const auto global = [&](const SkyKnot& knot) {
        const SunPosition sun = sun_position(site, static_cast<double>(knot.at_s));
        return knot.diffuse_horizontal_w_m2 +
               knot.beam_normal_w_m2 * std::max(0.0, std::sin(sun.apparent_elevation_rad));
    };
    double before = global(knots[0]);
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const double half = static_cast<double>(knots[i].at_s - knots[i - 1].at_s) / 7200.0;
        const double now = global(knots[i]);
        Means& mean = means[(knots[i - 1].at_s - phase_s) / 3600];
        mean.global_w_m2 += half * (before + now);
        mean.diffuse_w_m2 +=
            half * (knots[i - 1].diffuse_horizontal_w_m2 + knots[i].diffuse_horizontal_w_m2);
        before = now;
    }
    return means;
}

bool same(const std::vector<SkyKnot>& a, const std::vector<SkyKnot>& b) {
    return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(SkyKnot)) == 0;
}

}  // namespace

// The header's bound, 1e-9 of the hour's mean, or of 1 W/m2 where there is less.
BOOST_AUTO_TEST_CASE(every_hour_keeps_its_means) {
    struct Place {
        Site site;
        std::int32_t first_stamp_s, shift_s;
    };
    for (const Place& place :
         {Place{middle, 3600, -1800}, Place{middle, 3600, 634},
          Place{site_at(-43.5, 172.6, 12), 3600, -1800}, Place{site_at(70.0, 25.0, 1), 0, 100}}) {
        const HourlySky hours = made_up(place.site, place.first_stamp_s, place.shift_s);
        const CivilSeconds phase_s = place.first_stamp_s + place.shift_s - 1800;
        const auto expected = hour_means(place.site, phase_s, year_of(hours));
        const auto found = hour_means(place.site, phase_s, year_of(CloudedHours{hours, 7}));
        BOOST_REQUIRE(found.size() == expected.size());
        double worst = 0.0;
        for (const auto& [hour, mean] : expected) {
            const Means& other = found.at(hour);
            const double scale = std::max(1.0, mean.global_w_m2);
            worst = std::max(worst, std::abs(other.global_w_m2 - mean.global_w_m2) / scale);
            worst = std::max(worst, std::abs(other.diffuse_w_m2 - mean.diffuse_w_m2) /
                                        std::max(1.0, mean.diffuse_w_m2));
        }
        BOOST_TEST_MESSAGE("worst hour, relative: " << worst);
        BOOST_TEST(worst < 1e-9);
    }
}

BOOST_AUTO_TEST_CASE(the_shape_is_that_of_a_sky_source) {
    const CloudedHours sky{made_up(middle, 3600, 634), 3};
    for (CivilSeconds day = 0; day < 365; day += 5) {
        const CivilSeconds start = new_year + day * seconds_a_day;
        const auto knots = knots_of_day(sky, start);
        BOOST_REQUIRE(knots.front().at_s == start);
        BOOST_REQUIRE(knots.back().at_s < start + seconds_a_day);
        for (std::size_t i = 1; i < knots.size(); ++i) {
            BOOST_REQUIRE(knots[i].at_s > knots[i - 1].at_s);
        }
        for (const SkyKnot& knot : knots) {
            const ClearMoment clear = clear_moment(middle, 3.0, knot.at_s);
            BOOST_REQUIRE(knot.beam_normal_w_m2 >= 0.0);
            BOOST_REQUIRE(knot.beam_normal_w_m2 <= clear.extraterrestrial_normal_w_m2);
            BOOST_REQUIRE(knot.diffuse_horizontal_w_m2 >= 0.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(clear_and_dull_days_stay_as_they_are) {
    const HourlySky hours = made_up(middle, 3600, -1800);
    const CloudedHours sky{hours, 5};
    for (CivilSeconds day = 0; day < 364; day += 4) {
        const CivilSeconds clear = new_year + day * seconds_a_day;
        const CivilSeconds dull = clear + seconds_a_day;
        const CivilSeconds broken = dull + seconds_a_day;
        BOOST_REQUIRE(same(knots_of_day(sky, clear), knots_of_day(hours, clear)));
        BOOST_REQUIRE(same(knots_of_day(sky, dull), knots_of_day(hours, dull)));
        if (day < 60 || day > 270) continue;  // hardly sun enough at 48 degrees in December
        BOOST_REQUIRE(!same(knots_of_day(sky, broken), knots_of_day(hours, broken)));
    }
}

BOOST_AUTO_TEST_CASE(clear_and_dull_hours_of_a_broken_day_stay_as_they_are) {
    const HourlySky hours = made_up(middle, 3600, -1800);
    int looked_at = 0;
    for (int day = 2; day < 365; day += 4) {
        const CivilSeconds start = new_year + day * seconds_a_day;
        const auto smooth = knots_of_day(hours, start);
        const auto clouded = knots_of_day(CloudedHours{hours, 5}, start);
        for (const SkyKnot& knot : clouded) {
            const auto into = static_cast<int>(knot.at_s - start);
            if (into % 3600 == 0 || !stays_smooth(24 * day + into / 3600)) continue;
            const auto twin = std::find_if(smooth.begin(), smooth.end(), [&](const SkyKnot& other) {
                return other.at_s == knot.at_s;
            });
            BOOST_REQUIRE((twin != smooth.end()));
            BOOST_REQUIRE(twin->beam_normal_w_m2 == knot.beam_normal_w_m2);
            BOOST_REQUIRE(twin->diffuse_horizontal_w_m2 == knot.diffuse_horizontal_w_m2);
            ++looked_at;
        }
    }
    BOOST_TEST(looked_at > 1000);
}

// Twice a cycle of 150 s / (s (1 - s)): at most 12 turns an hour at half cover. A day of broken
// cloud has 10 to 16 hours of sun, few of them at half cover.
BOOST_AUTO_TEST_CASE(a_broken_summer_day_has_some_dozen_passages) {
    const CloudedHours sky{made_up(middle, 3600, -1800), 11};
    int passages = 0;
    int days = 0;
    std::size_t knots = 0;
    int deep = 0;
    for (int day = 122; day < 242; ++day) {
        if (day % 4 < 2) continue;
        ++days;
        bool dark = true;
        for (const SkyKnot& knot : knots_of_day(sky, new_year + day * seconds_a_day)) {
            ++knots;
            const ClearMoment clear = clear_moment(middle, 3.0, knot.at_s);
            if (clear.cos_zenith < 0.1) continue;
            const double share = knot.beam_normal_w_m2 / clear.sky.beam_normal_w_m2;
            if (!dark && share < 0.2) ++passages;
            if (share < 0.2) dark = true;
            if (share > 0.8) dark = false;
            if (std::abs(share - 0.02) < 1e-9) ++deep;
        }
    }
    const double a_day = static_cast<double>(passages) / days;
    BOOST_TEST_CONTEXT(a_day << " passages a day, " << static_cast<double>(knots) / days
                             << " knots, " << deep << " under cloud") {
        BOOST_TEST_MESSAGE(a_day << " passages and " << static_cast<double>(knots) / days
                                 << " knots a day");
        BOOST_TEST(a_day > 15.0);
        BOOST_TEST(a_day < 70.0);
        BOOST_TEST(deep > 2 * passages - 2 * days);
    }
}

// Where the level falls by more than half of the clear beam, 20 to 90 s lie between: but for the
// knots of the hours and stamps that may stand within an edge, which make the fall two shorter
// ones.
BOOST_AUTO_TEST_CASE(edges_are_steep_but_no_steps) {
    const HourlySky hours = made_up(middle, 3600, -1800);
    const CloudedHours sky{hours, 11};
    int edges = 0;
    double steepest = 0.0;
    for (int day = 122; day < 242; ++day) {
        const auto knots = knots_of_day(sky, new_year + day * seconds_a_day);
        for (std::size_t i = 1; i < knots.size(); ++i) {
            const ClearMoment clear = clear_moment(middle, 3.0, knots[i].at_s);
            const auto hour = static_cast<int>((knots[i - 1].at_s - new_year) / 3600);
            if (clear.cos_zenith < 0.3 || stays_smooth(hour)) continue;
            const double fall =
                std::abs(knots[i].beam_normal_w_m2 - knots[i - 1].beam_normal_w_m2) /
                clear.sky.beam_normal_w_m2;
            const auto lasts = static_cast<double>(knots[i].at_s - knots[i - 1].at_s);
            steepest = std::max(steepest, fall / lasts);
            if (fall < 0.6) continue;
            BOOST_TEST_CONTEXT(
                "day " << day << ", second " << knots[i].at_s - new_year - day * seconds_a_day
                       << ", " << lasts << " s, fall " << fall << ", hour of " << blocked(hour)) {
                BOOST_REQUIRE(lasts <= 90.0);
            }
            ++edges;
        }
    }
    BOOST_TEST_MESSAGE(edges << " edges, steepest " << steepest << " of the clear beam a second");
    BOOST_TEST(edges > 1000);
    // From 2 % to 107 % (the haze of 97 %, shifted by 10 % at most) in 20 s, and 3 % for the hours'
    // curves. A knot of the smooth hour may cut an edge in two, so their lengths do not tell.
    BOOST_TEST(steepest < 1.08 / 20.0);
}

BOOST_AUTO_TEST_CASE(days_are_the_same_in_any_order_and_year) {
    const CloudedHours sky{made_up(middle, 3600, -1800), 21};
    const CivilSeconds may = midnight_of({2023, 5, 4});
    const auto first = knots_of_day(sky, may);
    (void)knots_of_day(sky, may + 40 * seconds_a_day);
    (void)knots_of_day(sky, may - seconds_a_day);
    BOOST_TEST(same(first, knots_of_day(sky, may)));
    BOOST_TEST(same(first, knots_of_day(CloudedHours{sky.hours, 21}, may)));
    BOOST_TEST(!same(first, knots_of_day(CloudedHours{sky.hours, 22}, may)));
}

BOOST_AUTO_TEST_CASE(air_sky_and_wind_are_those_of_the_hours) {
    const HourlySky hours = made_up(middle, 3600, 634);
    const CivilSeconds start = midnight_of({2023, 6, 4});
    const auto smooth = knots_of_day(hours, start);
    std::size_t after = 1;
    for (const SkyKnot& knot : knots_of_day(CloudedHours{hours, 2}, start)) {
        while (after + 1 < smooth.size() && smooth[after].at_s < knot.at_s) ++after;
        if (knot.at_s > smooth.back().at_s) break;
        const SkyKnot& a = smooth[after - 1];
        const SkyKnot& b = smooth[after];
        const double share =
            static_cast<double>(knot.at_s - a.at_s) / static_cast<double>(b.at_s - a.at_s);
        BOOST_CHECK_SMALL(knot.air_c - a.air_c - share * (b.air_c - a.air_c), 1e-12);
        BOOST_CHECK_SMALL(knot.sky_c - a.sky_c - share * (b.sky_c - a.sky_c), 1e-12);
        BOOST_CHECK_SMALL(knot.wind_m_s - a.wind_m_s - share * (b.wind_m_s - a.wind_m_s), 1e-12);
    }
}

BOOST_AUTO_TEST_CASE(a_year_that_is_too_short_is_refused) {
    CloudedHours sky{made_up(middle, 3600, -1800), 1};
    sky.hours.hours.pop_back();
    BOOST_CHECK_THROW((void)knots_of_day(sky, 0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
