// SPDX-License-Identifier: MIT
#include "house_run.hpp"

#include "harness/bench/run.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace noonbench::harness {
namespace {

constexpr CivilSeconds course_stretch_s = 30;

/// A monitor with its eyes, up to its end.
class CutMonitor {
  public:
    CutMonitor(Monitor monitor, const std::vector<Column>& columns, CivilSeconds end_s)
        : monitor_(std::move(monitor)), end_s_(end_s) {
        columns_.reserve(monitor_.signals().size());
        for (const std::size_t index : monitor_.signals()) columns_.push_back(columns[index]);
    }
    void look(const Bench& bench) {
        if (bench.now() >= end_s_) return;
        double* value = monitor_.row();
        for (const Column& column : columns_) *value++ = column.value(bench);
        monitor_.tick();
    }
    Monitor& monitor() { return monitor_; }
    [[nodiscard]] CivilSeconds end_s() const { return end_s_; }

  private:
    Monitor monitor_;
    std::vector<Column> columns_;
    CivilSeconds end_s_;
};

/// Keeps the least and the greatest of each stretch, in the order in which they came.
class StretchKeeper {
  public:
    explicit StretchKeeper(std::size_t most) { points_.reserve(most); }

    void add(CivilSeconds at_s, double value, CivilSeconds stretch) {
        if (std::isnan(value)) return;
        if (empty_ || stretch != stretch_) {
            close();
            stretch_ = stretch;
            empty_ = false;
            least_ = greatest_ = {at_s, value};
        } else if (value < least_.second) {
            least_ = {at_s, value};
        } else if (value > greatest_.second) {
            greatest_ = {at_s, value};
        }
    }
    CoursePoints finish() {
        close();
        return std::move(points_);
    }

  private:
    void close() {
        if (empty_) return;
        const bool least_first = least_.first <= greatest_.first;
        points_.push_back(least_first ? least_ : greatest_);
        if (least_.first != greatest_.first) points_.push_back(least_first ? greatest_ : least_);
    }

    CoursePoints points_;
    std::pair<CivilSeconds, double> least_, greatest_;
    CivilSeconds stretch_ = 0;
    bool empty_ = true;
};

struct KeptCourse {
    Column column;
    StretchKeeper keeper;
};

const Column& column_named(const std::vector<Column>& columns, const std::string& name) {
    const auto found = std::find_if(columns.begin(), columns.end(),
                                    [&](const Column& c) { return c.signal.name == name; });
    if (found == columns.end()) throw std::logic_error("no signal " + name);
    return *found;
}

CivilSeconds last_tick_asked(const RunQuestions& questions, CivilSeconds start_s) {
    CivilSeconds last = start_s - 1;
    for (const NumberAt& number : questions.numbers) last = std::max(last, number.at_s);
    return last;
}

}  // namespace

RunAnswers answered_by_run(const Scenario& scenario, const RunQuestions& questions) {
    const std::vector<Column> columns = judged_columns(scenario);
    const CivilSeconds start = scenario.start_s;
    CivilSeconds end = last_tick_asked(questions, start) + 1;
    std::vector<CutMonitor> monitors;
    monitors.reserve(questions.cut.size() + 1);
    monitors.emplace_back(Monitor({}, start, questions.numbers), columns, end);
    for (const CutRequirements& cut : questions.cut) {
        monitors.emplace_back(Monitor(cut.requirements, start), columns, cut.end_s);
        end = std::max(end, cut.end_s);
    }
    std::vector<KeptCourse> kept;
    kept.reserve(questions.courses.size());
    const CivilSeconds length = std::max<CivilSeconds>(0, questions.courses_end_s - start);
    for (const std::string& name : questions.courses)
        kept.push_back({column_named(columns, name), StretchKeeper(static_cast<std::size_t>(
                                                         2 * length / course_stretch_s + 4))});
    if (!kept.empty()) end = std::max(end, questions.courses_end_s);

    run_watched(scenario, end, [&](const Bench& bench) {
        for (CutMonitor& monitor : monitors) monitor.look(bench);
        const CivilSeconds now = bench.now();
        if (now >= questions.courses_end_s) return;
        for (KeptCourse& course : kept)
            course.keeper.add(now, course.column.value(bench), (now - start) / course_stretch_s);
    });

    RunAnswers answers;
    static_cast<void>(monitors.front().monitor().finish());
    answers.numbers = monitors.front().monitor().numbers();
    answers.outcomes.reserve(questions.cut.size());
    for (std::size_t i = 1; i < monitors.size(); ++i)
        answers.outcomes.push_back(monitors[i].monitor().finish());
    answers.courses.reserve(kept.size());
    for (KeptCourse& course : kept) answers.courses.push_back(course.keeper.finish());
    return answers;
}

CoursePoints thinned_course(const CoursePoints& points, CivilSeconds from_s, CivilSeconds to_s,
                            std::size_t most) {
    const auto stretches = static_cast<CivilSeconds>(std::max<std::size_t>(1, most / 2));
    const CivilSeconds width = std::max<CivilSeconds>(1, (to_s - from_s) / stretches + 1);
    StretchKeeper keeper(most);
    for (const auto& [at_s, value] : points)
        if (at_s >= from_s && at_s <= to_s) keeper.add(at_s, value, (at_s - from_s) / width);
    return keeper.finish();
}

}  // namespace noonbench::harness
