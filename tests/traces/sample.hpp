// SPDX-License-Identifier: MIT
// A small trace with every kind of column, for the tests of this folder.
#pragma once
#include "tests/scratch.hpp"
#include "traces/table.hpp"

#include <unistd.h>
#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <string>
#include <vector>

namespace sample {

inline constexpr double none = std::numeric_limits<double>::quiet_NaN();
inline constexpr std::int64_t start_s = 829'872'000;  // some midnight

inline std::vector<noonbench::traces::Signal> signals() {
    using noonbench::traces::SignalKind;
    using noonbench::traces::Visibility;
    return {{"collector_sensor_c",
             "degC",
             SignalKind::number,
             {},
             Visibility::customers_log,
             3,
             "collector sensor"},
            {"pump_relay", "", SignalKind::on_off, {}, Visibility::customers_log, 0, "pump relay"},
            {"pump_reason",
             "",
             SignalKind::choice,
             {"waiting_for_sun", "collecting", "sensor_lost"},
             Visibility::bench_only,
             0,
             "why the pump runs or not"},
            {"flow_lpm",
             "l/min",
             SignalKind::number,
             {},
             Visibility::read_on_site,
             2,
             "flow at the sight glass"}};
}

/// Five rows; the collector sensor has no value in the fourth.
inline noonbench::traces::Table table() {
    noonbench::traces::Table table(signals(), start_s);
    table.append(start_s, std::array{-3.25, 0.0, 0.0, 0.0});
    table.append(start_s + 1, std::array{-0.0004, 0.0, 0.0, 0.0});
    table.append(start_s + 2, std::array{41.0625, 1.0, 1.0, 2.605});
    table.append(start_s + 3, std::array{none, 0.0, 2.0, 0.0});
    table.append(start_s + 10, std::array{123.4567, 0.0, 0.0, 0.0});
    return table;
}

/// A directory of its own, removed at the end.
class Directory : public noonbench::testing::ScratchFolder {
  public:
    std::size_t file_count() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path()),
                                                      std::filesystem::directory_iterator()));
    }
};

inline std::string content(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The exit code of a shell command; its output goes into the file.
inline int run(const std::string& command, const std::filesystem::path& output) {
    const int status = std::system((command + " > '" + output.string() + "' 2>&1").c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace sample
