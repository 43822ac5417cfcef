// SPDX-License-Identifier: MIT
// The one place where exceptions become exit codes.
#include "command.hpp"

#include "harness/choose/launch.hpp"
#include "harness/scenario/problem.hpp"

#include <exception>
#include <iostream>

namespace {

int run_command_line(int argc, char** argv) {
    using namespace noonbench::cli;
    CLI::App app{
        "Noonbench puts a solar water-heating controller on a bench: sun, collector, loop, store "
        "and\n"
        "household behind its terminals, every decision explained.\n",
        "noonbench"};
    app.require_subcommand(1);
    app.footer("Example:  noonbench run scenarios/days/clear_spring_day.yaml");
    int exit_code = exit_done;
    add_run(app, exit_code);
    add_judge(app, exit_code);
    add_prove(app, exit_code);
    add_choose(app, exit_code);
    add_live(app, exit_code);
    add_why(app, exit_code);
    add_compare(app, exit_code);
    add_faults(app, exit_code);
    add_lesson(app, exit_code);
    add_list(app, exit_code);
    add_schema(app, exit_code);
    add_init(app, exit_code);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        // The same on every rank of mpirun: told once.
        if (noonbench::harness::launch_from_environment().rank > 0) return exit_done;
        const int code = app.exit(error);  // prints help or what is wrong
        return code == 0 ? exit_done : exit_input_wrong;
    }
    return exit_code;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        const int exit_code = run_command_line(argc, argv);
        if (!std::cout.flush()) {
            std::cerr << "noonbench: standard output cannot be written\n";
            return noonbench::cli::exit_machine_failed;
        }
        return exit_code;
    } catch (const noonbench::harness::InputRefused& refused) {
        std::cerr << refused.what();
        return noonbench::cli::exit_input_wrong;
    } catch (const std::exception& error) {
        std::cerr << "noonbench: " << error.what() << '\n';
        return noonbench::cli::exit_machine_failed;
    }
}
