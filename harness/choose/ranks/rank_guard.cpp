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

bool asks_to_end(int signal) {
    return signal == SIGTERM || signal == SIGINT || signal == SIGHUP;
}

std::string host_name() {
    std::array<char, 256> name{};
    gethostname(name.data(), name.size() - 1);
    return name.data();
}

[[noreturn]] void end_broken_off(const Launch& launch) {
    if (launch.rank == 0) {
        std::cerr << "noonbench: the search was broken off. The rows that were finished are kept; "
                     "the same command with --resume goes on with them, on any number of ranks.\n"
                  << std::flush;
    }
    _exit(ended_by_machine);
}

/// What a child left behind becomes the exit code, and words if it was killed.
[[noreturn]] void end_as(int status, pid_t child, const Launch& launch) {
    if (WIFEXITED(status)) _exit(WEXITSTATUS(status));
    const int signal = WTERMSIG(status);
    if (!asks_to_end(signal)) {
        std::cerr << fmt::format(
                         "noonbench: rank {} of {} (process {} on {}) was ended by signal {} "
                         "({})\n",
                         launch.rank, launch.ranks, child, host_name(), signal, strsignal(signal))
                  << std::flush;
    }
    end_broken_off(launch);
}

[[noreturn]] void wait_for(pid_t child, const sigset_t& awaited, const Launch& launch) {
    prctl(PR_SET_NAME, "noonbench guard");
    for (;;) {
        int signal = 0;
        int status = 0;
        if (sigwait(&awaited, &signal) != 0) continue;
        if (signal != SIGCHLD) {
            kill(child, SIGKILL);
            waitpid(child, &status, 0);
            end_broken_off(launch);
        }
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
