// SPDX-License-Identifier: MIT
// The format is that of IEEE 1364-2005, clause 18. The foreign reader is vcd2fst of GTKWave
// (Debian package gtkwave); fst2vcd of the same package gives back what it understood.
#include "traces/vcd.hpp"
#include "tests/traces/sample.hpp"
#include "traces/file.hpp"

#include <boost/test/unit_test.hpp>

#include <map>
#include <sstream>

BOOST_AUTO_TEST_SUITE(vcd)

using namespace noonbench::traces;

namespace {

/// What a viewer shows: for each variable (by its full name) its value after each instant.
using Shown = std::map<std::string, std::map<long, std::string>>;

class Reading {
  public:
    explicit Reading(const std::string& text) : in_(text) {
        std::string word;
        while (in_ >> word && word != "$enddefinitions") declare(word);
        while (in_ >> word) change(word);
    }
    Shown shown;
    std::map<std::string, std::string> types;

  private:
    void declare(const std::string& word) {
        std::string type, size, id, name;
        if (word == "$scope") {
            in_ >> type >> name;
            scope_.push_back(name);
        } else if (word == "$upscope") {
            scope_.pop_back();
        } else if (word == "$var") {
            in_ >> type >> size >> id >> name;
            std::string full;
            for (const auto& part : scope_) full += part + ".";
            names_[id] = full + name;
            types[full + name] = type;
        }
    }
    void change(const std::string& word) {
        if (word.front() == '#') {
            now_ = std::stol(word.substr(1));
        } else if (word.front() == 'r' || word.front() == 'b') {
            std::string id;
            in_ >> id;
            // Numbers in one spelling: a foreign writer may print 41.063 with other digits and
            // pads bits with zeros or, for an unknown, more x.
            const std::string digits = word.substr(1);
            const auto first = digits.find_first_not_of('0');
            std::string bits = first == std::string::npos ? "0" : digits.substr(first);
            if (digits.front() == 'x') bits = "x";
            set(id, word.front() == 'r' ? std::to_string(std::stod(digits)) : bits);
        } else if (word.front() != '$') {
            set(word.substr(1), word.substr(0, 1));
        }
    }
    void set(const std::string& id, const std::string& value) {
        auto& course = shown[names_.at(id)];
        if (course.empty() || course.rbegin()->second != value) course[now_] = value;
    }

    std::istringstream in_;
    std::vector<std::string> scope_;
    std::map<std::string, std::string> names_;
    long now_ = 0;
};

std::string written(const Table& table) {
    std::ostringstream out;
    write_vcd(out, table);
    return out.str();
}

}  // namespace

BOOST_AUTO_TEST_CASE(only_changes_are_written) {
    const std::string text = written(sample::table());
    BOOST_TEST(text.find("$timescale 1 s $end") != std::string::npos);
    const auto dump = text.substr(text.find("$enddefinitions $end\n") + 21);
    // The column codes in order of the columns: ! " (its "known"), #, $ % & ' (words), (.
    BOOST_TEST(dump ==
               "#0\n$dumpvars\n1\"\nr-3.250 !\n0#\nb0 $\n1%\n0&\n0'\nr0.00 (\n$end\n"
               "#1\n1\"\nr0.000 !\n"
               "#2\n1\"\nr41.063 !\n1#\nb1 $\n0%\n1&\n0'\nr2.61 (\n"
               "#3\n0\"\n0#\nb10 $\n0%\n0&\n1'\nr0.00 (\n"
               "#10\n1\"\nr123.457 !\nb0 $\n1%\n0&\n0'\n#10\n");
}

BOOST_AUTO_TEST_CASE(a_foreign_reader_takes_the_file_and_shows_the_same) {
    const sample::Directory directory;
    Table table = sample::table();
    // Enough columns for identifier codes of two characters, and a row without any value; the
    // sample alone has neither.
    auto signals = sample::signals();
    for (int i = 0; i < 120; ++i) {
        signals.push_back({.name = "layer_" + std::to_string(i) + "_c",
                           .unit = "degC",
                           .decimals = 3,
                           .meaning = {}});
    }
    Table wide(signals, sample::start_s);
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        std::vector<double> values;
        for (std::size_t i = 0; i < 4; ++i) values.push_back(table.value(row, i));
        for (int i = 0; i < 120; ++i) values.push_back(i * 0.125 - 3.0 + static_cast<double>(row));
        wide.append(table.times_s()[row], values);
    }
    std::vector<double> nothing(124, sample::none);
    wide.append(sample::start_s + 20, nothing);
    const std::string text = written(wide);
    write_whole(directory / "trace.vcd", text);
    const std::string in_directory = "cd '" + directory.path().string() + "' && ";
    const int there = sample::run(in_directory + "vcd2fst trace.vcd trace.fst && fst2vcd trace.fst",
                                  directory / "back.vcd");
    BOOST_TEST_REQUIRE(there == 0, "vcd2fst refuses the file, or gtkwave is not installed: "
                                       << sample::content(directory / "back.vcd"));
    const Reading ours(text);
    const Reading theirs(sample::content(directory / "back.vcd"));
    BOOST_TEST(ours.shown.size() == 249U);  // 124 columns, 122 "known", three words
    BOOST_CHECK(ours.types == theirs.types);
    for (const auto& [name, course] : ours.shown) {
        BOOST_TEST_CONTEXT(name) {
            BOOST_TEST_REQUIRE(theirs.shown.count(name) == 1U);
            const auto& other = theirs.shown.at(name);
            BOOST_TEST(course.size() == other.size());
            for (const auto& [at, value] : course) {
                BOOST_TEST_CONTEXT("at " << at) {
                    BOOST_TEST_REQUIRE(other.count(at) == 1U);
                    BOOST_TEST(value == other.at(at));
                }
            }
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
