// SPDX-License-Identifier: MIT
// What the tests of weather files share: a folder of their own and a look at the messages.
#pragma once
#include "harness/weather/weather_file.hpp"
#include "tests/scratch.hpp"

#include <algorithm>
#include <filesystem>
#include <string>

namespace noonbench::harness::test {

namespace fs = std::filesystem;

/// A folder of our own that goes when the test does.
struct Scratch : noonbench::testing::ScratchFolder {
    const fs::path& folder = path();
};

inline bool says(const WeatherYear& year, const std::string& words) {
    return std::any_of(year.messages.begin(), year.messages.end(), [&](const std::string& message) {
        return message.find(words) != std::string::npos;
    });
}

}  // namespace noonbench::harness::test
