// SPDX-License-Identifier: MIT
#include "agreement.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(agreement)

using noonbench::benchmarks::Agreement;
using noonbench::benchmarks::agreement_of;
using noonbench::benchmarks::Switching;

BOOST_AUTO_TEST_CASE(the_same_list_agrees_wholly) {
    const std::vector<Switching> list{{100, true}, {400, false}, {900, true}};
    const Agreement found = agreement_of(list, list);
    BOOST_TEST(found.within_1s_pct == 100.0);
    BOOST_TEST(found.furthest_s == 0);
    BOOST_TEST(found.unmatched == 0);
}

BOOST_AUTO_TEST_CASE(shifts_are_measured_and_shares_are_of_the_truth) {
    const Agreement found = agreement_of({{101, true}, {407, false}, {901, true}, {1300, false}},
                                         {{100, true}, {400, false}, {900, true}, {1300, false}});
    BOOST_TEST(found.within_1s_pct == 75.0);
    BOOST_TEST(found.furthest_s == 7);
    BOOST_TEST(found.unmatched == 0);
}

BOOST_AUTO_TEST_CASE(an_extra_short_cycle_has_no_partner_and_takes_none_from_others) {
    const Agreement found = agreement_of({{100, true}, {200, false}, {350, true}, {500, false}},
                                         {{100, true}, {500, false}});
    BOOST_TEST(found.within_1s_pct == 100.0);
    BOOST_TEST(found.unmatched == 2);
}

BOOST_AUTO_TEST_CASE(farther_than_five_minutes_or_of_the_other_kind_is_no_partner) {
    BOOST_TEST(agreement_of({{400, true}}, {{100, true}}).unmatched == 0);
    BOOST_TEST(agreement_of({{401, true}}, {{100, true}}).unmatched == 2);
    BOOST_TEST(agreement_of({{100, false}}, {{100, true}}).unmatched == 2);
}

BOOST_AUTO_TEST_SUITE_END()
