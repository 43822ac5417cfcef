// SPDX-License-Identifier: MIT
// Watches a bench and writes down what it leaves: rows, events to the tick, sums.
#pragma once
#include "audit.hpp"
#include "bench.hpp"
#include "event_notes.hpp"
#include "run_result.hpp"
#include "signals.hpp"

#include <vector>

namespace noonbench::harness {

class Recorder {
  public:
    explicit Recorder(const Bench& bench);

    /// Between Bench::decide() and Bench::advance() or stride().
    void after_decision(const Bench& bench);
    /// A tick of a stride, at which nothing was decided.
    void in_between(const Bench& bench) { write_row(bench); }
    /// After an advance() of one second or a stride() of several.
    void after_stride(const Bench& bench, int seconds);

    /// Closes the last day; the recorder is empty afterwards.
    RunResult finish(const Bench& bench);

  private:
    void keep(traces::Event event);
    void write_row(const Bench& bench);
    void look(const Bench& bench);
    void end_of_fluid(const Bench& bench);
    void close_day(const Bench& bench);

    RunResult result_;
    std::vector<Column> columns_;
    std::vector<double> row_;
    EventNotes notes_;
    firmware::Outputs before_{};
    bool first_ = true;
    plant::Books day_books_;  // as they stood at the last midnight
    plant::HouseholdTotals day_taps_{};
    double stored_at_start_j_ = 0.0;
    CivilSeconds next_look_s_ = 0;
    CivilSeconds last_look_s_ = 0;
    Sums day_{};
    Audit audit_;
};

/// A new day's sums: nothing yet, extremes at their far ends.
Sums sums_from(CivilSeconds from_s);
/// Adds a later stretch to a sum.
void add(Sums& sum, const Sums& more);

}  // namespace noonbench::harness
