// SPDX-License-Identifier: MIT
// The reason for a setting: which other choice it is compared with, and what is said of it.
#include "harness/choose/instead.hpp"

#include <boost/test/unit_test.hpp>

#include <optional>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_instead)

using namespace noonbench::harness;

namespace {

Tried tried_in(std::size_t candidate, std::size_t worlds) {
    return {candidate, std::vector<Score>(worlds)};
}

Instead at_8_k() {
    Instead instead;
    instead.value = "8 K";
    instead.as_delivered = true;
    instead.chosen.starts_a_day = instead.other.starts_a_day = 10.0;
    return instead;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_changed_setting_is_put_back_and_an_unchanged_one_moved_a_step) {
    const Grid grid{{5, 4}, {}};
    const std::size_t winner = grid.candidate_of(GridPoint{3, 1});
    const std::size_t delivered = grid.candidate_of(GridPoint{1, 1});
    const auto found = instead_candidates(grid, winner, delivered, {}, 5);
    BOOST_TEST_REQUIRE(found.size() == 2U);
    BOOST_TEST((grid.point_of(found[0].value()) == GridPoint{1, 1}));
    BOOST_TEST((grid.point_of(found[1].value()) == GridPoint{3, 0}));
    // The other step where that has run everywhere: it costs nothing.
    const std::vector<Tried> tried{tried_in(grid.candidate_of(GridPoint{3, 0}), 4),
                                   tried_in(grid.candidate_of(GridPoint{3, 2}), 5),
                                   tried_in(grid.candidate_of(GridPoint{3, 3}), 5)};
    const auto cheaper = instead_candidates(grid, winner, delivered, tried, 5);
    BOOST_TEST((grid.point_of(cheaper[1].value()) == GridPoint{3, 2}));
}

BOOST_AUTO_TEST_CASE(what_is_no_point_of_the_grid_is_not_compared) {
    // Neither the value as delivered nor the steps beside it go with the other setting.
    Grid grid{{5, 2}, [](std::span<const std::size_t> p) { return p[1] == 0 || p[0] > 2; }};
    const std::size_t winner = grid.candidate_of(GridPoint{4, 1});
    const auto found = instead_candidates(grid, winner, grid.candidate_of(GridPoint{1, 0}), {}, 5);
    BOOST_TEST((grid.point_of(found[0].value()) == GridPoint{3, 1}));
    grid.exists = [](std::span<const std::size_t> p) { return p[0] == p[1]; };
    const auto none = instead_candidates(grid, grid.candidate_of(GridPoint{1, 1}),
                                         grid.candidate_of(GridPoint{0, 0}), {}, 5);
    BOOST_TEST(!none[0]);
    BOOST_TEST(!none[1]);
}

BOOST_AUTO_TEST_CASE(the_reason_says_by_how_much_and_how_sure) {
    Instead instead = at_8_k();
    instead.better_kwh = {-14.2, -19.1, -9.0};
    BOOST_TEST(reason_text(instead) == "Left at 8 K: 14 kWh worse (9 to 19).");
    instead.better_kwh = {3.0, 1.0, 5.0};
    instead.as_delivered = false;
    BOOST_TEST(reason_text(instead) == "8 K instead: 3 kWh better (1 to 5).");
    instead.better_kwh = {1.0, -2.2, 4.3};
    BOOST_TEST(reason_text(instead) == "8 K instead: no difference to tell (±5 kWh).");
    instead.better_kwh = {};
    BOOST_TEST(reason_text(instead) == "8 K instead: the same.");
}

BOOST_AUTO_TEST_CASE(the_reason_names_what_else_somebody_would_notice) {
    Instead instead = at_8_k();
    instead.better_kwh = {1.0, -2.2, 4.3};
    instead.other.starts_a_day = 13.0;
    BOOST_TEST(reason_text(instead) ==
               "Left at 8 K: no difference to tell (±5 kWh), 3 starts a day more.");
    instead.other.starts_a_day = 11.0;  // less than a fifth
    instead.chosen.stagnation_h = 30.0;
    instead.broken = {"stagnation"};
    BOOST_TEST(reason_text(instead) ==
               "Left at 8 K: no difference to tell (±5 kWh), 30 h above 120 °C fewer; breaks the "
               "limit of stagnation.");
}

BOOST_AUTO_TEST_SUITE_END()
