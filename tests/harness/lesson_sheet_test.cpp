// SPDX-License-Identifier: MIT
// The printed sheets: what must be on them, and what must not.
#include "harness/lesson/sheet.hpp"

#include "browser.hpp"
#include "program.hpp"
#include "tiny_lesson.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(lesson_sheet)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

const Lesson& tiny() {
    static const Lesson lesson = read_lesson(tiny_lesson_file());
    return lesson;
}

bool says(const std::string& page, std::string_view words) {
    return page.find(words) != std::string::npos;
}

/// Tags that are opened and not closed, in their order; void ones aside.
std::vector<std::string> left_open(const std::string& page) {
    std::vector<std::string> open;
    for (std::size_t at = page.find('<'); at != std::string::npos; at = page.find('<', at + 1)) {
        const bool closes = page[at + 1] == '/';
        const std::size_t begin = at + (closes ? 2 : 1);
        const std::string name = page.substr(begin, page.find_first_of(" >\n", begin) - begin);
        if (name == "!DOCTYPE" || name == "meta") continue;
        if (!closes) {
            open.push_back(name);
        } else if (!open.empty() && open.back() == name) {
            open.pop_back();
        } else {
            return {"</" + name};
        }
    }
    return open;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_learner_has_room_to_write_and_no_answers) {
    const std::string page = learner_sheet(tiny());
    for (const char* words :
         {"<html lang=\"en\">", "A short &lt;morning&gt;", "Water of 60 degrees scalds.",
          "Say when it starts.", "The scene is set here.", "When does it start?", "I say (time)",
          "I say (\u00b0C)", "the bottom one", "first start, time", "minutes on", "before 07:40",
          "You have 5 minutes.", "gauge", "60", "seized", "I have noticed", "What I take away"})
        BOOST_TEST(says(page, words), words);
    for (const char* words : {"07:43", "Two temperatures", "beside the coil", "it hums", "silent",
                              "One setting speaks", "Half past six", "start_difference"})
        BOOST_TEST(!says(page, words), words);
    // a warning comes before anything that is done
    BOOST_TEST(page.find("Before you touch anything") < page.find("When does it start?"));
}

BOOST_AUTO_TEST_CASE(an_instructor_has_the_answers) {
    const std::string page = instructor_sheet(tiny());
    for (const char* words :
         {"Say when it starts.", "It starts with the sun.", "Two temperatures &amp; nothing else.",
          "Water of 60 degrees scalds.", "07:43", "Half past six.", "Two numbers first.",
          "pump seized", "seized", "the bottom one.", "It is beside the coil.", "10 to 12"})
        BOOST_TEST(says(page, words), words);
}

BOOST_AUTO_TEST_CASE(sheets_need_nothing_else) {
    for (const std::string& page : {learner_sheet(tiny()), instructor_sheet(tiny())}) {
        for (const char* words :
             {"<script", "http://", "https://", "src=", "href=", "style=\"", "{{"})
            BOOST_TEST(!says(page, words), words);
        BOOST_TEST(left_open(page) == std::vector<std::string>{}, boost::test_tools::per_element());
    }
}

BOOST_AUTO_TEST_CASE(a_try_after_a_hunt_does_not_name_the_houses) {
    std::string text = tiny_lesson_text();
    const std::size_t attempt = text.find("  - try:");
    const std::size_t task = text.find("  - task:");
    const std::string moved = text.substr(attempt, task - attempt);
    text.erase(attempt, task - attempt);
    text.insert(text.find("trainer:"), moved);
    const noonbench::testing::ScratchFolder folder;
    const std::string page = learner_sheet(read_lesson(written_lesson(folder, text)));
    BOOST_TEST(says(page, "as opened"));
    BOOST_TEST(!says(page, "warm bottom"));
    BOOST_TEST(says(learner_sheet(tiny()), "warm bottom"));
}

BOOST_AUTO_TEST_CASE(the_longest_sheets_of_the_shelf_fit_on_two_pages) {
    std::vector<std::string> pages;
    const std::string folder = std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/lessons";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".yaml") continue;
        const Lesson lesson = read_lesson(entry.path());
        pages.push_back(learner_sheet(lesson));
        pages.push_back(instructor_sheet(lesson));
    }
    BOOST_TEST_REQUIRE(pages.size() == 30U);
    std::sort(pages.begin(), pages.end(), [](const std::string& a, const std::string& b) {
        return std::pair(b.size(), b) < std::pair(a.size(), a);
    });
    pages.resize(6);
    const Bay bay;
    for (const std::string& page : pages) {
        bay.write("page.html", page);
        const auto paper = printed(bay, bay / "page.html");
        if (!paper) return;
        BOOST_TEST_CONTEXT(page.substr(page.find("<title>"), 60)) {
            BOOST_TEST(paper->a4);
            BOOST_TEST(paper->pages >= 1U);
            BOOST_TEST(paper->pages <= 2U);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_command_leaves_both_sheets) {
    const Bay bay;
    const Finished done =
        noonbench_in(bay, {"lesson", tiny_lesson_file().string(), "--into", "out"});
    BOOST_TEST(done.exit_code == 0);
    BOOST_TEST(done.out == "1 lesson, as the bench shows it; sheets in out\n");
    BOOST_TEST((bay.files() == std::vector<std::string>{"out/07_tiny_instructor.html",
                                                        "out/07_tiny_learner.html"}));
    BOOST_TEST(content_of(bay / "out/07_tiny_learner.html") == learner_sheet(tiny()));
}

BOOST_AUTO_TEST_CASE(a_figure_that_has_moved_makes_the_command_fail) {
    const Bay bay;
    const std::string text = spoilt(tiny_lesson_text(), "is: \"07:43\"", "is: \"07:50\"");
    bay.write("07_tiny.yaml", text);
    const Finished done = noonbench_in(bay, {"lesson", "07_tiny.yaml", "--quiet"});
    BOOST_TEST(done.exit_code == 1);
    BOOST_TEST(done.out.starts_with("07_tiny.yaml:"));
    BOOST_TEST(says(done.out, "07:50 was seen when the lesson was written; allowed: within 3 min"));
    BOOST_TEST(std::filesystem::exists(bay / "out/lessons/07_tiny_learner.html"));
}

BOOST_AUTO_TEST_CASE(a_lesson_that_is_none_is_refused_before_anything_runs) {
    const Bay bay;
    bay.write("07_tiny.yaml", spoilt(tiny_lesson_text(), "kind: clock", "kind: hour"));
    bay.write("08_tiny.yaml", spoilt(tiny_lesson_text(), "kind: choice", "kind: vote"));
    const Finished done = noonbench_in(bay, {"lesson", "."});
    BOOST_TEST(done.exit_code == 2);
    BOOST_TEST(says(done.err, "07_tiny.yaml:22:13: \"hour\" is not a kind of question"));
    BOOST_TEST(says(done.err, "08_tiny.yaml:"));
    BOOST_TEST(!std::filesystem::exists(bay / "out"));
    BOOST_TEST(noonbench_in(bay, {"lesson", "missing.yaml"}).exit_code == 2);
}

BOOST_AUTO_TEST_SUITE_END()
