// SPDX-License-Identifier: MIT
// What happens on a bench, to the tick and in words: every change of a relay, a reason or an
// advice, and every move.
#pragma once
#include "bench.hpp"

#include "traces/table.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

class EventNotes {
  public:
    /// Between Bench::decide() and advance() or stride(): what is otherwise than at the tick noted
    /// before; everything at the first. Of what a sealed run hides nothing is told.
    [[nodiscard]] std::vector<traces::Event> after_decision(const Bench& bench);

  private:
    void note(const Bench& bench, std::string what, std::string name, std::string from,
              std::string to, std::string because = {});
    void note_moves(const Bench& bench);
    void note_relay(const Bench& bench, const char* name, bool before, bool now);
    void note_advice(const Bench& bench);

    std::vector<traces::Event> events_;  // of this tick
    firmware::Outputs before_{};
    bool first_ = true;
    bool was_powered_ = true;
    bool tripped_ = false;
};

}  // namespace noonbench::harness
