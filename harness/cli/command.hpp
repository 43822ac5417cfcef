// SPDX-License-Identifier: MIT
// One file a command. A command adds itself to the command line with an example and, once parsed,
// returns an exit code: 0 done, 1 a requirement failed, 2 the input is wrong, 3 the machine failed.
#pragma once
#include <CLI/CLI.hpp>

namespace noonbench::cli {

inline constexpr int exit_done = 0;
inline constexpr int exit_not_held = 1;  // or, of two traces, not alike
inline constexpr int exit_input_wrong = 2;
inline constexpr int exit_machine_failed = 3;

/// Every command sets `exit_code` from its callback.
void add_run(CLI::App& app, int& exit_code);
void add_judge(CLI::App& app, int& exit_code);
void add_prove(CLI::App& app, int& exit_code);
void add_choose(CLI::App& app, int& exit_code);
void add_live(CLI::App& app, int& exit_code);
void add_why(CLI::App& app, int& exit_code);
void add_compare(CLI::App& app, int& exit_code);
void add_faults(CLI::App& app, int& exit_code);
void add_lesson(CLI::App& app, int& exit_code);
void add_list(CLI::App& app, int& exit_code);
void add_schema(CLI::App& app, int& exit_code);
void add_init(CLI::App& app, int& exit_code);

}  // namespace noonbench::cli
