// SPDX-License-Identifier: MIT
// What the run is called, when it begins, how long it is, what is recorded.
#include "key_making.hpp"

namespace noonbench::harness {

void add_run_keys(std::vector<Key>& keys) {
    keys.push_back(key_of(Form::line, "title", "one line that names the scenario",
                          [](Draft& d) { return &d.scenario.title; }));
    keys.push_back(key_of(Form::line, "about", "what it shows, in a few sentences",
                          [](Draft& d) { return &d.scenario.about; }));
    keys.push_back(key_of(Form::date_time, "start",
                          "first second of the run, local standard time (never summer time)",
                          [](Draft& d) { return &d.scenario.start_s; }));
    keys.push_back(number_key("length", {"day", 0.001, 3650.0}, "how long the run lasts",
                              [](Draft& d) { return &d.scenario.length_s; }));
    keys.push_back(number_key("seed", {"", 0.0, 1e15},
                              "the one number from which all that is random is drawn",
                              [](Draft& d) { return &d.scenario.seed; }));
    keys.push_back(number_key("record.every", {"s", 1.0, 86400.0},
                              "interval of the trace; when left out 1 s up to 7 days, else 1 h",
                              [](Draft& d) { return &d.scenario.record.every_s; }));
    keys.push_back(key_of(Form::flag, "record.vcd", "write trace.vcd too (for wave viewers)",
                          [](Draft& d) { return &d.scenario.record.vcd; }));
    keys.push_back(key_of(Form::flag, "record.netcdf", "write trace.nc too (netCDF)",
                          [](Draft& d) { return &d.scenario.record.netcdf; }));
}

}  // namespace noonbench::harness
