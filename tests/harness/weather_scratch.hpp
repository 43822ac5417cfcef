// SPDX-License-Identifier: MIT
// What the tests of weather files share: a folder of their own and a look at the messages.
#pragma once
#include "harness/weather/weather_file.hpp"

#include <stdlib.h>
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <system_error>

namespace noonbench::harness::test {

namespace fs = std::filesystem;

/// A folder of our own that goes when the test does.
struct Scratch {
    fs::path folder;
    Scratch() {
        std::string pattern = (fs::temp_directory_path() / "noonbench-weather-XXXXXX").string();
        if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
        folder = pattern;
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    }
    [[nodiscard]] fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(folder / name, std::ios::binary) << text;
        return folder / name;
    }
};

inline bool says(const WeatherYear& year, const std::string& words) {
    return std::any_of(year.messages.begin(), year.messages.end(), [&](const std::string& message) {
        return message.find(words) != std::string::npos;
    });
}

}  // namespace noonbench::harness::test
