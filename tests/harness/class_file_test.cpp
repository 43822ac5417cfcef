// SPDX-License-Identifier: MIT
// A class on the disk: what is kept is found again, also by a program after one that was killed;
// nobody else's file is touched.
#include "harness/live/class_file.hpp"

#include "tests/harness/live_program.hpp"
#include "tests/harness/program.hpp"
#include "tests/harness/web_client.hpp"
#include "tests/scratch.hpp"

#include "harness/scenario/problem.hpp"

#include <sqlite3.h>
#include <boost/test/unit_test.hpp>

#include <filesystem>
#include <string>

BOOST_AUTO_TEST_SUITE(class_file)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using noonbench::testing::ScratchFolder;

namespace {

KeptSeat seat(std::string name, std::string bench = "{}") {
    return {name, "ticket of " + name, std::move(bench), R"({"a":1})"};
}

void with_sqlite(const std::filesystem::path& file, const std::string& sql) {
    sqlite3* db = nullptr;
    BOOST_TEST_REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
    BOOST_TEST(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
    sqlite3_close(db);
}

void is_refused_untouched(const std::filesystem::path& file) {
    const std::string before = content_of(file);
    try {
        ClassFile refused(file);
        BOOST_ERROR("was not refused");
    } catch (const InputRefused& refused) {
        BOOST_TEST(std::string(refused.what()).find(file.string()) == 0U);
        BOOST_TEST(!refused.problems().front().allowed.empty());
    }
    BOOST_TEST(content_of(file) == before);
    for (const auto& entry : std::filesystem::directory_iterator(file.parent_path())) {
        BOOST_TEST(entry.path().string().find(".sqlite-") == std::string::npos, entry.path());
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(nothing_is_written_before_there_is_a_class) {
    const ScratchFolder folder;
    ClassFile file(folder / "out/class.sqlite");
    BOOST_TEST(!file.all().has_value());
    BOOST_TEST(std::filesystem::is_empty(folder.path()));
}

BOOST_AUTO_TEST_CASE(what_is_kept_is_found_again) {
    const ScratchFolder folder;
    const auto path = folder / "out/class.sqlite";
    const std::string sharp = "Bobby'); DROP TABLE seats;-- \u00e4\"";
    {
        ClassFile file(path);
        file.keep(KeptClass{"Tuesday", "copper-valley-27", false, ""});
        file.keep(std::vector{seat("Anna"), seat(sharp), seat("Zoe")});
        file.keep(std::vector{seat("Anna", R"({"path":"days/x"})")});
        file.keep(KeptClass{"Tuesday", "copper-valley-27", true, "Anna"});
        file.forget_seat("Zoe");
    }
    const auto mode = std::filesystem::status(path).permissions();
    BOOST_TEST(((mode & std::filesystem::perms::others_read) == std::filesystem::perms::none));
    ClassFile file(path);
    const auto all = file.all();
    BOOST_TEST_REQUIRE(all.has_value());
    BOOST_TEST(all->of_class.word == "copper-valley-27");
    BOOST_TEST(all->of_class.held);
    BOOST_TEST(all->of_class.shown == "Anna");
    BOOST_TEST_REQUIRE(all->seats.size() == 2U);
    BOOST_TEST(all->seats[0].bench == R"({"path":"days/x"})");
    BOOST_TEST(all->seats[0].ticket == "ticket of Anna");
    BOOST_TEST(all->seats[1].name == sharp);
    file.forget();
    BOOST_TEST(!file.all().has_value());
}

BOOST_AUTO_TEST_CASE(one_program_at_a_time) {
    const ScratchFolder folder;
    ClassFile first(folder / "class.sqlite");
    first.keep(KeptClass{"a", "b", false, ""});
    try {
        ClassFile second(folder / "class.sqlite");
        BOOST_ERROR("was not refused");
    } catch (const InputRefused& refused) {
        BOOST_TEST(std::string(refused.what()).find("held by another program") !=
                   std::string::npos);
    }
    first.keep(KeptClass{"a", "c", false, ""});
}

BOOST_AUTO_TEST_CASE(other_files_are_refused_and_left_alone) {
    const ScratchFolder folder;
    is_refused_untouched(folder.write("text/class.sqlite", "settings: 7 K\n"));
    is_refused_untouched(folder.write("empty/class.sqlite", ""));
    is_refused_untouched(folder.write("zeros/class.sqlite", std::string(4096, '\0')));
    std::filesystem::create_directories(folder / "other");
    with_sqlite(folder / "other/class.sqlite", "CREATE TABLE photos (name TEXT)");
    is_refused_untouched(folder / "other/class.sqlite");
    std::filesystem::create_directories(folder / "newer");
    { ClassFile(folder / "newer/class.sqlite").keep(KeptClass{"a", "b", false, ""}); }
    with_sqlite(folder / "newer/class.sqlite", "PRAGMA journal_mode=DELETE; PRAGMA user_version=2");
    is_refused_untouched(folder / "newer/class.sqlite");
    std::filesystem::create_directories(folder / "folder/class.sqlite");
    BOOST_CHECK_THROW(ClassFile(folder / "folder/class.sqlite"), InputRefused);
}

BOOST_AUTO_TEST_CASE(a_damaged_file_is_said_to_be) {
    const ScratchFolder folder;
    const auto path = folder / "class.sqlite";
    {
        ClassFile file(path);
        file.keep(KeptClass{"a", "b", false, ""});
        for (int i = 0; i < 60; ++i) {
            file.keep(std::vector{seat("seat " + std::to_string(i), std::string(2000, 'x'))});
        }
    }
    std::string bytes = content_of(path);
    BOOST_TEST_REQUIRE(bytes.size() > 40000U);
    for (std::size_t i = 4096; i < bytes.size(); i += 7) bytes[i] = '\x5a';
    folder.write("class.sqlite", bytes);
    BOOST_CHECK_THROW(ClassFile{path}, InputRefused);
}

BOOST_AUTO_TEST_CASE(the_program_refuses_a_strangers_file_with_exit_code_2) {
    const Bay bay;
    bay.write("photos.sqlite", "these are not classes");
    const Finished finished =
        noonbench_in(bay, {"live", "--port", "0", "--class-file", "photos.sqlite", "--shelf",
                           std::string(NOONBENCH_SOURCE_DIR) + "/scenarios"});
    BOOST_TEST(finished.exit_code == 2);
    BOOST_TEST(finished.err.find("photos.sqlite: is no class file; allowed: ") == 0U, finished.err);
    BOOST_TEST(content_of(bay / "photos.sqlite") == "these are not classes");
}

// kill -9, then the same command again: class, word, ticket, moves and place are there.
BOOST_AUTO_TEST_CASE(a_killed_program_comes_back_with_its_class) {
    const ScratchFolder folder;
    const std::vector<std::string> words{"--class-file", (folder / "class.sqlite").string()};
    std::string word;
    std::string ticket;
    json::object before;
    {
        LiveProgram program(words);
        BOOST_TEST_REQUIRE(program.port != 0);
        WebClient trainer("127.0.0.1", program.port);
        trainer.say({{"do", "class_open"}, {"secret", program.secret}, {"title", "Tuesday"}});
        word = trainer.hear("class").value().at("word").as_string();
        WebClient anna("127.0.0.1", program.port);
        anna.say({{"do", "join"}, {"word", word}, {"seat", "Anna"}});
        ticket = anna.hear("seated").value().at("ticket").as_string();
        anna.say({{"do", "open"}, {"path", "days/clear_spring_day"}});
        anna.say({{"do", "jump"}, {"to_s", 36000}});
        for (auto frame = anna.hear("frame");; frame = anna.hear("frame")) {
            BOOST_TEST_REQUIRE(frame.has_value());
            if (frame->at("at_s").to_number<int>() == 36000) break;
        }
        anna.say({{"do", "move"}, {"kind", "lever"}, {"name", "passing_cloud"}, {"to", "80 %"}});
        anna.say(
            {{"do", "move"}, {"kind", "setting"}, {"name", "start_difference"}, {"to", "12 K"}});
        for (int frames = 0; frames < 2; ++frames) before = anna.hear("frame").value();
        BOOST_TEST(program.end(SIGKILL) == -SIGKILL);  // at once after it was answered
    }
    LiveProgram program(words);
    WebClient trainer("127.0.0.1", program.port);
    trainer.say({{"do", "class_open"}, {"secret", program.secret}});
    const json::object entered = trainer.hear("class").value();
    BOOST_TEST(entered.at("word").as_string() == word);
    BOOST_TEST(entered.at("title").as_string() == "Tuesday");
    WebClient anna("127.0.0.1", program.port);
    anna.say({{"do", "rejoin"}, {"ticket", ticket}});
    BOOST_TEST(anna.hear("seated").value().at("seat").as_string() == "Anna");
    json::object after;
    for (int frames = 0; frames < 100; ++frames) {
        after = anna.hear("frame").value();
        if (!after.at("jumping").as_bool()) break;
    }
    BOOST_TEST(after.at("at_s") == before.at("at_s"));
    for (const char* part : {"now", "settings", "levers", "pump"}) {
        BOOST_TEST(json::serialize(after.at("benches").at(0).at(part)) ==
                   json::serialize(before.at("benches").at(0).at(part)));
    }
    BOOST_TEST(program.end(SIGTERM) == 0);
}

BOOST_AUTO_TEST_SUITE_END()
