// SPDX-License-Identifier: MIT
// Slows down whoever tries words or secrets.
#pragma once

namespace noonbench::harness {

/// Of one line.
inline constexpr int most_wrong_tries = 6;

/// Of the whole server. Time is passed in: seconds of any steady clock.
class GuessGuard {
  public:
    /// Whether a try may be looked at now. Once guessing is suspected, one a second.
    [[nodiscard]] bool may_try(double now_s);
    /// A try was wrong; `line_is_shut`: it was the last that its line had.
    void was_wrong(double now_s, bool line_is_shut);
    [[nodiscard]] bool is_suspecting(double now_s) const { return now_s < suspects_until_s_; }

  private:
    double suspects_until_s_ = -1e9;
    double last_try_s_ = -1e9;
    double window_began_s_ = -1e9;
    int wrong_in_window_ = 0;
};

}  // namespace noonbench::harness
