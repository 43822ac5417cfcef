// SPDX-License-Identifier: MIT
#include "guess_guard.hpp"

namespace noonbench::harness {
namespace {

constexpr double suspicion_s = 600.0;  // after the last wrong try
constexpr double window_s = 600.0;
constexpr int many_wrong = 60;  // in a window, from many lines: a class mistypes less

}  // namespace

bool GuessGuard::may_try(double now_s) {
    if (is_suspecting(now_s) && now_s - last_try_s_ < 1.0) return false;
    last_try_s_ = now_s;
    return true;
}

void GuessGuard::was_wrong(double now_s, bool line_is_shut) {
    if (now_s - window_began_s_ > window_s) {
        window_began_s_ = now_s;
        wrong_in_window_ = 0;
    }
    ++wrong_in_window_;
    if (line_is_shut || wrong_in_window_ >= many_wrong || is_suspecting(now_s)) {
        suspects_until_s_ = now_s + suspicion_s;
    }
}

}  // namespace noonbench::harness
