// SPDX-License-Identifier: MIT
// SciPy runs in a process of its own, on four single days of the year, each from the same start;
// the project's own way and CVODE run the same days beside it.
#include "cvode_peer.hpp"
#include "own_ways.hpp"
#include "parts.hpp"

#include "traces/file.hpp"

#include <fmt/format.h>

#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace noonbench::benchmarks {
namespace {

constexpr std::array<CivilSeconds, 4> middle_of_seasons{14, 104, 195, 287};

template <class Value>
void append(std::string& bytes, const std::vector<Value>& values) {
    const std::uint64_t count = values.size();
    bytes.append(reinterpret_cast<const char*>(&count), sizeof(count));
    bytes.append(reinterpret_cast<const char*>(values.data()), count * sizeof(Value));
}

struct Python {
    std::filesystem::path library;
    std::filesystem::path world;  // rewritten for each day
};

std::optional<std::string> output_of(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return std::nullopt;
    std::array<char, 4096> chunk{};
    while (std::fgets(chunk.data(), chunk.size(), pipe) != nullptr) text += chunk.data();
    if (pclose(pipe) != 0) return std::nullopt;
    return text;
}

std::string python() {
    const char* named = std::getenv("NOONBENCH_PYTHON");
    return named != nullptr ? named : "python3";
}

Solved solve_with_scipy(const Python& with, const Case& what, const std::string& method) {
    std::string bytes;
    append(bytes, what.world.draws);
    append(bytes, what.world.knots);
    traces::write_whole(with.world, bytes);
    const std::optional<std::string> text =
        output_of(fmt::format("{} '{}/tests/benchmarks/solver/scipy_peer.py' '{}' '{}' {} {}",
                              python(), NOONBENCH_SOURCE_DIR, with.library.string(),
                              with.world.string(), what.regulated ? 1 : 0, method));
    if (!text) throw std::runtime_error("scipy_peer.py failed");
    Solved solved{.name = "SciPy solve_ivp " + method + " 1e-6, events"};
    std::istringstream words(*text);
    words >> solved.cpu_s >> solved.heat_kwh >> solved.evaluations;
    Switching switching;
    int on = 0;
    while (words >> switching.at_s >> on) {
        switching.on = on != 0;
        solved.switchings.push_back(switching);
    }
    return solved;
}

/// Day after day as one list.
void append(Solved& all, const Solved& day, CivilSeconds shift_s) {
    all.name = day.name;
    all.cpu_s += day.cpu_s;
    all.heat_kwh += day.heat_kwh;
    all.evaluations += day.evaluations;
    for (const Switching& s : day.switchings) {
        all.switchings.push_back({s.at_s + shift_s, s.on});
    }
}

template <class Way>
Solved on_all_days(const World& year, bool regulated, Way way) {
    Solved all;
    CivilSeconds shift_s = 0;
    for (const CivilSeconds day : middle_of_seasons) {
        const Case what{.title = {},
                        .world = one_day(year, day),
                        .parameters = house_parameters(),
                        .regulated = regulated};
        append(all, way(what), shift_s);
        shift_s += seconds_a_day;
    }
    return all;
}

}  // namespace

void scipy_part(const std::filesystem::path& beside, Results& results) {
    const Python with{
        beside / "libscipy_peer.so",
        std::filesystem::temp_directory_path() / fmt::format("noonbench_scipy_world_{}", getpid())};
    if (!std::filesystem::exists(with.library) ||
        !output_of(python() + " -c 'import scipy.integrate' 2>/dev/null")) {
        fmt::print(
            "\nSciPy left out: it needs python3 with SciPy, and the target scipy_peer built\n");
        return;
    }
    const World minutes = house_world(Span{});
    for (const bool regulated : {false, true}) {
        const auto on_days = [&](auto way) { return on_all_days(minutes, regulated, way); };
        const Solved truth = on_days([](const Case& c) { return solve_tightly(c); });
        Comparison comparison = compared_with(
            truth,
            fmt::format("The plant alone, minute clouds, {}, the 15th of January, April, July and "
                        "October, scaled; compiled right-hand side",
                        regulated ? "pump regulated" : "pump on/off"),
            static_cast<double>(middle_of_seasons.size()));
        print_heading(comparison);
        add(comparison, on_days([](const Case& c) { return solve_by_strides(c); }), truth);
#ifdef NOONBENCH_HAS_CVODE
        add(comparison, on_days([](const Case& c) {
                return solve_with_cvode(c, 1e-6, "CVODE BDF 1e-6, roots, dense");
            }),
            truth);
#endif
        for (const char* method : {"LSODA", "BDF"}) {
            add(comparison,
                on_days([&](const Case& c) { return solve_with_scipy(with, c, method); }), truth);
        }
        results.comparisons.push_back(comparison);
    }
    std::filesystem::remove(with.world);
}

}  // namespace noonbench::benchmarks
