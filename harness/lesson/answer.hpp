// SPDX-License-Identifier: MIT
// An answer as it was given, and what is said to it.
#pragma once
#include "lesson.hpp"

#include <string>
#include <string_view>

namespace noonbench::harness {

/// An answer that is one (see no_answer()).
struct GivenAnswer {
    double value = 0.0;  // in the question's unit; of a clock time in seconds; a choice's place
    std::string text;    // as it is put in: "07:15", "47"
};
[[nodiscard]] GivenAnswer given_answer(const PredictStep& step, std::string_view answer);

/// The truth as it is told, and as a number: a clock time to the minute, numbers with the decimals
/// that are shown, so that nobody is wrong by a figure that is not to be seen.
struct ToldTruth {
    double value = 0.0;  // NaN where there was none
    std::string text;
};
/// Of a number in the question's unit, or a clock time in seconds.
[[nodiscard]] ToldTruth told_truth(const PredictStep& step, double truth);

struct Reply {
    bool right = false;
    std::string say;
};
/// Times of day are compared in the order in which they come after `start_of_day_s`, the time of
/// day at which the run starts.
[[nodiscard]] Reply reply_to(const PredictStep& step, const GivenAnswer& answer,
                             const ToldTruth& truth, double start_of_day_s);

}  // namespace noonbench::harness
