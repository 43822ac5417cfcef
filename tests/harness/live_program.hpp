// SPDX-License-Identifier: MIT
// `noonbench live` as a program of its own, to be asked over sockets, ended and killed.
#pragma once
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <cstdio>
#include <regex>
#include <stdexcept>
#include <string>
#include <vector>

namespace noonbench::harness::testing {

class LiveProgram {
  public:
    explicit LiveProgram(std::vector<std::string> more) {
        std::vector<std::string> words{
            NOONBENCH_BINARY, "live",
            "--port",         "0",
            "--shelf",        std::string(NOONBENCH_SOURCE_DIR) + "/scenarios"};
        words.insert(words.end(), more.begin(), more.end());
        std::vector<char*> argv;
        argv.reserve(words.size() + 1);
        for (std::string& word : words) argv.push_back(word.data());
        argv.push_back(nullptr);
        std::array<int, 2> ends{};
        if (pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, ends[1], 1);
        posix_spawn_file_actions_addclose(&actions, ends[0]);
        const int refused =
            posix_spawn(&child_, words.front().c_str(), &actions, nullptr, argv.data(), environ);
        posix_spawn_file_actions_destroy(&actions);
        close(ends[1]);
        if (refused != 0) throw std::runtime_error("cannot start the program");
        read_from(ends[0]);
        close(ends[0]);
    }
    LiveProgram(const LiveProgram&) = delete;
    LiveProgram& operator=(const LiveProgram&) = delete;
    ~LiveProgram() { end(SIGKILL); }

    /// Its exit code, or less than 0 if the signal ended it.
    int end(int signal) {
        if (child_ == 0) return 0;
        kill(child_, signal);
        int status = 0;
        waitpid(child_, &status, 0);
        child_ = 0;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    }

    std::uint16_t port = 0;
    std::string secret;
    std::string said;  // up to where it is open

  private:
    void read_from(int end) {
        std::array<char, 512> bytes{};
        while (said.find("Ctrl+C") == std::string::npos) {
            const ssize_t got = read(end, bytes.data(), bytes.size());
            if (got <= 0) break;
            said.append(bytes.data(), static_cast<std::size_t>(got));
        }
        std::smatch found;
        if (std::regex_search(said, found, std::regex(R"(127\.0\.0\.1:(\d+)/)"))) {
            port = static_cast<std::uint16_t>(std::stoi(found[1]));
        }
        if (std::regex_search(said, found, std::regex("The class secret: ([A-Z0-9-]+)\n"))) {
            secret = found[1];
        }
    }

    pid_t child_ = 0;
};

}  // namespace noonbench::harness::testing
