// SPDX-License-Identifier: MIT
// What one column of a trace is: its name, unit and meaning, and who could see it on a real site.
#pragma once
#include <string>
#include <vector>

namespace noonbench::traces {

enum class SignalKind {
    number,  // a quantity, printed with Signal::decimals
    on_off,  // 0 or 1
    choice,  // index into Signal::choices, written as the word
};

/// Who can see the signal on a real site; the bench sees everything.
enum class Visibility {
    customers_log,  // stands in the log that a customer sends
    read_on_site,   // a gauge, a thermometer, a sight glass: read by eye on the visit
    bench_only,     // nobody but the bench
};

struct Signal {
    std::string name;  // snake_case with unit suffix: collector_sensor_c, flow_lpm, pump_relay
    std::string unit;  // as shown: "degC", "l/min", "W/m2", "kWh"; empty for on_off and choice
    SignalKind kind = SignalKind::number;
    std::vector<std::string> choices{};  // snake_case words, for SignalKind::choice only
    Visibility visible = Visibility::bench_only;
    int decimals = 0;     // 0..6, for SignalKind::number only
    std::string meaning;  // one line in an installer's words

    friend bool operator==(const Signal&, const Signal&) = default;
};

}  // namespace noonbench::traces
