// SPDX-License-Identifier: MIT
#include "traces/file.hpp"
#include "tests/traces/sample.hpp"

#include <boost/test/unit_test.hpp>

#include <sys/resource.h>
#include <csignal>

BOOST_AUTO_TEST_SUITE(file)

using noonbench::traces::FileError;
using noonbench::traces::WholeFile;
using noonbench::traces::write_whole;

namespace {

/// While it lives, the system refuses any file beyond that size, as a full disk would.
class SmallDisk {
  public:
    explicit SmallDisk(rlim_t bytes) : before_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &limit_);
        const rlimit small{bytes, limit_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &small);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk() {
        setrlimit(RLIMIT_FSIZE, &limit_);
        std::signal(SIGXFSZ, before_);
    }

  private:
    void (*before_)(int);
    rlimit limit_{};
};

}  // namespace

BOOST_AUTO_TEST_CASE(a_file_is_there_only_after_the_commit) {
    const sample::Directory directory;
    const auto target = directory / "a.txt";
    {
        WholeFile file(target);
        file.stream() << "new";
        file.stream().flush();
        BOOST_TEST(!std::filesystem::exists(target));
        file.commit();
        BOOST_TEST(sample::content(target) == "new");
    }
    BOOST_TEST(directory.file_count() == 1U);
}

BOOST_AUTO_TEST_CASE(without_a_commit_the_old_file_stays_and_nothing_else) {
    const sample::Directory directory;
    const auto target = directory / "a.txt";
    write_whole(target, "old");
    {
        WholeFile file(target);
        file.stream() << "new";
    }
    BOOST_TEST(sample::content(target) == "old");
    BOOST_TEST(directory.file_count() == 1U);
}

BOOST_AUTO_TEST_CASE(a_refusing_disk_is_an_error_and_leaves_the_old_file) {
    const sample::Directory directory;
    const auto target = directory / "a.txt";
    write_whole(target, "old");
    {
        const SmallDisk small(100'000);
        BOOST_CHECK_EXCEPTION(write_whole(target, std::string(300'000, 'x')), FileError,
                              [&](const FileError& problem) {
                                  return std::string(problem.what()) ==
                                         target.string() + ": cannot write: File too large";
                              });
    }
    BOOST_TEST(sample::content(target) == "old");
    BOOST_TEST(directory.file_count() == 1U);
}

BOOST_AUTO_TEST_CASE(a_place_that_takes_no_file_is_an_error) {
    const sample::Directory directory;
    BOOST_CHECK_THROW(write_whole(directory / "nowhere/a.txt", "x"), FileError);
    std::filesystem::create_directory(directory / "b");
    BOOST_CHECK_THROW(write_whole(directory / "b", "x"), FileError);
    BOOST_TEST(directory.file_count() == 1U);
}

BOOST_AUTO_TEST_CASE(two_writers_of_one_name_do_not_mix) {
    const sample::Directory directory;
    const auto target = directory / "a.txt";
    WholeFile one(target);
    WholeFile other(target);
    one.stream() << "one";
    other.stream() << "other";
    one.commit();
    other.commit();
    BOOST_TEST(sample::content(target) == "other");
    BOOST_TEST(directory.file_count() == 1U);
}

BOOST_AUTO_TEST_SUITE_END()
