// SPDX-License-Identifier: MIT
// SQLite's statements, owned and checked.
#pragma once
#include <fmt/format.h>
#include <sqlite3.h>

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>

namespace noonbench::harness {

/// One prepared statement, throwing std::runtime_error with SQLite's words; columns count from 0,
/// parameters from 1.
class SqlStatement {
  public:
    SqlStatement(sqlite3* db, const std::string& sql) : db_(db) {
        check(sqlite3_prepare_v2(db, sql.c_str(), -1, &statement_, nullptr));
    }
    SqlStatement(const SqlStatement&) = delete;
    SqlStatement& operator=(const SqlStatement&) = delete;
    ~SqlStatement() { sqlite3_finalize(statement_); }

    SqlStatement& bind(const std::string& text) {
        check(sqlite3_bind_text(statement_, ++bound_, text.c_str(), -1, SQLITE_TRANSIENT));
        return *this;
    }
    SqlStatement& bind(double value) {
        check(sqlite3_bind_double(statement_, ++bound_, value));
        return *this;
    }
    SqlStatement& bind(std::uint64_t value) {
        check(sqlite3_bind_int64(statement_, ++bound_, static_cast<sqlite3_int64>(value)));
        return *this;
    }

    /// True while there is a row.
    bool step() {
        const int result = sqlite3_step(statement_);
        if (result != SQLITE_ROW && result != SQLITE_DONE) check(result);
        return result == SQLITE_ROW;
    }

    [[nodiscard]] double number(int column) const {
        return sqlite3_column_double(statement_, column);
    }
    [[nodiscard]] std::int64_t whole(int column) const {
        return sqlite3_column_int64(statement_, column);
    }
    [[nodiscard]] std::string text(int column) const {
        const unsigned char* bytes = sqlite3_column_text(statement_, column);
        const auto count = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
        return bytes == nullptr ? std::string() : std::string(bytes, bytes + count);
    }
    /// As it stands there, a number with as many figures as it needs.
    [[nodiscard]] std::string written(int column) const {
        return sqlite3_column_type(statement_, column) == SQLITE_FLOAT
                   ? fmt::format("{}", number(column))
                   : text(column);
    }
    [[nodiscard]] int columns() const { return sqlite3_column_count(statement_); }

  private:
    void check(int result) const {
        if (result != SQLITE_OK) throw std::runtime_error(sqlite3_errmsg(db_));
    }

    sqlite3* db_;
    sqlite3_stmt* statement_ = nullptr;
    int bound_ = 0;
};

}  // namespace noonbench::harness
