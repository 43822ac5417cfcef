// SPDX-License-Identifier: MIT
// The program from outside: exit codes, what it prints where, and which files it leaves.
#include "program.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(cli)

namespace {

using namespace noonbench::harness::testing;

constexpr auto short_run =
    "title: An hour of morning\nstart: 2026-04-15 08:00\nlength: 1 h\nrecord: {every: 60 s}\n";

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::vector<std::string> files_of_a_run(const std::string& folder) {
    return {folder + "/events.csv", folder + "/report.html", folder + "/summary.json",
            folder + "/trace.csv"};
}

/// Input is wrong: exit code 2, nothing printed, nothing left, the error names all `parts`.
void check_refused(const Bay& bay, const std::vector<std::string>& arguments,
                   const std::vector<std::string>& parts) {
    const auto before = bay.files();
    const Finished f = noonbench_in(bay, arguments);
    BOOST_TEST_CONTEXT("error text: " << f.err) {
        BOOST_TEST(f.exit_code == 2);
        BOOST_TEST(f.out == "");
        for (const std::string& part : parts) BOOST_TEST(has(f.err, part), part);
        BOOST_TEST(!f.err.empty());
    }
    BOOST_TEST(bay.files() == before, boost::test_tools::per_element());
}

}  // namespace

// ------------------------------------------------------------------ run

BOOST_AUTO_TEST_CASE(a_run_ends_with_nought_and_leaves_its_files_in_out_and_its_name) {
    const Bay bay;
    bay.write("morning.yaml", short_run);
    const Finished f = noonbench_in(bay, {"run", "morning.yaml"});
    BOOST_TEST(f.exit_code == 0);
    BOOST_TEST(f.err == "");  // progress only where standard error is a terminal
    BOOST_TEST(has(f.out, "An hour of morning"));
    BOOST_TEST(has(f.out, "out/morning/report.html"));
    BOOST_TEST(!has(f.out, "\x1b"));  // no colours where nobody looks
    auto files = files_of_a_run("out/morning");
    files.insert(files.begin(), "morning.yaml");
    BOOST_TEST(bay.files() == files, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(into_names_the_folder_itself_for_one_and_its_parent_for_several) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    bay.write("b.yaml", short_run);
    BOOST_TEST(noonbench_in(bay, {"run", "a.yaml", "--into", "x/y"}).exit_code == 0);
    BOOST_TEST(std::filesystem::exists(bay / "x/y/trace.csv"));
    BOOST_TEST(noonbench_in(bay, {"run", "a.yaml", "b.yaml", "--into", "z"}).exit_code == 0);
    BOOST_TEST(std::filesystem::exists(bay / "z/a/trace.csv"));
    BOOST_TEST(std::filesystem::exists(bay / "z/b/trace.csv"));
}

BOOST_AUTO_TEST_CASE(flags_for_vcd_and_netcdf_leave_those_files_too) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    BOOST_TEST(noonbench_in(bay, {"run", "a.yaml", "--vcd", "--netcdf", "--into", "o"}).exit_code ==
               0);
    BOOST_TEST(std::filesystem::exists(bay / "o/trace.vcd"));
    BOOST_TEST(std::filesystem::exists(bay / "o/trace.nc"));
}

BOOST_AUTO_TEST_CASE(quiet_prints_nothing) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    const Finished f = noonbench_in(bay, {"run", "a.yaml", "--quiet"});
    BOOST_TEST(f.exit_code == 0);
    BOOST_TEST(f.out == "");
    BOOST_TEST(f.err == "");
}

BOOST_AUTO_TEST_CASE(json_prints_json_only_one_object_or_a_list) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    bay.write("b.yaml", short_run);
    const Finished one = noonbench_in(bay, {"run", "a.yaml", "--json"});
    const auto object = boost::json::parse(one.out);
    BOOST_TEST(object.at("title").as_string() == "An hour of morning");
    BOOST_TEST(object.at("balance").at("holds").as_bool());
    BOOST_TEST(one.err == "");
    BOOST_TEST(one.out == content_of(bay / "out/a/summary.json"));
    const Finished two = noonbench_in(bay, {"run", "b.yaml", "a.yaml", "--json"});
    const auto list = boost::json::parse(two.out);
    BOOST_TEST_REQUIRE(list.as_array().size() == 2U);
    BOOST_TEST(list.at(0).at("scenario").as_string() == "b");  // in order of the files
    BOOST_TEST(list.at(1).at("scenario").as_string() == "a");
}

BOOST_AUTO_TEST_CASE(any_number_of_jobs_leaves_the_same_files_and_says_the_same) {
    const Bay bay;
    std::vector<std::string> names;
    for (const char* name : {"a", "b", "c", "d", "e"}) {
        names.push_back(std::string(name) + ".yaml");
        bay.write(names.back(), std::string(short_run) + "seed: " + std::to_string(name[0]) +
                                    "\nwiring:\n  collector: {noise: 0.2 K}\n");
    }
    const auto with_jobs = [&](const std::string& jobs) {
        std::vector<std::string> arguments{"run", "--jobs", jobs, "--into", "in"};
        arguments.insert(arguments.end(), names.begin(), names.end());
        std::filesystem::remove_all(bay / "in");
        const Finished f = noonbench_in(bay, arguments);
        BOOST_TEST(f.exit_code == 0, f.err);
        std::string all = f.out;
        for (const std::string& file : bay.files()) all += file + "\n" + content_of(bay / file);
        return all;
    };
    const std::string alone = with_jobs("1");
    BOOST_TEST(alone.size() > 100'000U);
    BOOST_TEST((with_jobs("4") == alone));
}

BOOST_AUTO_TEST_CASE(no_time_host_or_path_stands_in_a_file) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    noonbench_in(bay, {"run", (bay / "a.yaml").string(), "--into", (bay / "one").string()});
    noonbench_in(bay, {"run", "a.yaml", "--into", "two"});
    for (const char* file : {"trace.csv", "events.csv", "summary.json", "report.html"}) {
        const std::string one = content_of(bay / (std::string("one/") + file));
        BOOST_TEST(!one.empty(), file);
        BOOST_TEST((one == content_of(bay / (std::string("two/") + file))), file);
        BOOST_TEST(!has(one, bay.path().string()), file);
    }
}

BOOST_AUTO_TEST_CASE(a_set_reaches_the_run_and_so_does_a_seed) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    const Finished f =
        noonbench_in(bay, {"run", "a.yaml", "--json", "--seed", "77", "--set",
                           "controller.start_difference=11 K", "--set", "title=Another"});
    const auto summary = boost::json::parse(f.out);
    BOOST_TEST(summary.at("settings").at("start_difference").as_string() == "11 K");
    BOOST_TEST(summary.at("title").as_string() == "Another");
    BOOST_TEST(summary.at("seed").as_int64() == 77);
}

// ------------------------------------------------------------------ wrong input

BOOST_AUTO_TEST_CASE(a_file_that_is_missing_a_folder_or_empty_is_refused) {
    const Bay bay;
    bay.write("empty.yaml", "");
    std::filesystem::create_directories(bay / "folder");
    check_refused(bay, {"run", "nowhere.yaml"}, {"nowhere.yaml", "there is no such file"});
    check_refused(bay, {"run", "folder"}, {"folder"});
    check_refused(bay, {"run", "empty.yaml"}, {"empty.yaml"});
}

BOOST_AUTO_TEST_CASE(an_unknown_key_is_refused_with_its_place_and_the_nearest_word) {
    const Bay bay;
    bay.write("typo.yaml", std::string(short_run) + "controller:\n  start_diference: 8 K\n");
    check_refused(bay, {"run", "typo.yaml"},
                  {"typo.yaml:6:3: ", "start_diference", "start_difference"});
}

BOOST_AUTO_TEST_CASE(a_wrong_unit_and_a_value_out_of_range_are_refused_with_what_is_allowed) {
    const Bay bay;
    bay.write("unit.yaml", std::string(short_run) + "controller:\n  start_difference: 8 bar\n");
    check_refused(bay, {"run", "unit.yaml"}, {"unit.yaml:6:21: ", "bar", "allowed", "K"});
    bay.write("range.yaml", std::string(short_run) + "controller:\n  start_difference: 800 K\n");
    check_refused(bay, {"run", "range.yaml"}, {"range.yaml:6:21: ", "800 K", "allowed"});
}

BOOST_AUTO_TEST_CASE(all_problems_of_all_files_come_at_once_and_nothing_runs) {
    const Bay bay;
    bay.write("good.yaml", short_run);
    bay.write("bad.yaml", std::string(short_run) + "stoer: {}\nhousehold: {peple: 2}\n");
    check_refused(bay, {"run", "good.yaml", "bad.yaml", "nowhere.yaml"},
                  {"bad.yaml:5:1: ", "bad.yaml:6:13: ", "nowhere.yaml"});
}

BOOST_AUTO_TEST_CASE(a_wrong_set_is_refused_and_named) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    check_refused(bay, {"run", "a.yaml", "--set", "controller.start_diference=8 K"},
                  {"--set", "start_difference"});
    check_refused(bay, {"run", "a.yaml", "--set", "controller.start_difference=8 bar"},
                  {"--set", "bar"});
    check_refused(bay, {"run", "a.yaml", "--set", "controller.start_difference"}, {"--set"});
    check_refused(bay, {"run", "a.yaml", "--set", "=8 K"}, {"--set"});
}

BOOST_AUTO_TEST_CASE(two_scenarios_of_one_name_would_overwrite_each_other_and_are_refused) {
    const Bay bay;
    bay.write("one/same.yaml", short_run);
    bay.write("two/same.yaml", std::string(short_run) + "seed: 9\n");
    check_refused(bay, {"run", "one/same.yaml", "two/same.yaml"}, {"two/same.yaml", "same"});
}

BOOST_AUTO_TEST_CASE(a_wrong_command_line_is_wrong_input) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    for (const std::vector<std::string>& arguments :
         std::vector<std::vector<std::string>>{{},
                                               {"rum", "a.yaml"},
                                               {"run"},
                                               {"run", "a.yaml", "--nosuch"},
                                               {"run", "a.yaml", "--jobs", "many"},
                                               {"run", "a.yaml", "--seed", "-1"},
                                               {"run", "a.yaml", "--jobs", "-1"},
                                               {"run", "a.yaml", "--jobs", "0"},
                                               {"list", "nothing"},
                                               {"why", "a.yaml"}}) {
        const Finished f = noonbench_in(bay, arguments);
        BOOST_TEST_CONTEXT((arguments.empty() ? "no argument" : arguments.back())
                           << ": " << f.err) {
            BOOST_TEST(f.exit_code == 2);
            BOOST_TEST(!f.err.empty());
        }
    }
}

BOOST_AUTO_TEST_CASE(help_is_no_error_and_every_command_shows_an_example) {
    const Bay bay;
    BOOST_TEST(noonbench_in(bay, {"--help"}).exit_code == 0);
    for (const char* command :
         {"run", "judge", "prove", "why", "compare", "list", "schema", "init"}) {
        const Finished f = noonbench_in(bay, {command, "--help"});
        BOOST_TEST(f.exit_code == 0, command);
        BOOST_TEST(has(f.out, std::string("noonbench ") + command), command);
        BOOST_TEST(has(f.out, "Example:"), command);
    }
}

// ------------------------------------------------------------------ the machine fails

BOOST_AUTO_TEST_CASE(a_folder_that_cannot_be_made_is_the_machines_failure_and_nothing_is_left) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    bay.write("in_the_way", "a regular file");
    const auto before = bay.files();
    const Finished f = noonbench_in(bay, {"run", "a.yaml", "--into", "in_the_way/here"});
    BOOST_TEST(f.exit_code == 3);
    BOOST_TEST(f.out == "");
    BOOST_TEST(has(f.err, "in_the_way"), f.err);
    BOOST_TEST(bay.files() == before, boost::test_tools::per_element());
    BOOST_TEST(content_of(bay / "in_the_way") == "a regular file");
}

BOOST_AUTO_TEST_CASE(a_file_that_cannot_be_replaced_is_the_machines_failure_without_remains) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    std::filesystem::create_directories(bay / "o/trace.csv/in_the_way");
    const Finished f = noonbench_in(bay, {"run", "a.yaml", "--into", "o"});
    BOOST_TEST(f.exit_code == 3);
    BOOST_TEST(has(f.err, "trace.csv"), f.err);
    BOOST_TEST(bay.files() == std::vector<std::string>{"a.yaml"}, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_full_disk_behind_standard_output_is_the_machines_failure) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    BOOST_TEST(noonbench_in(bay, {"schema"}, "/dev/full").exit_code == 3);
    BOOST_TEST(noonbench_in(bay, {"list", "settings"}, "/dev/full").exit_code == 3);
    BOOST_TEST(noonbench_in(bay, {"run", "a.yaml", "--json"}, "/dev/full").exit_code == 3);
}

// ------------------------------------------------------------------ why, compare

BOOST_AUTO_TEST_CASE(why_tells_the_chain_from_a_folder_or_a_file_in_it) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    noonbench_in(bay, {"run", "a.yaml"});
    const Finished f = noonbench_in(bay, {"why", "out/a", "--at", "08:30"});
    BOOST_TEST(f.exit_code == 0);
    BOOST_TEST(has(f.out, "  pump "), f.out);
    BOOST_TEST(noonbench_in(bay, {"why", "out/a/trace.csv", "--at", "08:30"}).out == f.out);
    BOOST_TEST(noonbench_in(bay, {"why", "out/a", "--at", "2026-04-15 08:30:00"}).out == f.out);
}

BOOST_AUTO_TEST_CASE(why_refuses_what_is_no_time_or_lies_before_the_run) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    noonbench_in(bay, {"run", "a.yaml"});
    for (const char* time : {"noon", "8:30", "08:60", "24:30", "08:30:61", "2026-02-31 08:30",
                             "2026-13-01 08:30", "", "08:30 "}) {
        check_refused(bay, {"why", "out/a", "--at", time}, {"--at"});
    }
    check_refused(bay, {"why", "out/a", "--at", "07:00"}, {"nothing has happened yet"});
    check_refused(bay, {"why", "nowhere", "--at", "08:30"}, {"nowhere"});
}

BOOST_AUTO_TEST_CASE(compare_says_yes_no_and_how_much) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    noonbench_in(bay, {"run", "a.yaml", "--into", "one"});
    noonbench_in(bay, {"run", "a.yaml", "--into", "same"});
    noonbench_in(bay, {"run", "a.yaml", "--into", "other", "--set", "store.start_bottom=21 degC"});
    const Finished same = noonbench_in(bay, {"compare", "one", "same"});
    BOOST_TEST(same.exit_code == 0);
    BOOST_TEST(same.out == "They agree.\n");
    const Finished other = noonbench_in(bay, {"compare", "one", "other"});
    BOOST_TEST(other.exit_code == 1);
    BOOST_TEST(has(other.out, "store_bottom_reading_c"), other.out);
    check_refused(bay, {"compare", "one", "nowhere"}, {"nowhere"});
    bay.write("tolerances.txt", "air_c 0.1\n");
    check_refused(bay, {"compare", "one", "same", "--tolerances", "tolerances.txt"},
                  {"tolerances.txt:1"});
}

BOOST_AUTO_TEST_CASE(a_damaged_trace_is_refused_with_its_place) {
    const Bay bay;
    bay.write("a.yaml", short_run);
    noonbench_in(bay, {"run", "a.yaml", "--into", "one"});
    std::string events = content_of(bay / "one/events.csv");
    bay.write("torn/events.csv", events.substr(0, 100) + "\"\n");
    bay.write("torn/trace.csv", "time_s,air_c\r\nnoon,3\r\n");
    check_refused(bay, {"why", "torn", "--at", "08:30"}, {"torn/events.csv:"});
    check_refused(bay, {"compare", "one", "torn"}, {"torn/trace.csv:2:1: "});
}

// ------------------------------------------------------------------ list, schema, init

BOOST_AUTO_TEST_CASE(list_shows_the_shelf_and_every_word) {
    const Bay bay;
    const std::string shelf = std::string(NOONBENCH_SOURCE_DIR) + "/scenarios";
    const Finished scenarios = noonbench_in(bay, {"list", "--shelf", shelf});
    BOOST_TEST(scenarios.exit_code == 0);
    BOOST_TEST(has(scenarios.out, "clear_spring_day.yaml"));
    BOOST_TEST(has(noonbench_in(bay, {"list", "settings"}).out, "start_difference"));
    BOOST_TEST(has(noonbench_in(bay, {"list", "keys"}).out, "controller.start_difference"));
    BOOST_TEST(has(noonbench_in(bay, {"list", "levers"}).out, "coil_fouling"));
    // the pump's table of priority, its rows in order of rank
    const std::string priority = noonbench_in(bay, {"list", "priority"}).out;
    const std::size_t ceiling = priority.find("ceiling_reached");
    const std::size_t by_hand = priority.find("hand_on");
    const std::size_t too_hot = priority.find("collector_cut_out");
    BOOST_TEST((ceiling < by_hand && by_hand < too_hot && too_hot < priority.find("collecting")));
    // and the developers' copy of it is the same
    std::ifstream file(std::string(NOONBENCH_SOURCE_DIR) + "/DEVELOPERS.md");
    const std::string developers{std::istreambuf_iterator<char>(file), {}};
    BOOST_TEST(has(developers, "```\n" + priority + "```\n"));
    check_refused(bay, {"list", "--shelf", "nowhere"}, {"nowhere"});
}

BOOST_AUTO_TEST_CASE(the_schema_is_json) {
    const Bay bay;
    const Finished f = noonbench_in(bay, {"schema"});
    BOOST_TEST(f.exit_code == 0);
    BOOST_TEST(boost::json::parse(f.out).as_object().contains("properties"));
}

BOOST_AUTO_TEST_CASE(init_writes_a_starter_that_runs_and_never_overwrites) {
    const Bay bay;
    BOOST_TEST(noonbench_in(bay, {"init", "mine.yaml"}).exit_code == 0);
    const std::string written = content_of(bay / "mine.yaml");
    const Finished f = noonbench_in(bay, {"run", "mine.yaml", "--quiet", "--set", "length=1 h"});
    BOOST_TEST(f.exit_code == 0, f.err);
    check_refused(bay, {"init", "mine.yaml"}, {"mine.yaml", "is there already"});
    BOOST_TEST(content_of(bay / "mine.yaml") == written);
    BOOST_TEST(noonbench_in(bay, {"init", "mine.yaml/below.yaml"}).exit_code == 3);
    BOOST_TEST(noonbench_in(bay, {"init", "no_such_folder/new.yaml"}).exit_code == 3);
}

BOOST_AUTO_TEST_SUITE_END()
