// SPDX-License-Identifier: MIT
#include "judge_screen.hpp"

#include "harness/scenario/scenario.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <string_view>
#include <utility>

namespace noonbench::cli {
namespace {

namespace json = boost::json;

constexpr std::size_t bar_width = 24;
constexpr std::size_t least_name_width = 30;
constexpr std::size_t most_name_width = 64;

std::string text(const json::object& object, const char* member) {
    return std::string(object.at(member).as_string());
}

std::string changes_text(const json::array& changes) {
    if (changes.size() == 1 && changes.front().as_string() == harness::healthy_word)
        return ", the healthy twin";
    std::string out = "  with";
    for (const json::value& change : changes)
        out += fmt::format(" '{}'", std::string_view(change.as_string()));
    return out;
}

class Table {
  public:
    explicit Table(bool colour) : colour_(colour) {}

    void add(const json::object& done) {
        const bool changed = done.contains("fails_with");
        std::string heading = text(done, "file");
        if (changed) {
            heading += changes_text(done.at("fails_with").as_array()) + ", where it must fail";
        }
        out_ += painted(heading, "1") + "\n";
        if (done.contains("failure")) {
            ++not_run_;
            out_ += painted(fmt::format("  NOT RUN   {}\n", text(done, "failure")), "31");
        }
        const json::array& verdicts = done.at("requirements").as_array();
        if (verdicts.empty() && !done.contains("failure")) out_ += "  nothing is required here\n";
        width_ = least_name_width;
        for (const json::value& verdict : verdicts) {
            width_ = std::max(width_, text(verdict.as_object(), "name").size());
        }
        width_ = std::min(width_, most_name_width);
        for (const json::value& verdict : verdicts) add_verdict(verdict.as_object(), changed);
    }

    std::string finished(std::size_t scenarios) {
        out_ += fmt::format("\n{} {}, {} held", scenarios, scenarios == 1 ? "run" : "runs", held_);
        if (not_held_ > 0) out_ += fmt::format(", {} not held", not_held_);
        if (not_known_ > 0) out_ += fmt::format(", {} not yet known", not_known_);
        if (as_wanted_ > 0) out_ += fmt::format(", {} failed where they must", as_wanted_);
        if (survived_ > 0) out_ += fmt::format(", {} DID NOT FAIL where they must", survived_);
        if (not_run_ > 0) out_ += fmt::format(", {} NOT RUN", not_run_);
        return out_ + "\n";
    }

  private:
    [[nodiscard]] std::string painted(const std::string& words, const char* style) const {
        return colour_ ? fmt::format("\x1b[{}m{}\x1b[0m", style, words) : words;
    }

    void add_verdict(const json::object& verdict, bool must_fail) {
        const std::string word = text(verdict, "verdict");
        std::string in_words = text(verdict, "in_words");
        const bool good = word == (must_fail ? "not_held" : "held");
        const std::string sign = good ? "ok" : "!!";
        out_ += painted(
            fmt::format("  {}  {:<{}}  {}\n", sign, text(verdict, "name"), width_, in_words),
            good ? "32" : "31");
        count(word, must_fail);
        if (!good && !must_fail) tell(verdict);
    }

    void count(std::string_view word, bool must_fail) {
        if (must_fail) {
            ++(word == "not_held" ? as_wanted_ : survived_);
        } else {
            ++(word == "held" ? held_ : word == "not_held" ? not_held_ : not_known_);
        }
    }

    void tell(const json::object& verdict) {
        out_ += fmt::format("        required: {}\n", text(verdict, "that"));
        out_ += fmt::format("        tightest at {}\n", text(verdict, "tightest_at"));
        for (const json::value& link : verdict.at("reasons").as_array()) {
            out_ += fmt::format("          {}\n", std::string_view(link.as_string()));
        }
        out_ += fmt::format("        look at: {}\n", text(verdict, "look_at"));
    }

    bool colour_;
    std::size_t width_ = least_name_width;
    std::string out_;
    int held_ = 0;
    int not_held_ = 0;
    int not_known_ = 0;
    int as_wanted_ = 0;
    int survived_ = 0;
    int not_run_ = 0;
};

}  // namespace

std::string verdict_table(const std::vector<json::object>& done, bool colour) {
    Table table(colour);
    for (const json::object& task : done) table.add(task);
    return table.finished(done.size());
}

std::function<void(const harness::Underway&)> judge_progress(std::vector<std::string> names) {
    return [names = std::move(names)](const harness::Underway& now) {
        if (now.done == now.all) {
            std::cerr << "\r\x1b[K" << std::flush;
            return;
        }
        const auto full = static_cast<std::size_t>(now.share * double{bar_width});
        std::string running;
        for (const harness::Underway::Child& child : now.running) {
            running += fmt::format("{}{} {:.0f} %", running.empty() ? "" : ", ", names[child.index],
                                   100.0 * child.share);
        }
        std::cerr << fmt::format("\r[{:<{}}] {} of {}  {:.60}\x1b[K",
                                 std::string(std::min(full, bar_width), '#'), bar_width, now.done,
                                 now.all, running)
                  << std::flush;
    };
}

}  // namespace noonbench::cli
