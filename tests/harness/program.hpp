// SPDX-License-Identifier: MIT
// Runs the built program as a person would, without a shell: exit code, standard output and
// standard error.
#pragma once
#include "tests/scratch.hpp"

#include <boost/test/unit_test.hpp>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

namespace noonbench::harness::testing {

inline std::string content_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// An empty folder of its own for each test case, removed with it.
class Bay : public noonbench::testing::ScratchFolder {
  public:
    /// Paths of all files below, relative and sorted.
    [[nodiscard]] std::vector<std::string> files() const {
        std::vector<std::string> found;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(path())) {
            if (entry.is_regular_file()) {
                found.push_back(std::filesystem::relative(entry.path(), path()).string());
            }
        }
        std::sort(found.begin(), found.end());
        return found;
    }
};

struct Finished {
    int exit_code = -1;
    std::string out;
    std::string err;
};

/// `noonbench ARGUMENTS` in the bay; standard output goes to `out_to` where one is named.
inline Finished noonbench_in(const Bay& bay, std::vector<std::string> arguments,
                             const std::string& out_to = {}) {
    // beside the bay, so that its list of files holds only what the program has left
    const std::string out = out_to.empty() ? bay.path().string() + ".out" : out_to;
    const std::string err = bay.path().string() + ".err";
    std::string program = NOONBENCH_BINARY;
    std::vector<char*> argv{program.data()};
    for (std::string& argument : arguments) argv.push_back(argument.data());
    argv.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addchdir_np(&actions, bay.path().c_str());
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
    posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
    pid_t child = 0;
    const int refused =
        posix_spawn(&child, program.c_str(), &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (refused != 0) throw std::runtime_error("cannot start " + program);
    int status = 0;
    waitpid(child, &status, 0);
    Finished finished{WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status),
                      out_to.empty() ? content_of(out) : std::string{}, content_of(err)};
    if (out_to.empty()) std::filesystem::remove(out);
    std::filesystem::remove(err);
    return finished;
}

}  // namespace noonbench::harness::testing
