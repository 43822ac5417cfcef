// SPDX-License-Identifier: MIT
// A class at the live bench: so many pages over real sockets, each with a bench at sixty times real
// time and a setting moved every few seconds, one page slow on purpose, while the server runs in a
// process of its own. How late are frames, what do processor and memory cost?
//   live_benchmark [CLIENTS [SECONDS [PACE]]]       60 clients, 30 s, pace 60 unless said
// A frame is due a tenth of a second after the simulated moment at which the frame before it ended;
// so its delay holds everything from the server's timer to the page's end of the line. Exit code 1
// where a page was told no frames or a decision was lost; figures alone fail nothing.
#include "tests/harness/web_client.hpp"

#include "harness/live/class_file.hpp"
#include "harness/live/server.hpp"

#include <fmt/format.h>

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace {

using namespace noonbench::harness;
using noonbench::harness::testing::WebClient;
namespace json = boost::json;
using Clock = std::chrono::steady_clock;
using Seconds = std::chrono::duration<double>;

struct Wanted {
    std::size_t clients = 60;
    double seconds = 30.0;
    int pace = 60;
};

struct Seen {
    std::vector<double> delays_ms;
    std::size_t frames = 0;
    std::size_t moves = 0;
    std::size_t moves_shown = 0;
    Clock::time_point opened_at{};
    std::string trouble;
};

struct Process {
    double cpu_s = 0.0;
    double rss_mb = 0.0;
};

Process look_at(pid_t process) {
    std::ifstream stat("/proc/" + std::to_string(process) + "/stat");
    std::string word;
    double ticks = 0.0;
    for (int field = 1; field <= 15 && stat >> word; ++field) {
        if (field >= 14) ticks += std::stod(word);
    }
    std::ifstream statm("/proc/" + std::to_string(process) + "/statm");
    double pages = 0.0;
    statm >> pages >> pages;
    return {ticks / static_cast<double>(sysconf(_SC_CLK_TCK)),
            pages * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6};
}

/// The server in a process of its own; its port and secret come through the pipe.
pid_t start_server(const std::filesystem::path& class_file, std::uint16_t& port) {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
    const pid_t child = fork();
    if (child == 0) {
        const Shelf shelf(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios");
        ClassFile file(class_file);
        ServerWishes wishes;
        wishes.secret = "ABCD-EFGH-JKLM";
        Server server(shelf, wishes, &file);
        const std::uint16_t mine = server.opened().port;
        if (write(ends[1], &mine, sizeof mine) != sizeof mine) _exit(3);
        server.run();
        _exit(0);
    }
    close(ends[1]);
    const bool came = read(ends[0], &port, sizeof port) == sizeof port;
    close(ends[0]);
    if (!came) throw std::runtime_error("the server did not start");
    return child;
}

/// Frames as they come: how late each is, see above.
class Delays {
  public:
    explicit Delays(int pace) : pace_(pace) {}
    void take(Clock::time_point at, double at_s) {
        arrivals_.push_back({Seconds(at.time_since_epoch()).count(), at_s});
    }
    [[nodiscard]] std::vector<double> in_ms() const {
        if (arrivals_.size() < 2) return {};
        double began = 1e300;  // of the run, by the page that was served best
        for (const Arrival& each : arrivals_) began = std::min(began, each.at - each.of_s / pace_);
        std::vector<double> delays;
        delays.reserve(arrivals_.size());
        for (std::size_t i = 1; i < arrivals_.size(); ++i) {
            const double due = began + arrivals_[i - 1].of_s / pace_ + 0.1;
            delays.push_back(1e3 * std::max(0.0, arrivals_[i].at - due));
        }
        return delays;
    }

  private:
    struct Arrival {
        double at = 0.0;
        double of_s = 0.0;
    };
    int pace_;
    std::vector<Arrival> arrivals_;
};

/// How far everybody is.
struct Together {
    std::atomic<std::size_t> seated{0};
    std::atomic<std::size_t> opened{0};
    std::atomic<std::size_t> ready{0};
    std::atomic<std::size_t> done{0};
    std::atomic<bool> go{false};
    std::atomic<bool> over{false};
};

void wait_for(const std::atomic<std::size_t>& count, std::size_t all) {
    while (count < all) std::this_thread::sleep_for(std::chrono::milliseconds(2));
}

/// One learner's page on a thread of its own; number 0 is slow on purpose.
class Page {
  public:
    Page(const Wanted& wanted, std::uint16_t port, std::size_t number, Seen& seen)
        : wanted_(wanted),
          number_(number),
          is_slow_(number == 0),
          line_("127.0.0.1", port, {"", "", is_slow_ ? 8192 : 0}),
          seen_(seen),
          delays_(wanted.pace) {}

    void take_seat(const std::string& word) {
        line_.say({{"do", "join"}, {"word", word}, {"seat", "seat " + std::to_string(number_)}});
        if (!line_.hear("seated")) throw std::runtime_error("no seat");
    }
    /// What the trainer has sent.
    void open() {
        if (!line_.hear("opened", std::chrono::seconds(60))) {
            throw std::runtime_error("nothing was sent");
        }
        seen_.opened_at = Clock::now();
    }
    void go_to(int at_s) {
        line_.say({{"do", "jump"}, {"to_s", at_s}});
        for (;;) {
            const auto frame = line_.hear("frame", std::chrono::seconds(60));
            if (!frame) throw std::runtime_error("a jump does not end");
            if (frame->at("at_s").to_number<int>() >= at_s) return;
        }
    }
    void play() {
        std::this_thread::sleep_for(std::chrono::milliseconds(number_ * 17 % 100));
        line_.say({{"do", "pace"}, {"times", wanted_.pace}});
        const auto began = Clock::now();
        const auto until =
            began + std::chrono::duration_cast<Clock::duration>(Seconds(wanted_.seconds));
        next_move_ = began + std::chrono::milliseconds(500 + number_ * 83 % 1000);
        while (Clock::now() < until) {
            hear_one();
            if (is_slow_) std::this_thread::sleep_for(std::chrono::milliseconds(1500));
            if (Clock::now() > next_move_ && moved_to_.empty()) move();
        }
        if (!is_slow_) seen_.delays_ms = delays_.in_ms();
        for (int i = 0; i < 400 && !moved_to_.empty(); ++i)
            hear_one();  // the last one, if it comes
    }

  private:
    void hear_one() {
        constexpr std::string_view before = R"({"is":"frame","at_s":)";
        const auto text = line_.hear_text(std::chrono::milliseconds(200));
        if (!text || !text->starts_with(before)) return;
        delays_.take(Clock::now(), std::strtod(text->c_str() + before.size(), nullptr));
        ++seen_.frames;
        const std::string setting = R"("start_difference":")" + moved_to_ + '"';
        if (moved_to_.empty() || text->find(setting) == std::string::npos) return;
        ++seen_.moves_shown;
        moved_to_.clear();
    }
    void move() {
        moved_to_ = std::to_string(10 + seen_.moves % 9) + " K";
        line_.say(
            {{"do", "move"}, {"kind", "setting"}, {"name", "start_difference"}, {"to", moved_to_}});
        ++seen_.moves;
        next_move_ = Clock::now() + std::chrono::milliseconds(3000 + number_ * 31 % 2000);
    }

    const Wanted& wanted_;
    std::size_t number_;
    bool is_slow_;
    WebClient line_;
    Seen& seen_;
    Delays delays_;
    std::string moved_to_;  // and not shown yet
    Clock::time_point next_move_{};
};

void learn(const Wanted& wanted, std::uint16_t port, const std::string& word, std::size_t number,
           Together& all, Seen& seen) {
    std::unique_ptr<Page> page;
    const auto then = [&](std::atomic<std::size_t>& count, auto act) {
        try {
            if (seen.trouble.empty()) act();
        } catch (const std::exception& error) {
            seen.trouble = error.what();
        }
        ++count;
    };
    then(all.seated, [&] {
        page = std::make_unique<Page>(wanted, port, number, seen);
        page->take_seat(word);
    });
    then(all.opened, [&] { page->open(); });
    while (all.opened < wanted.clients) std::this_thread::sleep_for(std::chrono::milliseconds(2));
    then(all.ready, [&] { page->go_to(25200); });  // seven in the morning
    while (!all.go) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    then(all.done, [&] {
        page->play();
        page->go_to(86390);  // to the evening, where most is remembered
    });
    while (!all.over) std::this_thread::sleep_for(std::chrono::milliseconds(5));
}

double share(const std::vector<double>& sorted, double part) {
    if (sorted.empty()) return 0.0;
    return sorted[static_cast<std::size_t>(part * static_cast<double>(sorted.size() - 1))];
}

double load_now() {
    double load = 0.0;
    return getloadavg(&load, 1) == 1 ? load : -1.0;
}

struct Measured {
    Process empty, before, after, evening;
    double load_before = 0.0;
    double load_after = 0.0;
    double took_s = 0.0;
    double sent_s = 0.0;  // from the trainer's wish until the last page had its run
};

/// Pages that were told no frames, or whose moves never showed.
int troubles(const std::vector<Seen>& all) {
    int wrong = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Seen& seen = all[i];
        if (seen.trouble.empty() && seen.frames > 0 && seen.moves_shown == seen.moves) continue;
        fmt::print("page {}: {} frames, {} of {} moves shown; {}\n", i, seen.frames,
                   seen.moves_shown, seen.moves, seen.trouble);
        ++wrong;
    }
    return wrong;
}

void print(const Wanted& wanted, const Measured& measured, const std::vector<Seen>& seen) {
    std::vector<double> delays;
    std::size_t frames = 0;
    std::size_t moves = 0;
    for (std::size_t i = 1; i < seen.size(); ++i) {
        delays.insert(delays.end(), seen[i].delays_ms.begin(), seen[i].delays_ms.end());
        frames += seen[i].delays_ms.size();
        moves += seen[i].moves;
    }
    std::sort(delays.begin(), delays.end());
    const auto others = static_cast<double>(std::max<std::size_t>(1, wanted.clients - 1));
    const double cpu = (measured.after.cpu_s - measured.before.cpu_s) / measured.took_s;
    const double rss_mb = measured.evening.rss_mb;
    const double a_bench = (rss_mb - measured.empty.rss_mb) / static_cast<double>(wanted.clients);
    const double longest = delays.empty() ? 0.0 : delays.back();
    fmt::print("{} pages for {:.0f} s at x{}, one of them slow; load before {:.1f}, after {:.1f}\n",
               wanted.clients, measured.took_s, wanted.pace, measured.load_before,
               measured.load_after);
    fmt::print("a run sent to all of them was on the last page after {:.2f} s\n", measured.sent_s);
    fmt::print("frame delay, ms   p50 {:6.1f}   p99 {:6.1f}   longest {:6.1f}   (of {} frames)\n",
               share(delays, 0.5), share(delays, 0.99), longest, delays.size());
    fmt::print("frames a second and page {:5.2f}   slow page {:5.2f}   moves {}\n",
               static_cast<double>(frames) / measured.took_s / others,
               static_cast<double>(seen.front().frames) / measured.took_s, moves);
    fmt::print(
        "server: {:.0f} % of a core; {:.0f} MB empty, {:.0f} MB while measured, {:.0f} MB "
        "with all at the day's end: {:.2f} MB a bench\n",
        100.0 * cpu, measured.empty.rss_mb, measured.after.rss_mb, rss_mb, a_bench);
    fmt::print(
        "{{\"clients\": {}, \"p50_ms\": {:.2f}, \"p99_ms\": {:.2f}, \"max_ms\": {:.2f}, "
        "\"cpu_share\": {:.3f}, \"rss_mb\": {:.1f}, \"bench_mb\": {:.3f}}}\n",
        wanted.clients, share(delays, 0.5), share(delays, 0.99), longest, cpu, rss_mb, a_bench);
}

Measured measured_class(const Wanted& wanted, pid_t server, std::uint16_t port,
                        std::vector<Seen>& seen) {
    Measured measured;
    WebClient trainer("127.0.0.1", port);
    trainer.say({{"do", "class_open"}, {"secret", "ABCD-EFGH-JKLM"}, {"title", "measured"}});
    const std::string word(trainer.hear("class").value().at("word").as_string());
    measured.empty = look_at(server);
    Together all;
    std::vector<std::thread> pages;
    pages.reserve(wanted.clients);
    for (std::size_t i = 0; i < wanted.clients; ++i) {
        pages.emplace_back(learn, std::cref(wanted), port, std::cref(word), i, std::ref(all),
                           std::ref(seen[i]));
    }
    wait_for(all.seated, wanted.clients);
    const auto sent_at = Clock::now();
    trainer.say({{"do", "class_send"},
                 {"path", "days/clear_spring_day"},
                 {"to", nullptr},
                 {"sealed", false}});
    std::thread watching([&] {  // the trainer's page takes what it is told
        while (!all.over) static_cast<void>(trainer.hear(std::chrono::milliseconds(100)));
    });
    wait_for(all.ready, wanted.clients);
    for (const Seen& each : seen) {
        measured.sent_s = std::max(measured.sent_s, Seconds(each.opened_at - sent_at).count());
    }
    std::this_thread::sleep_for(std::chrono::seconds(1));
    measured.before = look_at(server);
    measured.load_before = load_now();
    const auto began = Clock::now();
    all.go = true;
    std::this_thread::sleep_for(Seconds(wanted.seconds));
    measured.took_s = Seconds(Clock::now() - began).count();
    measured.after = look_at(server);
    measured.load_after = load_now();
    wait_for(all.done, wanted.clients);
    measured.evening = look_at(server);
    all.over = true;
    for (std::thread& page : pages) page.join();
    watching.join();
    return measured;
}

int run(const Wanted& wanted) {
    const std::filesystem::path folder =
        std::filesystem::temp_directory_path() / ("live-benchmark-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder);
    std::uint16_t port = 0;
    const pid_t server = start_server(folder / "class.sqlite", port);
    std::vector<Seen> seen(wanted.clients);
    const Measured measured = measured_class(wanted, server, port, seen);
    kill(server, SIGTERM);
    int status = 0;
    waitpid(server, &status, 0);
    std::filesystem::remove_all(folder);
    print(wanted, measured, seen);
    return troubles(seen) > 0 ? 1 : 0;
}

}  // namespace

int main(int argc, char** argv) {
    Wanted wanted;
    if (argc > 1) wanted.clients = std::max(1UL, std::stoul(argv[1]));
    if (argc > 2) wanted.seconds = std::stod(argv[2]);
    if (argc > 3) wanted.pace = std::stoi(argv[3]);
    signal(SIGPIPE, SIG_IGN);
    return run(wanted);
}
