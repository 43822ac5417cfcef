// SPDX-License-Identifier: MIT
#include "children.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>
#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdint>
#include <cstring>
#include <exception>
#include <system_error>
#include <utility>

namespace noonbench::harness {
namespace {

// What a child writes: frames of one kind byte, eight bytes of length, and so many bytes.
enum class Frame : char { share = 's', result = 'r', failure = 'f' };
constexpr std::size_t head_bytes = 1 + sizeof(std::uint64_t);

[[noreturn]] void machine_trouble(const char* what) {
    throw std::system_error(errno, std::generic_category(), what);
}

/// False if the parent has gone.
bool write_all(int pipe, const char* bytes, std::size_t count) {
    while (count > 0) {
        const ssize_t written = ::write(pipe, bytes, count);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        bytes += written;
        count -= static_cast<std::size_t>(written);
    }
    return true;
}

bool send(int pipe, Frame kind, const std::string& bytes) {
    std::array<char, head_bytes> head{};
    head[0] = static_cast<char>(kind);
    const std::uint64_t length = bytes.size();
    std::memcpy(head.data() + 1, &length, sizeof length);
    return write_all(pipe, head.data(), head.size()) && write_all(pipe, bytes.data(), bytes.size());
}

/// The child's whole life. It leaves by _exit: the parent's buffers and files are not its own.
[[noreturn]] void be_child(int pipe, std::size_t index, const Work& work) {
    try {
        const auto tell = [&](double share) {
            send(pipe, Frame::share, fmt::format("{:.4f}", share));
        };
        const bool sent = send(pipe, Frame::result, work(index, tell));
        ::_exit(sent ? 0 : 1);
    } catch (const std::exception& error) {
        send(pipe, Frame::failure, error.what());
    } catch (...) {
        send(pipe, Frame::failure, "an exception without a text");
    }
    ::_exit(0);
}

struct Child {
    pid_t process = 0;
    int pipe = -1;
    std::size_t index = 0;
    double share = 0.0;
    bool answered = false;
    std::string buffer;
};

class Nursery {
  public:
    Nursery(std::size_t count, const Work& work) : work_(work), left_(count) {}
    ~Nursery() {
        for (const Child& child : children_) {  // only when something was thrown
            ::kill(child.process, SIGKILL);
            ::waitpid(child.process, nullptr, 0);
            ::close(child.pipe);
        }
    }
    Nursery(const Nursery&) = delete;
    Nursery& operator=(const Nursery&) = delete;

    [[nodiscard]] std::size_t running() const { return children_.size(); }

    void start(std::size_t index) {
        std::array<int, 2> ends{};
        if (::pipe2(ends.data(), O_CLOEXEC) != 0) machine_trouble("a pipe");
        const pid_t process = ::fork();
        if (process < 0) machine_trouble("a child process");
        if (process == 0) {
            ::close(ends[0]);
            be_child(ends[1], index, work_);
        }
        ::close(ends[1]);
        children_.push_back({process, ends[0], index, 0.0, false, {}});
    }

    /// Waits for news of any child.
    void listen() {
        std::vector<pollfd> polled;
        for (const Child& child : children_) polled.push_back({child.pipe, POLLIN, 0});
        if (::poll(polled.data(), polled.size(), -1) < 0) {
            if (errno == EINTR) return;
            machine_trouble("waiting for child processes");
        }
        for (std::size_t i = 0; i < polled.size(); ++i) {
            if (polled[i].revents != 0 && !hear(children_[i])) bury(children_[i]);
        }
        std::erase_if(children_, [](const Child& child) { return child.pipe < 0; });
    }

    [[nodiscard]] Underway underway() const {
        Underway now;
        now.all = left_.size();
        now.done = done_;
        now.share = static_cast<double>(done_);
        for (const Child& child : children_) {
            now.running.push_back({child.index, child.share});
            now.share += child.share;
        }
        if (now.all > 0) now.share /= static_cast<double>(now.all);
        return now;
    }

    std::vector<Left> results() { return std::move(left_); }

  private:
    /// False when the child has closed its end.
    bool hear(Child& child) {
        std::array<char, 65536> bytes{};
        const ssize_t count = ::read(child.pipe, bytes.data(), bytes.size());
        if (count < 0 && errno == EINTR) return true;
        if (count <= 0) return false;
        child.buffer.append(bytes.data(), static_cast<std::size_t>(count));
        while (take_frame(child)) {
        }
        return true;
    }

    bool take_frame(Child& child) {
        std::uint64_t length = 0;
        if (child.buffer.size() < head_bytes) return false;
        std::memcpy(&length, child.buffer.data() + 1, sizeof length);
        if (child.buffer.size() - head_bytes < length) return false;
        const auto kind = static_cast<Frame>(child.buffer.front());
        std::string bytes = child.buffer.substr(head_bytes, length);
        child.buffer.erase(0, head_bytes + length);
        Left& left = left_[child.index];
        if (kind == Frame::share) {
            child.share = std::stod(bytes);
        } else {
            child.answered = true;
            (kind == Frame::result ? left.bytes : left.failure) = std::move(bytes);
        }
        return true;
    }

    void bury(Child& child) {
        int status = 0;
        while (::waitpid(child.process, &status, 0) < 0 && errno == EINTR) {
        }
        ::close(child.pipe);
        child.pipe = -1;
        ++done_;
        Left& left = left_[child.index];
        if (WIFSIGNALED(status)) {
            left.failure = fmt::format("crashed (signal {}, {})", WTERMSIG(status),
                                       ::strsignal(WTERMSIG(status)));
        } else if (!child.answered) {
            left.failure = fmt::format("ended without an answer (exit {})", WEXITSTATUS(status));
        }
        if (!left.failure.empty()) left.bytes.clear();
    }

    const Work& work_;
    std::vector<Left> left_;
    std::vector<Child> children_;
    std::size_t done_ = 0;
};

}  // namespace

std::vector<Left> in_children(std::size_t count, unsigned jobs, const Work& work,
                              const std::function<void(const Underway&)>& watch) {
    Nursery nursery(count, work);
    const std::size_t most = std::max(jobs, 1U);
    for (std::size_t next = 0; next < count || nursery.running() > 0;) {
        while (next < count && nursery.running() < most) nursery.start(next++);
        if (watch) watch(nursery.underway());
        nursery.listen();
    }
    if (watch) watch(nursery.underway());
    return nursery.results();
}

}  // namespace noonbench::harness
