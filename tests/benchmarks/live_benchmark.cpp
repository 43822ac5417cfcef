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

void learn(const Wanted& wanted, std::uint16_t port, const std::string& word, std::size_t number,
           std::atomic<bool>& go, std::atomic<std::size_t>& done, Seen& seen) {
    try {
        const bool is_slow = number == 0;
        WebClient page("127.0.0.1", port, {"", "", is_slow ? 8192 : 0});
        page.say({{"do", "join"}, {"word", word}, {"seat", "seat " + std::to_string(number)}});
        if (!page.hear("seated")) throw std::runtime_error("no seat");
        page.say({{"do", "open"}, {"path", "days/clear_spring_day"}});
        page.say({{"do", "jump"}, {"to_s", 25200}});
        for (auto frame = page.hear("frame");; frame = page.hear("frame")) {
            if (!frame) throw std::runtime_error("the jump does not end");
            if (frame->at("at_s").to_number<int>() == 25200) break;
        }
        while (!go) std::this_thread::sleep_for(std::chrono::milliseconds(1));
        std::this_thread::sleep_for(std::chrono::milliseconds(number * 17 % 100));
        page.say({{"do", "pace"}, {"times", wanted.pace}});
        Delays delays(wanted.pace);
        const auto began = Clock::now();
        const auto until =
            began + std::chrono::duration_cast<Clock::duration>(Seconds(wanted.seconds));
        auto next_move = began + std::chrono::milliseconds(500 + number * 83 % 4000);
        std::string moved_to;
        while (Clock::now() < until) {
            const auto text = page.hear_text(std::chrono::milliseconds(200));
            const auto now = Clock::now();
            if (text && text->starts_with(R"({"is":"frame","at_s":)")) {
                const double at_s = std::strtod(text->c_str() + 21, nullptr);
                delays.take(now, at_s);
                ++seen.frames;
                const std::string setting = R"("start_difference":")" + moved_to + '"';
                if (!moved_to.empty() && text->find(setting) != std::string::npos) {
                    ++seen.moves_shown;
                    moved_to.clear();
                }
            }
            if (is_slow) std::this_thread::sleep_for(std::chrono::milliseconds(1500));
            if (now > next_move && moved_to.empty()) {
                moved_to = std::to_string(10 + seen.moves % 9) + " K";
                page.say({{"do", "move"},
                          {"kind", "setting"},
                          {"name", "start_difference"},
                          {"to", moved_to}});
                ++seen.moves;
                next_move = now + std::chrono::milliseconds(3000 + number * 31 % 2000);
            }
        }
        if (!moved_to.empty()) --seen.moves;  // still on its way
        if (!is_slow) seen.delays_ms = delays.in_ms();
        // to the evening, where most is remembered
        page.say({{"do", "jump"}, {"to_s", 86390}});
        for (auto frame = page.hear("frame"); frame; frame = page.hear("frame")) {
            if (frame->at("at_s").to_number<int>() >= 86390) break;
        }
        ++done;
        while (go) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    } catch (const std::exception& error) {
        seen.trouble = error.what();
        ++done;
    }
}

double share(const std::vector<double>& sorted, double part) {
    if (sorted.empty()) return 0.0;
    return sorted[static_cast<std::size_t>(part * static_cast<double>(sorted.size() - 1))];
}

double load_now() {
    double load = 0.0;
    return getloadavg(&load, 1) == 1 ? load : -1.0;
}

int judge(const Wanted& wanted, const std::vector<Seen>& all) {
    int wrong = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Seen& seen = all[i];
        const bool is_slow = i == 0;
        if (!seen.trouble.empty()) {
            fmt::print("page {}: {}\n", i, seen.trouble);
            ++wrong;
        } else if (seen.frames == 0 || (!is_slow && seen.moves_shown != seen.moves)) {
            fmt::print("page {}: {} frames, {} of {} moves shown\n", i, seen.frames,
                       seen.moves_shown, seen.moves);
            ++wrong;
        }
    }
    if (wanted.clients == 0) return 1;
    return wrong > 0 ? 1 : 0;
}

int run(const Wanted& wanted) {
    const std::filesystem::path folder =
        std::filesystem::temp_directory_path() / ("live-benchmark-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder);
    std::uint16_t port = 0;
    const pid_t server = start_server(folder / "class.sqlite", port);
    WebClient trainer("127.0.0.1", port);
    trainer.say({{"do", "class_open"}, {"secret", "ABCD-EFGH-JKLM"}, {"title", "measured"}});
    const std::string word(trainer.hear("class").value().at("word").as_string());
    const Process empty = look_at(server);

    std::vector<Seen> seen(wanted.clients);
    std::vector<std::thread> pages;
    std::atomic<bool> go{false};
    std::atomic<bool> over{false};
    std::atomic<std::size_t> done{0};
    pages.reserve(wanted.clients);
    for (std::size_t i = 0; i < wanted.clients; ++i) {
        pages.emplace_back(learn, std::cref(wanted), port, std::cref(word), i, std::ref(go),
                           std::ref(done), std::ref(seen[i]));
    }
    std::thread watching([&] {
        while (!over) static_cast<void>(trainer.hear(std::chrono::milliseconds(100)));
    });
    std::this_thread::sleep_for(std::chrono::milliseconds(1000 + 100 * wanted.clients));
    const Process before = look_at(server);
    const double load_before = load_now();
    go = true;
    const auto began = Clock::now();
    std::this_thread::sleep_for(Seconds(wanted.seconds));
    const double took_s = Seconds(Clock::now() - began).count();
    const Process after = look_at(server);
    while (done < wanted.clients) std::this_thread::sleep_for(std::chrono::milliseconds(10));
    const Process evening = look_at(server);
    go = false;
    for (std::thread& page : pages) page.join();
    over = true;
    watching.join();
    kill(server, SIGTERM);
    int status = 0;
    waitpid(server, &status, 0);
    std::filesystem::remove_all(folder);

    std::vector<double> delays;
    std::size_t frames = 0;
    std::size_t moves = 0;
    for (std::size_t i = 1; i < seen.size(); ++i) {
        delays.insert(delays.end(), seen[i].delays_ms.begin(), seen[i].delays_ms.end());
        frames += seen[i].frames;
        moves += seen[i].moves;
    }
    std::sort(delays.begin(), delays.end());
    const auto others = static_cast<double>(std::max<std::size_t>(1, wanted.clients - 1));
    const double cpu = (after.cpu_s - before.cpu_s) / took_s;
    const double a_bench = (evening.rss_mb - empty.rss_mb) / static_cast<double>(wanted.clients);
    fmt::print("{} pages for {:.0f} s at x{}, one of them slow; load before {:.1f}, after {:.1f}\n",
               wanted.clients, took_s, wanted.pace, load_before, load_now());
    fmt::print("frame delay, ms   p50 {:6.1f}   p99 {:6.1f}   longest {:6.1f}   (of {} frames)\n",
               share(delays, 0.5), share(delays, 0.99), delays.empty() ? 0.0 : delays.back(),
               delays.size());
    fmt::print("frames a second and page {:5.2f}   slow page {:5.2f}   moves {}\n",
               static_cast<double>(frames) / took_s / others,
               static_cast<double>(seen.front().frames) / took_s, moves);
    fmt::print(
        "server: {:.0f} % of a core; {:.0f} MB empty, {:.0f} MB while measured, {:.0f} MB "
        "with all at the day's end: {:.2f} MB a bench\n",
        100.0 * cpu, empty.rss_mb, after.rss_mb, evening.rss_mb, a_bench);
    fmt::print(
        "{{\"clients\": {}, \"p50_ms\": {:.2f}, \"p99_ms\": {:.2f}, \"max_ms\": {:.2f}, "
        "\"cpu_share\": {:.3f}, \"rss_mb\": {:.1f}, \"bench_mb\": {:.3f}}}\n",
        wanted.clients, share(delays, 0.5), share(delays, 0.99),
        delays.empty() ? 0.0 : delays.back(), cpu, evening.rss_mb, a_bench);
    return judge(wanted, seen);
}

}  // namespace

int main(int argc, char** argv) {
    Wanted wanted;
    if (argc > 1) wanted.clients = std::stoul(argv[1]);
    if (argc > 2) wanted.seconds = std::stod(argv[2]);
    if (argc > 3) wanted.pace = std::stoi(argv[3]);
    signal(SIGPIPE, SIG_IGN);
    return run(wanted);
}
