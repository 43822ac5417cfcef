// SPDX-License-Identifier: MIT
#define BOOST_TEST_MODULE noonbench
#include <boost/test/unit_test.hpp>
