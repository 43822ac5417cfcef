// SPDX-License-Identifier: MIT
// What a trainer sees of a session at a glance.
#pragma once
#include <optional>
#include <string>

namespace noonbench::harness {

/// A prediction that is asked for at present, with the learner's own answer once it is given.
struct GlanceQuestion {
    int step = 0;
    std::string question;
    std::string unit;
    std::optional<std::string> answer;
    std::optional<bool> right;
};

struct SessionGlance {
    std::string path;                   // on the shelf, sealed or not; empty: nothing is open
    std::string title;                  // likewise
    std::optional<std::string> clock;   // "07:12"
    std::string pump_words;             // "waiting for sun"
    std::optional<double> collector_c;  // as the controller reads them
    std::optional<double> store_c;

    // Of a lesson; nothing of them without one.
    std::optional<int> step;
    std::optional<int> steps;
    std::string step_kind;
    bool unsettled = false;  // the present step asks for something that is not done yet
    int asked = 0;           // predictions committed
    int right = 0;
    int tasks = 0;  // that the lesson has; hunts likewise
    int tasks_met = 0;
    int hunts = 0;
    int hunts_right = 0;
    std::optional<GlanceQuestion> question;
};

}  // namespace noonbench::harness
