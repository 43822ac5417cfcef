// SPDX-License-Identifier: MIT
// A lesson of the live bench as plain data; its form is told at the top of the first lesson's file.
// Times of day are seconds after midnight, houses are places in Lesson::houses.
#pragma once
#include "harness/scenario/problem.hpp"
#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace noonbench::harness {

/// The same morning, something else. The first of a lesson is "as opened".
struct LessonHouse {
    std::string name;
    std::filesystem::path open;
    std::vector<std::string> with;  // path.to.key=VALUE, the bench's own first
    Place place;
};

/// How far a run is looked at: to a time of day (the first after the start), a moment, or its end.
struct LessonUntil {
    std::optional<std::int32_t> time_of_day_s;
    std::optional<CivilSeconds> moment_s;
};

/// A number of the requirement language, or a condition for what is on or off, as written.
struct LessonPhrase {
    std::string text;
    Place place;
};

struct TextStep {
    std::string text;
};

struct WrongAnswer {
    enum class Kind : std::uint8_t { below, above, choice, any };
    Kind kind = Kind::any;
    double bound = 0.0;  // below, above: in the question's unit; choice: its place, from 1
    std::string say;
    Place place;
};

struct PredictStep {
    enum class Form : std::uint8_t { clock, number, choice };
    std::string question;
    Form form = Form::number;
    std::vector<std::string> choices;
    std::string unit;            // of a number; "" for what is counted
    double tolerance = 0.0;      // in that unit; of a clock time in seconds
    std::string tolerance_text;  // as written
    std::size_t house = 0;  // the run is this house's; the learner's own where it is on the bench
    LessonUntil until;
    std::optional<LessonPhrase> truth;  // of a clock or a number
    std::size_t true_choice = 0;        // from 1
    std::string because;                // of a choice
    std::string right;
    std::vector<WrongAnswer> wrong;  // the first that fits; the last fits all
};

struct WatchStep {
    std::size_t house = 0;
    LessonUntil until;
    std::vector<std::string> look_at;  // signals
    std::string say;
};

struct Compared {
    std::string name;
    LessonPhrase number;
    std::string unit;  // "clock": a time of day
};

struct TryStep {
    std::string say;
    std::vector<std::size_t> houses;  // run side by side
    LessonUntil until;
    std::vector<Compared> compare;
};

struct TaskPart {
    std::string name;
    LessonPhrase that;
    std::string hint;
};

struct TaskStep {
    std::string say;
    std::size_t house = 0;
    LessonUntil until;
    std::vector<TaskPart> require;
    std::vector<std::string> solution;  // overrides that meet it
    Place place;
};

struct HuntMeasurement {
    enum class Shows : std::uint8_t { number, condition, lever, text };
    std::string name;
    int price_min = 0;
    Shows shows = Shows::number;
    LessonPhrase phrase;  // number, condition
    std::string lever;
    std::string unit;                                        // of a number
    std::vector<std::pair<std::string, std::string>> reads;  // condition: on, off; lever: its
                                                             // value; text: the house's name
};

struct HuntStep {
    std::string say;
    std::vector<std::size_t> hidden;  // houses, one is drawn by lot
    int budget_min = 0;
    std::vector<HuntMeasurement> measurements;
    std::vector<std::string> causes;
    std::vector<std::vector<std::size_t>> right;  // of each hidden house: places in causes, sorted
    std::vector<std::string> feedback;            // of each cause
    Place place;
};

using LessonStep = std::variant<TextStep, PredictStep, WatchStep, TryStep, TaskStep, HuntStep>;

struct SheetLine {
    std::string line;
    std::string blank;  // what is to be written there; "" with lines
    int lines = 0;      // left free
};

struct Trainer {
    std::vector<int> timing_min;  // one a step
    std::vector<std::string> usual_answers, answers, talking_points;
};

/// What the bench showed when the lesson was written, and how far it may move.
struct Seen {
    std::size_t house = 0;
    LessonUntil until;
    LessonPhrase number;
    double is = 0.0;  // in the phrase's own unit; of a clock time in seconds after midnight
    double give = 0.0;
    std::string is_text, give_text;  // as written
};

struct LessonCheck {
    std::string name;
    std::size_t house = 0;
    LessonUntil until;
    LessonPhrase that;
    std::vector<std::size_t> fails_in;
    std::vector<std::string> fails_with;
};

struct Lesson {
    std::filesystem::path file;
    int number = 0;
    std::string title;
    int minutes = 0;
    std::string aim, misconception;
    std::vector<std::string> cautions;
    std::string take_away;
    std::string bench_differs;                  // may be empty
    std::optional<std::int32_t> interesting_s;  // time of day
    std::vector<LessonHouse> houses;
    std::vector<LessonStep> steps;
    Trainer trainer;
    std::vector<SheetLine> sheet;
    std::vector<Seen> seen;
    std::vector<LessonCheck> checks;
};

/// Reads and checks a lesson with all its houses and phrases. Throws InputRefused with every
/// problem, each with its place.
[[nodiscard]] Lesson read_lesson(const std::filesystem::path& file);

}  // namespace noonbench::harness
