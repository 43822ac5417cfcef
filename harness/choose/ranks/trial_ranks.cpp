// SPDX-License-Identifier: MIT
#include "trial_ranks.hpp"

#include "rank_guard.hpp"

#include "harness/scenario/problem.hpp"

#include <fmt/format.h>
#include <boost/mpi/collectives.hpp>
#include <boost/mpi/communicator.hpp>
#include <boost/mpi/environment.hpp>
#include <boost/serialization/string.hpp>
#include <boost/serialization/utility.hpp>
#include <boost/serialization/vector.hpp>

#include <chrono>
#include <exception>
#include <iostream>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

namespace mpi = boost::mpi;

// ---------------------------------------------------------------- messages

enum Tag : int { tag_year, tag_answer, tag_end };  // an end is empty

/// From rank 0: a year and its place in the list.
struct YearOrder {
    std::size_t place = 0;
    WantedYear year{};

    template <class Archive>
    void serialize(Archive& archive, unsigned /*version*/) {
        auto length = static_cast<int>(year.length);
        bool has_settings = year.settings.has_value();
        archive& place& year.seed& year.world& length& has_settings;
        year.length = static_cast<TrialLength>(length);
        if (has_settings && !year.settings) year.settings.emplace();
        if (!has_settings) return;
        for (std::int16_t& value : year.settings->value) archive& value;
    }
};

/// To rank 0: the figures to the last bit, or what the year threw.
struct YearAnswer {
    std::size_t place = 0;
    YearFigures figures{};
    bool failed = false;
    std::string failure;
    std::vector<Problem> problems;  // of an input that was refused

    template <class Archive>
    void serialize(Archive& archive, unsigned /*version*/) {
        archive& place& failed& failure;
        for (const FigureInfo& each : figure_table()) archive& figures.*each.value;
        archive& figures.advice;
        std::size_t count = problems.size();
        archive& count;
        problems.resize(count);
        for (Problem& each : problems) {
            archive& each.file& each.line& each.column& each.what& each.allowed;
        }
    }
};

/// Looks now and then: where MPI waits by itself it takes a whole core.
mpi::status next_message(const mpi::communicator& world, int source) {
    for (;;) {
        if (const auto message = world.iprobe(source, mpi::any_tag)) return *message;
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
}

// ---------------------------------------------------------------- rank 0

std::string name_of_rank(int rank) {
    return fmt::format("rank {}", rank);
}

[[noreturn]] void throw_failure(const YearAnswer& answer, int rank) {
    if (!answer.problems.empty()) throw InputRefused(answer.problems);
    throw std::runtime_error(name_of_rank(rank) + ": " + answer.failure);
}

/// One list on all other ranks.
class RankedYears {
  public:
    RankedYears(const mpi::communicator& world, std::span<const WantedYear> years,
                const YearDone& done)
        : world_(&world), years_(years), done_(&done) {}

    void run() {
        for (int rank = 1; rank < world_->size(); ++rank) hand_out(rank);
        while (underway_ > 0) take_answer();
        if (failure_) std::rethrow_exception(failure_);
    }

  private:
    void hand_out(int rank) {
        if (failure_ || next_ == years_.size()) return;
        world_->send(rank, tag_year, YearOrder{next_, years_[next_]});
        ++next_;
        ++underway_;
    }

    void take_answer() {
        const int rank = next_message(*world_, mpi::any_source).source();
        YearAnswer answer;
        world_->recv(rank, tag_answer, answer);
        --underway_;
        try {
            if (answer.failed) throw_failure(answer, rank);
            (*done_)(answer.place, answer.figures);
        } catch (...) {
            if (!failure_) failure_ = std::current_exception();
        }
        hand_out(rank);
    }

    const mpi::communicator* world_;
    std::span<const WantedYear> years_;
    const YearDone* done_;
    std::size_t next_ = 0;
    std::size_t underway_ = 0;
    std::exception_ptr failure_;
};

// ---------------------------------------------------------------- the same site everywhere

/// What a rank has read, or why it could not.
struct Reading {
    RankSite part;
    std::exception_ptr failure;
    std::pair<std::string, std::string> told;  // the text, or else the failure in words
};

Reading reading_of(const RankedSearch& search) {
    Reading reading;
    try {
        reading.part = search.read();
        reading.told.first = reading.part.text;
    } catch (const std::exception& error) {
        reading.failure = std::current_exception();
        reading.told.second = error.what();
    }
    return reading;
}

std::vector<std::pair<std::string, std::string>> told_by_all(const mpi::communicator& world,
                                                             const Reading& own) {
    std::vector<std::pair<std::string, std::string>> told;
    if (world.rank() == 0) {
        mpi::gather(world, own.told, told, 0);
    } else {
        mpi::gather(world, own.told, 0);
    }
    return told;
}

void refuse_unlike(const std::vector<std::pair<std::string, std::string>>& told) {
    std::vector<Problem> problems;
    for (std::size_t rank = 1; rank < told.size(); ++rank) {
        const auto& [text, failure] = told[rank];
        if (failure.empty() && text == told[0].first) continue;
        problems.push_back({name_of_rank(static_cast<int>(rank)), 0, 0,
                            failure.empty() ? "has read another site than rank 0"
                                            : "cannot read what rank 0 has read: " + failure,
                            "the same program, files and arguments for every rank"});
    }
    if (!problems.empty()) throw InputRefused(std::move(problems));
}

// ---------------------------------------------------------------- the two parts

int lead(const mpi::communicator& world, const RankedSearch& search) {
    const auto dismiss = [&] {
        for (int rank = 1; rank < world.size(); ++rank) world.send(rank, tag_end);
    };
    const Reading own = reading_of(search);
    const auto told = told_by_all(world, own);
    try {
        if (own.failure) std::rethrow_exception(own.failure);
        refuse_unlike(told);
        const int exit_code =
            search.search([&](std::span<const WantedYear> years, const YearDone& done) {
                RankedYears(world, years, done).run();
            });
        dismiss();
        return exit_code;
    } catch (const mpi::exception&) {
        throw;
    } catch (...) {
        dismiss();
        throw;
    }
}

YearAnswer answer_to(const YearOrder& order, YearBench& bench) {
    YearAnswer answer;
    answer.place = order.place;
    try {
        answer.figures = bench.run(order.year);
    } catch (const InputRefused& refused) {
        answer.failed = true;
        answer.problems = refused.problems();
    } catch (const std::exception& error) {
        answer.failed = true;
        answer.failure = error.what();
    }
    return answer;
}

int serve(const mpi::communicator& world, const RankedSearch& search) {
    Reading own = reading_of(search);
    (void)told_by_all(world, own);
    YearBench bench(std::move(own.part.site));
    for (;;) {
        const int tag = next_message(world, 0).tag();
        if (tag == tag_end) {
            world.recv(0, tag_end);
            return 0;
        }
        YearOrder order;
        world.recv(0, tag_year, order);
        world.send(0, tag_answer, answer_to(order, bench));
    }
}

/// Another launcher than that of the MPI library would leave each rank in a world of its own.
void refuse_lonely(const Launch& launch, int size) {
    if (size == launch.ranks) return;
    throw InputRefused(
        {{"noonbench choose", 0, 0,
          fmt::format("was started as {} ranks, but its MPI library sees {}", launch.ranks, size),
          "the mpirun of Open MPI"}});
}

}  // namespace

int search_on_ranks(const Launch& launch, const RankedSearch& search) {
    stand_guard(launch);
    const mpi::environment environment(/*abort_on_exception=*/false);
    const mpi::communicator world;
    if (world.size() != launch.ranks && launch.rank > 0) return 0;  // told once
    refuse_lonely(launch, world.size());
    try {
        return world.rank() == 0 ? lead(world, search) : serve(world, search);
    } catch (const mpi::exception& error) {
        // Others may wait for a message for ever: no orderly end.
        std::cerr << fmt::format("noonbench: rank {}: {}\n", world.rank(), error.what())
                  << std::flush;
        mpi::environment::abort(3);
        throw;
    }
}

}  // namespace noonbench::harness
