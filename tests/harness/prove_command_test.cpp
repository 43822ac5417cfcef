// SPDX-License-Identifier: MIT
// noonbench prove from outside: exit codes, what it prints, which files it leaves.
#include "program.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(prove_command)

namespace {

using namespace noonbench::harness::testing;

const std::string shelf = std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/proving";

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_sound_controller_passes_and_leaves_a_data_sheet) {
    const Bay bay;
    const Finished f = noonbench_in(bay, {"prove", shelf, "--into", "sheet"});
    BOOST_TEST(f.exit_code == 0, f.out);
    BOOST_TEST(f.err == "");
    BOOST_TEST(has(f.out, "start difference, store at 60 °C"));
    BOOST_TEST(has(f.out, " 0 outside, 0 not observed."));
    BOOST_TEST(has(f.out, "Not a certificate"));
    const std::vector<std::string> files{"sheet/data_sheet.html", "sheet/data_sheet.json"};
    BOOST_TEST(bay.files() == files, boost::test_tools::per_element());
    // whichever way the files are named
    const Finished again =
        noonbench_in(bay, {"prove", shelf + "/../proving", "--json", "--into", "again"});
    BOOST_TEST((again.out == content_of(bay / "sheet/data_sheet.json")));
    BOOST_TEST(
        (content_of(bay / "again/data_sheet.html") == content_of(bay / "sheet/data_sheet.html")));
    BOOST_TEST(!has(again.out, bay.path().string()));
}

BOOST_AUTO_TEST_CASE(something_outside_is_exit_code_one) {
    const Bay bay;
    // a statement about the controller that is not true
    bay.write("wrong.yaml", "over_temperature: {ceiling_release: 5 K}\n");
    const Finished f = noonbench_in(bay, {"prove", "wrong.yaml"});
    BOOST_TEST(f.exit_code == 1);
    BOOST_TEST(has(f.out, "outside"), f.out);
    const auto sheet = boost::json::parse(content_of(bay / "out/proving/data_sheet.json"));
    BOOST_TEST(!sheet.at("all_within").as_bool());
    BOOST_TEST(noonbench_in(bay, {"prove", "wrong.yaml", "--quiet"}).out == "");
}

BOOST_AUTO_TEST_CASE(wrong_input_is_exit_code_two_and_leaves_nothing) {
    const Bay bay;
    bay.write("good.yaml", "frost: {}\ncontroller: {frost_guard: on}\n");
    bay.write("typo.yaml", "frost: {stroe: 40 degC}\n");
    bay.write("empty_folder/readme.txt", "nothing here\n");
    const auto before = bay.files();
    const Finished typo = noonbench_in(bay, {"prove", "good.yaml", "typo.yaml", "nowhere.yaml"});
    BOOST_TEST(typo.exit_code == 2);
    BOOST_TEST(has(typo.err, "typo.yaml:1:9: "), typo.err);
    BOOST_TEST(has(typo.err, "nowhere.yaml"), typo.err);
    BOOST_TEST(noonbench_in(bay, {"prove", "empty_folder"}).exit_code == 2);
    BOOST_TEST(noonbench_in(bay, {"prove"}).exit_code == 2);  // no shelf here
    BOOST_TEST(bay.files() == before, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_folder_that_cannot_be_made_is_exit_code_three) {
    const Bay bay;
    bay.write("good.yaml", "frost: {}\ncontroller: {frost_guard: on}\n");
    bay.write("in_the_way", "a regular file");
    const Finished f = noonbench_in(bay, {"prove", "good.yaml", "--into", "in_the_way/x"});
    BOOST_TEST(f.exit_code == 3, f.err);
}

BOOST_AUTO_TEST_SUITE_END()
