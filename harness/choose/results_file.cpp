// SPDX-License-Identifier: MIT
#include "results_file.hpp"

#include "sql_statement.hpp"

#include "harness/scenario/problem.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <stdexcept>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

constexpr int application_id = 0x6e6f6f6e;  // "noon": whose file it is, in its header
constexpr int layout_version = 1;           // of the tables below
constexpr const char* whose_file = "a file that noonbench choose has written";

// ---------------------------------------------------------------- the tables

/// Columns follow the tables of figures and tolerances, so that neither can be forgotten.
std::string figure_columns(std::string_view before, std::string_view after) {
    std::string text;
    for (const FigureInfo& each : figure_table()) {
        text += fmt::format("{}{}{}", before, each.name, after);
    }
    return text;
}

std::string tolerance_columns(std::string_view after) {
    std::string text;
    for (const ToleranceInfo& each : tolerance_table()) {
        text += fmt::format(", {}{}", each.name, after);
    }
    for (std::size_t quarter = 1; quarter <= World{}.week_in_quarter.size(); ++quarter) {
        text += fmt::format(", week_in_quarter_{}{}", quarter, after);
    }
    return text;
}

/// Without row numbers, which would tell the order of writing.
std::vector<std::string> layout() {
    return {
        "CREATE TABLE question (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
        "CREATE TABLE worlds (world INTEGER PRIMARY KEY, seed INTEGER NOT NULL" +
            tolerance_columns(" REAL NOT NULL") + ") STRICT, WITHOUT ROWID",
        "CREATE TABLE years (length TEXT NOT NULL, world INTEGER NOT NULL, settings TEXT NOT NULL" +
            figure_columns(", ", " REAL NOT NULL") +
            ", advice TEXT NOT NULL, PRIMARY KEY (length, world, settings)) STRICT, WITHOUT ROWID",
    };
}

std::vector<std::pair<std::string, std::string>> rows_of(const SearchQuestion& question) {
    return {
        {"program", question.program},
        {"scenario", question.scenario},
        {"scenario_digest", digest_of(question.scenario)},
        {"weather_digest", question.weather_digest},
        {"seed", std::to_string(question.seed)},
        {"backup_weight", fmt::format("{}", question.weights.backup)},
        {"pump_weight", fmt::format("{}", question.weights.pump)},
    };
}

/// `count` question marks.
std::string marks(std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += i == 0 ? "?" : ", ?";
    return text;
}

}  // namespace

std::string digest_of(std::string_view bytes) {
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    for (const char c : bytes) {
        hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
    }
    return fmt::format("{:016x}", hash);
}

// ---------------------------------------------------------------- the file

class ResultsFile::Database {
  public:
    explicit Database(const std::filesystem::path& file) : name_(file.string()) {
        if (sqlite3_open(name_.c_str(), &db_) != SQLITE_OK) {
            const std::string why = sqlite3_errmsg(db_);
            sqlite3_close(db_);
            throw std::runtime_error(name_ + ": " + why);
        }
    }
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    ~Database() { sqlite3_close(db_); }

    /// The whole of the file's first touch. What SQLite finds wrong with a file that is there is
    /// the file's fault.
    void open_for(const SearchQuestion& question) {
        hold();
        const std::int64_t owner = header("application_id");
        if (is_empty() && owner == 0) {
            make(question);
            return;
        }
        if (owner != application_id) refuse("was written by another program", whose_file);
        if (header("user_version") != layout_version) {
            refuse(fmt::format("has layout {} of its tables", header("user_version")),
                   fmt::format("layout {}, of this version of noonbench", layout_version));
        }
        compare(question);
    }

    [[nodiscard]] SqlStatement statement(const std::string& sql) const { return {db_, sql}; }
    void run(const std::string& sql) const { SqlStatement(db_, sql).step(); }

    /// All statements or none.
    template <class Work>
    void at_once(Work work) const {
        run("BEGIN");
        try {
            work();
            run("COMMIT");
        } catch (...) {
            if (sqlite3_get_autocommit(db_) == 0) run("ROLLBACK");
            throw;
        }
    }

    [[nodiscard]] std::runtime_error failure(const std::exception& error) const {
        return std::runtime_error(name_ + ": " + error.what());
    }

  private:
    [[noreturn]] void refuse(std::string what, std::string allowed) const {
        throw InputRefused({{name_, 0, 0, std::move(what), std::move(allowed)}});
    }

    /// One program at a time, and every commit on the disk before it returns. A plain journal, not
    /// a write-ahead log: one file, which may also lie in a folder shared over the network.
    void hold() const {
        try {
            run("PRAGMA journal_mode = DELETE");
            run("PRAGMA synchronous = FULL");
            run("PRAGMA locking_mode = EXCLUSIVE");
            run("BEGIN EXCLUSIVE");
            run("COMMIT");
        } catch (const std::runtime_error&) {
            const int code = sqlite3_errcode(db_);
            if (code == SQLITE_NOTADB) refuse("is no SQLite file", whose_file);
            if (code == SQLITE_CORRUPT) refuse("is a damaged SQLite file", whose_file);
            if (code == SQLITE_BUSY || code == SQLITE_LOCKED) {
                refuse("is held by another program", "one search at a time in a file");
            }
            throw;
        }
    }

    [[nodiscard]] std::int64_t header(const char* field) const {
        SqlStatement read(db_, fmt::format("PRAGMA {}", field));
        read.step();
        return read.whole(0);
    }

    [[nodiscard]] bool is_empty() const {
        SqlStatement count(db_, "SELECT count(*) FROM sqlite_master");
        count.step();
        return count.whole(0) == 0;
    }

    void make(const SearchQuestion& question) const {
        at_once([&] {
            run(fmt::format("PRAGMA application_id = {}", application_id));
            run(fmt::format("PRAGMA user_version = {}", layout_version));
            for (const std::string& table : layout()) run(table);
            for (const auto& [name, value] : rows_of(question)) {
                SqlStatement add(db_, "INSERT INTO question VALUES (?, ?)");
                add.bind(name).bind(value).step();
            }
        });
    }

    void compare(const SearchQuestion& question) const {
        std::vector<Problem> problems;
        for (const auto& [name, value] : rows_of(question)) {
            SqlStatement find(db_, "SELECT value FROM question WHERE name = ?");
            const std::string there = find.bind(name).step() ? find.text(0) : std::string();
            if (there == value || name == "scenario_digest") continue;
            problems.push_back({name_, 0, 0, difference(name, there, value),
                                "the same question, or another folder for this one"});
        }
        if (!problems.empty()) throw InputRefused(std::move(problems));
    }

    static std::string difference(const std::string& name, const std::string& there,
                                  const std::string& here) {
        if (name == "scenario") {
            return fmt::format("holds results of another scenario (digest {}, here {})",
                               digest_of(there), digest_of(here));
        }
        return fmt::format("holds results with {} {}, here it is {}", name,
                           there.empty() ? "none" : there, here.empty() ? "none" : here);
    }

    std::string name_;
    sqlite3* db_ = nullptr;
};

ResultsFile::ResultsFile(const std::filesystem::path& file, const SearchQuestion& question)
    : database_(std::make_unique<Database>(file)) {
    try {
        database_->open_for(question);
    } catch (const InputRefused&) {
        throw;
    } catch (const std::runtime_error& error) {
        throw database_->failure(error);
    }
}

ResultsFile::ResultsFile(ResultsFile&&) noexcept = default;
ResultsFile::~ResultsFile() = default;

std::optional<YearFigures> ResultsFile::find(const RowKey& key) const {
    try {
        SqlStatement row = database_->statement("SELECT advice" + figure_columns(", ", "") +
                                                " FROM years WHERE length = ? AND world = ? AND "
                                                "settings = ?");
        row.bind(std::string(name_of(key.length)));
        row.bind(static_cast<std::uint64_t>(key.world)).bind(key.settings);
        if (!row.step()) return std::nullopt;
        YearFigures figures;
        figures.advice = row.text(0);
        int column = 0;
        for (const FigureInfo& each : figure_table()) figures.*each.value = row.number(++column);
        return figures;
    } catch (const std::runtime_error& error) {
        throw database_->failure(error);
    }
}

void ResultsFile::add(const RowKey& key, const World& world, const YearFigures& figures) {
    try {
        database_->at_once([&] {
            const std::size_t of_world =
                2 + tolerance_table().size() + world.week_in_quarter.size();
            SqlStatement place = database_->statement("INSERT OR IGNORE INTO worlds VALUES (" +
                                                      marks(of_world) + ")");
            place.bind(static_cast<std::uint64_t>(key.world)).bind(world.seed);
            for (const ToleranceInfo& each : tolerance_table()) place.bind(world.*each.value);
            for (const double week : world.week_in_quarter) place.bind(week);
            place.step();
            SqlStatement row = database_->statement("INSERT INTO years VALUES (" +
                                                    marks(4 + figure_table().size()) + ")");
            row.bind(std::string(name_of(key.length)));
            row.bind(static_cast<std::uint64_t>(key.world)).bind(key.settings);
            for (const FigureInfo& each : figure_table()) row.bind(figures.*each.value);
            row.bind(figures.advice).step();
        });
    } catch (const std::runtime_error& error) {
        throw database_->failure(error);
    }
}

std::size_t ResultsFile::rows() const {
    SqlStatement count = database_->statement("SELECT count(*) FROM years");
    count.step();
    return static_cast<std::size_t>(count.whole(0));
}

std::string ResultsFile::dump() const {
    std::string text;
    for (const char* sql : {"SELECT 'question', * FROM question ORDER BY name",
                            "SELECT 'world', * FROM worlds ORDER BY world",
                            "SELECT 'year', * FROM years ORDER BY length, world, settings"}) {
        SqlStatement rows = database_->statement(sql);
        while (rows.step()) {
            for (int column = 0; column < rows.columns(); ++column) {
                if (column > 0) text += '|';
                text += rows.written(column);
            }
            text += '\n';
        }
    }
    return text;
}

}  // namespace noonbench::harness
