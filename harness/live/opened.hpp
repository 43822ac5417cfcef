// SPDX-License-Identifier: MIT
// What a page must know before the first second of a run: the house, what can be seen, set, moved.
#pragma once
#include "live_bench.hpp"

#include <boost/json.hpp>

#include <string>

namespace noonbench::harness {

/// `path` names the run on the shelf.
[[nodiscard]] boost::json::object opened_message(const LiveBench& bench, const std::string& path);

/// The sun's path over the day that begins at `midnight`: second of the day, elevation and azimuth
/// (clockwise from north) in degrees, each ten minutes while it is up.
[[nodiscard]] boost::json::object sun_message(const LiveBench& bench, CivilSeconds midnight);

}  // namespace noonbench::harness
