// SPDX-License-Identifier: MIT
#include "class_file.hpp"

#include "harness/choose/sql_statement.hpp"
#include "harness/scenario/problem.hpp"

#include <fmt/format.h>

#include <array>
#include <fstream>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr std::uint32_t class_file_id = 0x6e636c73;  // "ncls": whose file it is, in its header
constexpr std::uint32_t class_layout = 1;            // of the tables below
constexpr const char* class_file_words =
    "a class file of noonbench live, or a name that is free (--class-file)";

[[noreturn]] void refuse_file(const std::filesystem::path& file, std::string what) {
    throw InputRefused({{file.string(), 0, 0, std::move(what), class_file_words}});
}

/// Read as bytes, so that a stranger's file is not even opened by SQLite. The header of ours is in
/// the file itself and never in its log.
void refuse_stranger(const std::filesystem::path& file) {
    constexpr std::string_view magic{"SQLite format 3\0", 16};
    if (std::filesystem::is_directory(file)) refuse_file(file, "is a folder");
    std::array<char, 100> header{};
    std::ifstream in(file, std::ios::binary);
    if (!in) refuse_file(file, "cannot be read");
    in.read(header.data(), header.size());
    const bool is_whole = in.gcount() == static_cast<std::streamsize>(header.size());
    if (!is_whole || std::string_view(header.data(), magic.size()) != magic) {
        refuse_file(file, "is no class file");
    }
    const auto number_at = [&](std::size_t at) {
        std::uint32_t number = 0;
        for (std::size_t i = at; i < at + 4; ++i) {
            number = (number << 8U) | static_cast<unsigned char>(header[i]);
        }
        return number;
    };
    if (number_at(68) != class_file_id) refuse_file(file, "was written by another program");
    if (number_at(60) != class_layout) {
        refuse_file(file, fmt::format("has layout {} of its tables; this version writes layout {}",
                                      number_at(60), class_layout));
    }
}

}  // namespace

class ClassFile::Database {
  public:
    explicit Database(const std::filesystem::path& file) : file_(file) {
        const bool is_new = !std::filesystem::exists(file);
        if (is_new) make_file();
        open(file);
        try {
            make_ready(is_new);
        } catch (...) {
            sqlite3_close(db_);
            throw;
        }
    }
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    ~Database() { sqlite3_close(db_); }

    /// Prepares and runs; `use` binds and steps.
    template <class Use>
    void statement(const std::string& sql, Use use) const {
        SqlStatement each(db_, sql);
        use(each);
    }
    void run(const std::string& sql) const { SqlStatement(db_, sql).step(); }

    /// All of it or none; on the disk when it returns. What is wrong is said with the file's name.
    template <class Work>
    void at_once(Work work) const {
        try {
            run("BEGIN IMMEDIATE");
            work();
            run("COMMIT");
        } catch (const std::runtime_error& error) {
            if (sqlite3_get_autocommit(db_) == 0)
                sqlite3_exec(db_, "ROLLBACK", nullptr, nullptr, nullptr);
            throw std::runtime_error(file_.string() + ": " + error.what());
        }
    }

  private:
    void open(const std::filesystem::path& file) {
        if (sqlite3_open(file.c_str(), &db_) == SQLITE_OK) return;
        const std::string why = sqlite3_errmsg(db_);
        sqlite3_close(db_);
        throw std::runtime_error(file.string() + ": " + why);
    }

    /// One program at a time; a log ahead of the file, so that each decision costs one small write.
    /// It outlives the program; a machine that loses its power may lose the last ones.
    void make_ready(bool is_new) const {
        try {
            run("PRAGMA locking_mode = EXCLUSIVE");
            run("PRAGMA journal_mode = WAL");
            run("PRAGMA synchronous = NORMAL");
            run("BEGIN IMMEDIATE");
            run("COMMIT");
            if (!is_new) look_through();
        } catch (const InputRefused&) {
            throw;
        } catch (const std::runtime_error& error) {
            const int code = sqlite3_errcode(db_);
            if (code == SQLITE_BUSY || code == SQLITE_LOCKED) {
                refuse_file(file_, "is held by another program");
            }
            if (code == SQLITE_CORRUPT || code == SQLITE_NOTADB) refuse_file(file_, "is damaged");
            throw std::runtime_error(file_.string() + ": " + error.what());
        }
    }

    /// Beside its place and then moved there, so that it appears whole. Its header is written with
    /// a plain journal, and thereby into the file itself. Tickets open seats: it is for its owner
    /// alone.
    void make_file() {
        if (file_.has_parent_path()) std::filesystem::create_directories(file_.parent_path());
        const std::filesystem::path draft = file_.string() + ".new";
        std::filesystem::remove(draft);
        open(draft);
        try {
            std::filesystem::permissions(
                draft, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
            lay_out();
        } catch (...) {
            sqlite3_close(db_);
            throw;
        }
        sqlite3_close(db_);
        std::filesystem::rename(draft, file_);
    }

    void lay_out() const {
        run("BEGIN EXCLUSIVE");
        run(fmt::format("PRAGMA application_id = {}", class_file_id));
        run(fmt::format("PRAGMA user_version = {}", class_layout));
        run("CREATE TABLE class (place INTEGER PRIMARY KEY CHECK (place = 1), title TEXT NOT NULL,"
            " word TEXT NOT NULL, held INTEGER NOT NULL, shown TEXT NOT NULL) STRICT");
        run("CREATE TABLE seats (place INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, ticket TEXT"
            " NOT NULL UNIQUE, bench TEXT NOT NULL, records TEXT NOT NULL) STRICT");
        run("COMMIT");
    }

    void look_through() const {
        SqlStatement check(db_, "PRAGMA quick_check(1)");
        if (!check.step() || check.text(0) != "ok") refuse_file(file_, "is damaged");
    }

    std::filesystem::path file_;
    sqlite3* db_ = nullptr;
};

ClassFile::ClassFile(std::filesystem::path file) : file_(std::move(file)) {
    if (!std::filesystem::exists(file_)) return;
    refuse_stranger(file_);
    opened();
}

ClassFile::~ClassFile() = default;

ClassFile::Database& ClassFile::opened() {
    if (!database_) database_ = std::make_unique<Database>(file_);
    return *database_;
}

std::optional<KeptAll> ClassFile::all() {
    if (!database_) return std::nullopt;
    std::optional<KeptAll> all;
    database_->at_once([&] {
        database_->statement("SELECT title, word, held, shown FROM class", [&](SqlStatement& row) {
            if (row.step()) {
                all = KeptAll{{row.text(0), row.text(1), row.whole(2) != 0, row.text(3)}, {}};
            }
        });
        if (!all) return;
        database_->statement(
            "SELECT name, ticket, bench, records FROM seats ORDER BY place",
            [&](SqlStatement& row) {
                while (row.step()) {
                    all->seats.push_back({row.text(0), row.text(1), row.text(2), row.text(3)});
                }
            });
    });
    return all;
}

void ClassFile::keep(const KeptClass& of_class) {
    const Database& database = opened();
    database.at_once([&] {
        database.statement("INSERT OR REPLACE INTO class VALUES (1, ?, ?, ?, ?)",
                           [&](SqlStatement& row) {
                               row.bind(of_class.title).bind(of_class.word);
                               row.bind(std::uint64_t{of_class.held}).bind(of_class.shown).step();
                           });
    });
}

void ClassFile::keep(const std::vector<KeptSeat>& seats) {
    const Database& database = opened();
    database.at_once([&] {
        for (const KeptSeat& seat : seats) {
            database.statement(
                "INSERT INTO seats (name, ticket, bench, records) VALUES (?, ?, ?, ?)"
                " ON CONFLICT (name) DO UPDATE SET ticket = excluded.ticket,"
                " bench = excluded.bench, records = excluded.records",
                [&](SqlStatement& row) {
                    row.bind(seat.name).bind(seat.ticket);
                    row.bind(seat.bench).bind(seat.records).step();
                });
        }
    });
}

void ClassFile::forget_seat(const std::string& name) {
    const Database& database = opened();
    database.at_once([&] {
        database.statement("DELETE FROM seats WHERE name = ?",
                           [&](SqlStatement& row) { row.bind(name).step(); });
    });
}

void ClassFile::forget() {
    const Database& database = opened();
    database.at_once([&] {
        database.run("DELETE FROM seats");
        database.run("DELETE FROM class");
    });
}

}  // namespace noonbench::harness
