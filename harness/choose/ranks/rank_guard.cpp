// SPDX-License-Identifier: MIT
#include "rank_guard.hpp"

#include <fmt/format.h>

#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <initializer_list>
#include <iostream>
#include <string>
#include <string_view>
#include <system_error>

namespace noonbench::harness {

namespace {

constexpr int ended_by_machine = 3;  // exit code

sigset_t set_of(std::initializer_list<int> signals) {
    sigset_t set;
    sigemptyset(&set);
    for (const int signal : signals) sigaddset(&set, signal);
    return set;
}

std::string host_name() {
    std::array<char, 256> name{};
    gethostname(name.data(), name.size() - 1);
    return name.data();
}

/// Says what happened to a rank and how to go on.
void tell(const Launch& launch, std::string_view event, int signal) {
    std::cerr << fmt::format(
                     "noonbench: rank {} of {} {} signal {} ({}). The rows that were finished are "
                     "kept; the same command with --resume goes on with them, on any number of "
                     "ranks.\n",
                     launch.rank, launch.ranks, event, signal, strsignal(signal))
              << std::flush;
}

/// What a child left behind becomes the exit code, and words if it was killed.
[[noreturn]] void end_as(int status, pid_t child, const Launch& launch) {
    if (WIFEXITED(status)) _exit(WEXITSTATUS(status));
    tell(launch, fmt::format("(process {} on {}) was ended by", child, host_name()),
         WTERMSIG(status));
    _exit(ended_by_machine);
}

/// Words first: mpirun passes them on for a second at most.
[[noreturn]] void end_on_request(int signal, pid_t child, const Launch& launch) {
    if (launch.rank == 0) tell(launch, "was asked to end by", signal);
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    _exit(ended_by_machine);
}

[[noreturn]] void wait_for(pid_t child, const sigset_t& awaited, const Launch& launch) {
    prctl(PR_SET_NAME, "noonbench guard");
    for (;;) {
        int signal = 0;
        int status = 0;
        if (sigwait(&awaited, &signal) != 0) continue;
        if (signal != SIGCHLD) end_on_request(signal, child, launch);
        if (waitpid(child, &status, WNOHANG) == child) end_as(status, child, launch);
    }
}

}  // namespace

void stand_guard(const Launch& launch) {
    const sigset_t awaited = set_of({SIGCHLD, SIGTERM, SIGINT, SIGHUP});
    sigset_t before;
    sigprocmask(SIG_BLOCK, &awaited, &before);
    const pid_t guard = getpid();
    const pid_t child = fork();
    if (child < 0) throw std::system_error(errno, std::generic_category(), "fork");
    if (child > 0) wait_for(child, awaited, launch);
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (getppid() != guard) _exit(ended_by_machine);  // it was gone before the line above
    sigprocmask(SIG_SETMASK, &before, nullptr);
}

}  // namespace noonbench::harness
