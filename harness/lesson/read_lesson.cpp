// SPDX-License-Identifier: MIT
// A whole lesson: its head, its houses, what the trainer and the sheet have. The rest has files of
// its own.
#include "lesson_draft.hpp"
#include "lesson_house.hpp"

#include "harness/judge/judge.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

namespace noonbench::harness {
namespace {

using Keys = std::string_view;

constexpr std::string_view first_house = "as opened";
constexpr int longest_lesson_min = 240;

void read_head(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 8> keys{"number",    "title",         "minutes",
                                              "aim",       "misconception", "cautions",
                                              "take_away", "bench_differs"};
    const LessonMap map(node, "lesson", keys, draft.findings);
    Lesson& lesson = draft.lesson;
    lesson.number = map.count("number", 1, 99);
    lesson.title = map.text("title", "a few words").text;
    lesson.minutes = map.count("minutes", 1, longest_lesson_min);
    lesson.aim = map.text("aim", "what the learner can do afterwards").text;
    lesson.misconception = map.text("misconception", "what learners say before").text;
    lesson.cautions = lesson_texts(map.texts("cautions", "what can hurt, a list"));
    lesson.take_away = map.text("take_away", "one sentence").text;
    lesson.bench_differs = map.text_if("bench_differs").text;
}

/// Reads the house's scenario; whatever is wrong with it is noted.
void add_house(LessonHouse house, std::vector<LessonWord> with, const LessonWord& open,
               LessonDraft& draft) {
    HouseAtHand at_hand{std::move(with), {}, {}};
    house.with = lesson_texts(at_hand.with);
    if (!open.text.empty()) house.open = path_seen_from(open.place, open.text);
    if (!house.open.empty() && !std::filesystem::is_regular_file(house.open)) {
        draft.findings.add(open.place, in_quotes(open.text) + " is no file",
                           "a scenario, seen from the lesson's folder");
    } else if (!house.open.empty()) {
        try {
            at_hand.scenario = house_scenario(house.open, at_hand.with);
            at_hand.signals = judged_signals(at_hand.scenario);
        } catch (const InputRefused& refused) {
            note(refused, draft.findings);
        }
    }
    draft.lesson.houses.push_back(std::move(house));
    draft.houses.push_back(std::move(at_hand));
}

void read_bench(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 3> keys{"open", "with", "interesting"};
    const LessonMap map(node, "bench", keys, draft.findings);
    add_house({std::string(first_house), {}, {}, map.place()}, map.texts_if("with"),
              map.text("open", "a scenario, seen from the lesson's folder"), draft);
    const LessonWord interesting = map.text_if("interesting");
    if (interesting.text.empty()) return;
    const Parsed<std::int32_t> time = parse_time_of_day(interesting.text);
    if (!time.value) draft.findings.add(interesting.place, time.what, time.allowed);
    draft.lesson.interesting_s = time.value;
}

void read_variant(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 3> keys{"name", "open", "with"};
    const LessonMap map(node, "variants", keys, draft.findings);
    const LessonWord name = map.text("name", "a few words");
    const auto& houses = draft.lesson.houses;
    const bool taken = std::any_of(houses.begin(), houses.end(),
                                   [&](const LessonHouse& h) { return h.name == name.text; });
    if (taken)
        draft.findings.add(name.place, fmt::format("a second house named {}", in_quotes(name.text)),
                           "each name once; \"as opened\" is the bench itself");
    const LessonWord open = map.text_if("open");
    std::vector<LessonWord> with;
    if (open.text.empty()) with = draft.houses.front().with;
    const std::vector<LessonWord> own = map.texts_if("with");
    if (open.text.empty() && own.empty())
        draft.findings.add(map.place(), fmt::format("{} differs in nothing", in_quotes(name.text)),
                           "with: a list of path.to.key=VALUE, or open: another scenario");
    with.insert(with.end(), own.begin(), own.end());
    LessonHouse house{name.text, {}, {}, name.place};
    if (open.text.empty()) house.open = houses.front().open;
    add_house(std::move(house), std::move(with), open, draft);
}

void read_trainer(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 4> keys{"timing", "usual_answers", "answers",
                                              "talking_points"};
    const LessonMap map(node, "trainer", keys, draft.findings);
    Trainer& trainer = draft.lesson.trainer;
    for (const LessonWord& word : map.texts("timing", "minutes, one number a step"))
        trainer.timing_min.push_back(
            lesson_count(word, "trainer.timing", 1, longest_lesson_min, draft.findings));
    trainer.usual_answers = lesson_texts(map.texts("usual_answers", "what learners often say"));
    trainer.answers = lesson_texts(map.texts("answers", "what is true"));
    trainer.talking_points = lesson_texts(map.texts("talking_points", "what to speak about"));

    const Node* timing = map.find("timing");
    const std::size_t steps = draft.lesson.steps.size();
    if (timing == nullptr) return;
    if (trainer.timing_min.size() != steps)
        draft.findings.add(timing->place,
                           fmt::format("{} numbers for {} steps", trainer.timing_min.size(), steps),
                           "minutes, one number a step");
    const int sum = std::accumulate(trainer.timing_min.begin(), trainer.timing_min.end(), 0);
    if (sum != draft.lesson.minutes)
        draft.findings.add(
            timing->place,
            fmt::format("the steps take {} minutes, the lesson {}", sum, draft.lesson.minutes),
            "one number a step, together lesson.minutes");
}

void read_sheet_line(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 3> keys{"line", "blank", "lines"};
    static constexpr std::array<std::string_view, 3> blanks{"text", "clock", "number"};
    const LessonMap map(node, "sheet", keys, draft.findings);
    SheetLine line;
    line.line = map.text("line", "what is printed").text;
    const LessonWord blank = map.text_if("blank");
    line.blank = blank.text;
    if (!blank.text.empty() && std::find(blanks.begin(), blanks.end(), blank.text) == blanks.end())
        refuse_lesson_word(blank, "something to be written", blanks, draft.findings);
    if (map.find("lines") != nullptr) line.lines = map.count("lines", 1, 12);
    const bool one = blank.text.empty() != (line.lines == 0);
    if (!one)
        draft.findings.add(map.place(), "sheet: one of blank and lines is wanted",
                           "blank: text, clock or number; or lines: 1 to 12");
    draft.lesson.sheet.push_back(std::move(line));
}

void read_parts(const LessonMap& map, LessonDraft& draft) {
    for (const Node& node : map.items_if("variants")) read_variant(node, draft);
    for (const Node& node : map.items("steps", "a list, each one of text, predict, watch, ..."))
        read_step(node, draft);
    if (const Node* node = map.need("trainer", "timing, usual_answers, answers, talking_points"))
        read_trainer(*node, draft);
    for (const Node& node : map.items("sheet", "a list of lines to be printed"))
        read_sheet_line(node, draft);
    for (const Node& node : map.items("seen", "a list of what the bench showed"))
        read_seen(node, draft);
    for (const Node& node : map.items("checks", "a list of sentences that hold"))
        read_check(node, draft);
}

}  // namespace

Lesson read_lesson(const std::filesystem::path& file) {
    static constexpr std::array<Keys, 8> keys{"lesson",  "bench", "variants", "steps",
                                              "trainer", "sheet", "seen",     "checks"};
    const Node root = parse_yaml_file(file);
    LessonDraft draft;
    draft.lesson.file = file;
    const LessonMap map(root, "a lesson", keys, draft.findings);
    const Node* head = map.need("lesson", "number, title, minutes, ...");
    const Node* bench = map.need("bench", "open: a scenario, seen from the lesson's folder");
    if (head != nullptr) read_head(*head, draft);
    if (bench != nullptr) {
        read_bench(*bench, draft);
        read_parts(map, draft);
    }
    draft.findings.refuse_if_any(file.string());
    return std::move(draft.lesson);
}

}  // namespace noonbench::harness
