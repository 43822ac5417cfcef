// SPDX-License-Identifier: MIT
#pragma once

#include "firmware-model/reason.hpp"
#include "firmware-model/terminals.hpp"

#include <boost/test/unit_test.hpp>

// Named values of the firmware model that tests compare but cannot print. In one place, for each
// may be said once in a program.
BOOST_TEST_DONT_PRINT_LOG_VALUE(noonbench::firmware::SensorStatus)
BOOST_TEST_DONT_PRINT_LOG_VALUE(noonbench::firmware::PumpReason)
