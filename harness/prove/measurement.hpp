// SPDX-License-Identifier: MIT
// One measurement: what was set, what was found at the terminals, how far that may lie apart and
// on what ground.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

enum class Standing : std::uint8_t { within, outside, not_observed };

/// How far `measured - set` may lie from nought, and why so far.
struct Allowed {
    double least = 0.0;  // not above 0
    double most = 0.0;   // not below 0
    std::string ground;
};

/// Unit of a measurement of a relay: 0 is off, 1 is on.
inline constexpr const char* relay_unit = "relay";

struct Measurement {
    std::string name;   // "start difference"
    std::string where;  // "store at 60 °C"
    int run = 0;        // from 1 where a measurement is repeated; 0 = made once
    double set = 0.0;
    std::optional<double> measured;  // none: the thing did not happen while it was watched for
    std::string unit;                // K, degC, s, %, relay, ...
    int decimals = 0;
    Allowed allowed;
    std::string done;  // one plain sentence
};

[[nodiscard]] Standing standing_of(const Measurement& measurement);

/// "within", "outside", "not observed".
[[nodiscard]] const char* words_of(Standing verdict);

/// "8.05 K", "off"; "none" where there is no value.
[[nodiscard]] std::string value_text(const Measurement& measurement, std::optional<double> value);

/// "+0.05"; empty where there is none or it means nothing.
[[nodiscard]] std::string deviation_text(const Measurement& measurement);

/// "± 0.1", "0 to +10", "none".
[[nodiscard]] std::string allowed_text(const Measurement& measurement);

/// Measurements of one name and place that differ only in their run, as one line.
struct MeasuredLine {
    std::vector<const Measurement*> runs;  // never empty

    [[nodiscard]] const Measurement& first() const { return *runs.front(); }
    /// The worst of the runs.
    [[nodiscard]] Standing standing() const;
    /// "8.02 K", or "8.02 to 8.05 K" of several runs.
    [[nodiscard]] std::string measured_text() const;
    /// Of the run that deviates most.
    [[nodiscard]] std::string deviation_text() const;
};

/// In order of the first of each line. Pointers into `measurements`.
[[nodiscard]] std::vector<MeasuredLine> lines_of(const std::vector<Measurement>& measurements);

}  // namespace noonbench::harness
