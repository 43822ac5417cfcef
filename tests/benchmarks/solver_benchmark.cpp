// SPDX-License-Identifier: MIT
// What solving the plant costs, the project's own ways beside others on one right-hand side.
//   solver_benchmark [DAYS]   clear April days of the plant alone; seconds
//   solver_benchmark --year [--days N] [--only PART,...] [--variants N] [--into FOLDER]
//       parts: batch (first: it tells the peak memory), plant, bench, scipy, cost. All of them over
//       a whole year take the better part of an hour; --days runs N days from 1 April and scales.
// All times are user CPU seconds; ratios within one run mean most. Writes results.json and
// picture.svg. Exit code 1 if answers are wrong (heat, starts, other bytes on two threads), never
// for being slow; 2 for a command line that makes no sense.
#include "solver/parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <exception>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace noonbench::benchmarks;

constexpr std::string_view all_parts = "batch,plant,bench,scipy,cost";

struct Wishes {
    bool year = false;
    CivilSeconds short_days = 10;
    Span span{};
    BatchWishes batch{};
    std::string only{all_parts};
    std::filesystem::path into = "out/benchmark";

    [[nodiscard]] bool wants(std::string_view part) const {
        return ("," + only + ",").find("," + std::string(part) + ",") != std::string::npos;
    }
};

int number_of(std::string_view word, std::string_view text, int most) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < 1 || value > most) {
        throw std::invalid_argument(
            fmt::format("{} wants a whole number from 1 to {}, not \"{}\"", word, most, text));
    }
    return value;
}

void check_parts(std::string_view only) {
    while (!only.empty()) {
        const std::string_view part = only.substr(0, only.find(','));
        if (!Wishes{}.wants(part)) {
            throw std::invalid_argument(
                fmt::format("no part \"{}\"; there are {}", part, all_parts));
        }
        only.remove_prefix(std::min(only.size(), part.size() + 1));
    }
}

Wishes wishes_of(const std::vector<std::string_view>& words) {
    Wishes wishes;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string_view word = words[i];
        const auto next = [&] {
            if (++i == words.size()) throw std::invalid_argument(fmt::format("{} of what?", word));
            return words[i];
        };
        if (word == "--year") {
            wishes.year = true;
        } else if (word == "--days") {
            wishes.span.days = number_of(word, next(), 365);
        } else if (word == "--variants") {
            wishes.batch.variants = number_of(word, next(), 1000);
        } else if (word == "--only") {
            wishes.only = next();
            check_parts(wishes.only);
        } else if (word == "--into") {
            wishes.into = next();
        } else {
            wishes.short_days = number_of("the number of days", word, 365);
        }
    }
    return wishes;
}

void long_form(const Wishes& wishes, const std::filesystem::path& beside, Results& results) {
    if (wishes.wants("batch")) batch_part(wishes.span, wishes.batch, results);
    if (wishes.wants("plant")) plant_part(wishes.span, results);
    if (wishes.wants("bench")) bench_part(wishes.span, results);
    if (wishes.wants("scipy")) scipy_part(beside, results);
    if (wishes.wants("cost")) cost_part(wishes.span, results);
    write(results, wishes.into);
}

}  // namespace

int main(int argc, char** argv) {
    try {
        const Wishes wishes = wishes_of({argv + 1, argv + argc});
        Results results;
        if (wishes.year) {
            long_form(wishes, std::filesystem::path(argv[0]).parent_path(), results);
        } else {
            short_form(wishes.short_days, results);
            results.right &= same_bytes_on_two_threads(Span{1}, {.variants = 4});
            fmt::print("{}", json_of(results));
        }
        return results.right ? 0 : 1;
    } catch (const std::invalid_argument& wrong) {
        fmt::print(stderr, "solver_benchmark: {}\n", wrong.what());
        return 2;
    } catch (const std::exception& wrong) {
        fmt::print(stderr, "solver_benchmark: {}\n", wrong.what());
        return 1;
    }
}
