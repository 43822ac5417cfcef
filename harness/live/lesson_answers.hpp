// SPDX-License-Identifier: MIT
// What came of a step of a lesson, as a page is told; it is also what is kept of it.
#pragma once
#include "harness/lesson/asked.hpp"

#include <boost/json.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// An answer and how many hands went up for it.
struct RaisedHands {
    std::string answer;
    std::int64_t count = 0;
    bool right = false;
};

/// `answer` is empty and `hands` is not where a class answered by a show of hands. Times count from
/// `start_s`.
[[nodiscard]] boost::json::object predicted_message(std::size_t step, const PredictStep& question,
                                                    const std::string& answer,
                                                    const Answered& answered,
                                                    std::span<const RaisedHands> hands,
                                                    CivilSeconds start_s);
[[nodiscard]] boost::json::object compared_message(std::size_t step, const Lesson& lesson,
                                                   const TryStep& tried, const ComparedRuns& runs,
                                                   CivilSeconds start_s);
[[nodiscard]] boost::json::object task_judged_message(std::size_t step, const TaskStep& task,
                                                      const std::vector<JudgedPart>& parts);

/// One look more on top of what was looked at before (null or a "hunting" message).
[[nodiscard]] boost::json::object hunting_message(std::size_t step, const HuntStep& hunt,
                                                  const boost::json::value& before,
                                                  std::size_t measurement,
                                                  const std::string& reads);
/// Minutes spent so far.
[[nodiscard]] int spent_min(const boost::json::value& hunting);
[[nodiscard]] boost::json::object hunt_over_message(std::size_t step, const Lesson& lesson,
                                                    const HuntStep& hunt, std::size_t drawn,
                                                    const boost::json::value& before,
                                                    std::vector<std::size_t> named);

}  // namespace noonbench::harness
