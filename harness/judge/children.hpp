// SPDX-License-Identifier: MIT
// Work that may crash, done in child processes: a child that dies is one failed piece of work, not
// the end of all. POSIX; the caller must not have started threads.
#pragma once
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// What a child left.
struct Left {
    std::string bytes;    // what the work returned
    std::string failure;  // empty if it returned; else in words: "crashed (signal 11)", the
                          // exception's text
};

/// Where the children are: told whenever something changed.
struct Underway {
    struct Child {
        std::size_t index = 0;
        double share = 0.0;  // of its own work, 0..1
    };
    std::size_t done = 0;
    std::size_t all = 0;
    std::vector<Child> running;
    double share = 0.0;  // of all the work, 0..1
};

/// The work for one index; may tell how far it is, 0..1.
using Work = std::function<std::string(std::size_t index, const std::function<void(double)>& tell)>;

/// Runs work(0) .. work(count - 1), `jobs` at a time. Results stand in order of index whatever came
/// first. Throws std::system_error if the machine gives no process or pipe.
[[nodiscard]] std::vector<Left> in_children(std::size_t count, unsigned jobs, const Work& work,
                                            const std::function<void(const Underway&)>& watch = {});

}  // namespace noonbench::harness
