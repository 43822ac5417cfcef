// SPDX-License-Identifier: MIT
#include "plant/climate.hpp"
#include "plant/cloud_spells.hpp"
#include "plant/seeded_air.hpp"
#include "plant/sky_source.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstring>

BOOST_AUTO_TEST_SUITE(climate)

using namespace noonbench::plant;

static_assert(SkySource<SeededYear>);

namespace {

constexpr CivilSeconds start_s = midnight_of({2021, 1, 1});

const SeededYear& year_of_seed_one() {
    static const SeededYear year = make_seeded_year(Climate::average, 1, Site{});
    return year;
}

bool same_bytes(const std::vector<SkyKnot>& a, const std::vector<SkyKnot>& b) {
    return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(SkyKnot)) == 0;
}

double cloudy_share_of(const SeededDay& day) {
    return cloud_climate(day.clearness).cloudy_share;
}

}  // namespace

BOOST_AUTO_TEST_CASE(days_in_any_order_give_the_same_bytes) {
    std::vector<std::vector<SkyKnot>> forward;
    for (int day = 0; day < 365; day += 9) {
        forward.push_back(knots_of_day(year_of_seed_one(), start_s + day * seconds_a_day));
    }
    const SeededYear again = make_seeded_year(Climate::average, 1, Site{});
    for (int i = static_cast<int>(forward.size()) - 1; i >= 0; --i) {
        const auto knots = knots_of_day(again, start_s + i * 9 * seconds_a_day);
        BOOST_TEST(same_bytes(knots, forward[static_cast<std::size_t>(i)]), "day " << i * 9);
    }
    const SeededYear other = make_seeded_year(Climate::average, 2, Site{});
    BOOST_TEST(!same_bytes(knots_of_day(other, start_s), forward[0]));
}

BOOST_AUTO_TEST_CASE(days_begin_at_midnight_and_their_knots_rise) {
    const Site tromso{radians(69.65), radians(18.96), 10.0, 3600, 0.2, {}};
    for (const Site& site : {Site{}, tromso}) {
        SeededYear year = year_of_seed_one();
        year.site = site;
        for (int day = -1; day < 367; ++day) {
            const CivilSeconds midnight_s = start_s + day * seconds_a_day;
            const auto knots = knots_of_day(year, midnight_s);
            BOOST_TEST_CONTEXT("latitude " << degrees(site.latitude_rad) << " day " << day) {
                BOOST_TEST(knots.front().at_s == midnight_s);
                BOOST_TEST(knots.back().at_s >= midnight_s + 23 * 3600);
                BOOST_TEST(knots.back().at_s < midnight_s + seconds_a_day);
                for (std::size_t i = 1; i < knots.size(); ++i) {
                    BOOST_REQUIRE(knots[i].at_s > knots[i - 1].at_s);
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(the_midnight_sun_shines_at_midnight_and_the_polar_night_is_dark) {
    SeededYear year = year_of_seed_one();
    year.site = Site{radians(69.65), radians(18.96), 10.0, 3600, 0.2, {}};
    double midsummer_midnight = 0.0;
    for (int day = 1; day <= 30; ++day) {
        const CivilDate june{2021, 6, static_cast<unsigned>(day)};
        const auto bright = knots_of_day(year, midnight_of(june));
        midsummer_midnight += bright.front().beam_normal_w_m2;
        const auto tens = std::count_if(bright.begin(), bright.end(),
                                        [](const auto& knot) { return knot.at_s % 600 == 0; });
        BOOST_TEST(tens == 144);  // every ten minutes, all around
        const CivilDate december{2021, 12, static_cast<unsigned>(day)};
        for (const SkyKnot& knot : knots_of_day(year, midnight_of(december))) {
            BOOST_REQUIRE(knot.beam_normal_w_m2 + knot.diffuse_horizontal_w_m2 == 0.0);
        }
    }
    BOOST_TEST(midsummer_midnight > 0.0);
}

BOOST_AUTO_TEST_CASE(a_day_needs_some_hundreds_of_knots) {
    std::size_t sum = 0;
    std::size_t most = 0;
    for (int day = 0; day < 365; ++day) {
        const auto size = knots_of_day(year_of_seed_one(), start_s + day * seconds_a_day).size();
        sum += size;
        most = std::max(most, size);
    }
    BOOST_TEST(sum / 365 > 100U);
    BOOST_TEST(sum / 365 < 300U);
    BOOST_TEST(most < 720U);  // half of one a minute
}

BOOST_AUTO_TEST_CASE(values_are_those_of_a_sky) {
    for (int day = 0; day < 365; ++day) {
        for (const SkyKnot& knot :
             knots_of_day(year_of_seed_one(), start_s + day * seconds_a_day)) {
            BOOST_TEST_CONTEXT("day " << day << " second " << knot.at_s) {
                BOOST_REQUIRE(knot.beam_normal_w_m2 >= 0.0);
                BOOST_REQUIRE(knot.beam_normal_w_m2 < 1050.0);
                BOOST_REQUIRE(knot.diffuse_horizontal_w_m2 >= 0.0);
                BOOST_REQUIRE(knot.diffuse_horizontal_w_m2 < 500.0);
                BOOST_REQUIRE(knot.sky_c < knot.air_c);
                BOOST_REQUIRE(knot.sky_c > knot.air_c - 30.0);
                BOOST_REQUIRE(knot.wind_m_s > 0.0);
                BOOST_REQUIRE(knot.wind_m_s < 30.0);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(clear_and_overcast_days_are_common_and_their_shares_follow_the_climate) {
    int clear[3] = {0, 0, 0};
    int overcast[3] = {0, 0, 0};
    for (int which = 0; which < 3; ++which) {
        const SeededYear year = make_seeded_year(static_cast<Climate>(which), 5, Site{});
        for (const SeededDay& day : year.days) {
            clear[which] += cloudy_share_of(day) < 0.2 ? 1 : 0;
            overcast[which] += cloudy_share_of(day) > 0.8 ? 1 : 0;
        }
        BOOST_TEST_CONTEXT("climate " << which << " clear " << clear[which] << " overcast "
                                      << overcast[which]) {
            BOOST_TEST(clear[which] > 36);     // a tenth of the year at least, of either kind
            BOOST_TEST(overcast[which] > 36);  // (typical of Europe, no source)
        }
    }
    BOOST_TEST(clear[1] < clear[2]);  // colder, warmer
    BOOST_TEST(overcast[1] > overcast[2]);
}

BOOST_AUTO_TEST_CASE(weather_persists_from_day_to_day) {
    double clearness = 0.0;
    double air = 0.0;
    double squares = 0.0;
    constexpr int seeds = 40;
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        const auto dull = persistent_noise(random_stream(seed, "a"), 0.4);
        const auto warm = persistent_noise(random_stream(seed, "b"), 0.8);
        for (std::size_t day = 0; day < 365; ++day) {
            const std::size_t next = (day + 1) % 365;  // a ring
            clearness += dull[day] * dull[next];
            air += warm[day] * warm[next];
            squares += dull[day] * dull[day];
        }
    }
    constexpr double count = seeds * 365.0;
    // Standard errors over n = 14,600 days: correlations about 0.01, and 0.02 for the slower.
    BOOST_CHECK_SMALL(clearness / count - 0.4, 0.04);
    BOOST_CHECK_SMALL(air / count - 0.8, 0.08);
    BOOST_CHECK_SMALL(squares / count - 1.0, 0.05);
}

BOOST_AUTO_TEST_CASE(new_year_follows_from_new_years_eve) {
    double across = 0.0;
    constexpr int seeds = 2000;
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        const auto noise = persistent_noise(random_stream(seed, "ring"), 0.8);
        across += noise.back() * noise.front();
    }
    // A product of two unit normals with correlation 0.8 has variance 1 + 0.64; four errors.
    BOOST_CHECK_SMALL(across / seeds - 0.8, 4 * std::sqrt(1.64 / seeds));
}

BOOST_AUTO_TEST_CASE(air_is_smooth_over_midnight_and_swings_further_on_clear_days) {
    const SeededYear& year = year_of_seed_one();
    double clear_swing = 0.0;
    double dull_swing = 0.0;
    int clear_days = 0;
    int dull_days = 0;
    for (int day = 0; day < 365; ++day) {
        const int next = (day + 1) % 365;
        const double before = seeded_air_c(year, day, 86399);
        const double after = seeded_air_c(year, next, 0);
        const double later = seeded_air_c(year, next, 1);
        // Steepest fall of a half cosine over 14 h: pi / 2 times the mean slope; 40 K bounds it.
        BOOST_TEST(std::abs(after - before) < 40.0 * 1.58 / 50400.0);
        BOOST_CHECK_SMALL((later - after) - (after - before), 1e-6);  // no kink
        const SeededDay& own = year.days[static_cast<std::size_t>(day)];
        BOOST_TEST(seeded_air_c(year, day, 15 * 3600) == own.air_most_c);
        BOOST_TEST(seeded_air_c(year, day, 5 * 3600) == own.air_least_c);
        const double swing = own.air_most_c - own.air_least_c;
        const double share = cloudy_share_of(own);
        clear_swing += share < 0.2 ? swing : 0.0;
        clear_days += share < 0.2 ? 1 : 0;
        dull_swing += share > 0.8 ? swing : 0.0;
        dull_days += share > 0.8 ? 1 : 0;
    }
    BOOST_TEST(clear_swing / clear_days > dull_swing / dull_days + 3.0);
}

BOOST_AUTO_TEST_CASE(clear_nights_have_a_colder_sky) {
    const SeededYear& year = year_of_seed_one();
    double clear_k = 0.0;
    double dull_k = 0.0;
    int clear_nights = 0;
    int dull_nights = 0;
    for (int day = 1; day < 365; ++day) {
        const double share = 0.5 * (cloudy_share_of(year.days[static_cast<std::size_t>(day)]) +
                                    cloudy_share_of(year.days[static_cast<std::size_t>(day - 1)]));
        const double air_c = seeded_air_c(year, day, 0);
        const double under_k = air_c - seeded_sky_c(year, day, 0, air_c);
        clear_k += share < 0.2 ? under_k : 0.0;
        clear_nights += share < 0.2 ? 1 : 0;
        dull_k += share > 0.8 ? under_k : 0.0;
        dull_nights += share > 0.8 ? 1 : 0;
    }
    BOOST_REQUIRE(clear_nights > 10);
    BOOST_REQUIRE(dull_nights > 10);
    BOOST_TEST_CONTEXT("clear " << clear_k / clear_nights << " dull " << dull_k / dull_nights) {
        // Common practice, no source: a clear sky is 10..25 K under the air, a covered one 2..9 K.
        BOOST_TEST(clear_k / clear_nights > 10.0);
        BOOST_TEST(clear_k / clear_nights < 25.0);
        BOOST_TEST(dull_k / dull_nights > 2.0);
        BOOST_TEST(dull_k / dull_nights < 9.0);
    }
}

BOOST_AUTO_TEST_CASE(wind_keeps_its_mean_and_blows_harder_in_the_afternoon) {
    double sum = 0.0;
    double afternoon = 0.0;
    double night = 0.0;
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
        SeededYear year;
        year.seed = seed;
        draw_air(climate_table(Climate::average), year);
        for (int day = 0; day < 365; ++day) {
            for (int hour = 0; hour < 24; ++hour) {
                sum += seeded_wind_m_s(year, day, hour * 3600);
            }
            afternoon += seeded_wind_m_s(year, day, 14 * 3600);
            night += seeded_wind_m_s(year, day, 2 * 3600);
        }
    }
    // Lognormal with s = 0.4 about 2.5 m/s: standard error of 1095 days about 1.3 %; four.
    BOOST_CHECK_CLOSE(sum / (3 * 365 * 24), 2.5, 5.2);
    // 1.25 / 0.75 by construction; the gusts of the hour add 1 % each.
    BOOST_CHECK_CLOSE(afternoon / night, 1.25 / 0.75, 6.0);
}

BOOST_AUTO_TEST_CASE(each_calendar_year_repeats_and_the_leap_day_is_the_28th) {
    const SeededYear& year = year_of_seed_one();
    const auto leap_day = knots_of_day(year, midnight_of({2024, 2, 29}));
    const auto before = knots_of_day(year, midnight_of({2024, 2, 28}));
    BOOST_TEST(leap_day[0].wind_m_s == before[0].wind_m_s);
    const auto then = knots_of_day(year, midnight_of({2030, 7, 1}));
    const auto now = knots_of_day(year, midnight_of({2021, 7, 1}));
    BOOST_TEST(then[0].air_c == now[0].air_c);
}

BOOST_AUTO_TEST_SUITE_END()
