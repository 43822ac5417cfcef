// SPDX-License-Identifier: MIT
// Every year that a search has run, one row each, in an SQLite file: what was asked, in which
// world, with which settings, and what came out, enough to run any row again. A row is on the disk
// before the next is written: whatever kills the program loses only the years under way. Nothing in
// it depends on when, where or on how many threads it was made; two files are compared by dump().
#pragma once
#include "trial.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

namespace noonbench::harness {

/// What the rows of a file answer. A file belongs to one question.
struct SearchQuestion {
    std::string program;         // name and version
    std::string scenario;        // the composed text, all overrides laid over
    std::string weather_digest;  // of the weather file's bytes; empty without one
    std::uint64_t seed = 1;      // of the worlds, see world_of()
    Weights weights{};
    friend bool operator==(const SearchQuestion&, const SearchQuestion&) = default;
};

/// FNV-1a of 64 bits as 16 hex digits: to tell texts apart, no guard against forgery.
[[nodiscard]] std::string digest_of(std::string_view bytes);

/// Which year: settings as candidate_text() has them, or `without_sun_text`.
struct RowKey {
    TrialLength length = TrialLength::typical_weeks;
    std::size_t world = 0;  // its number under the question's seed
    std::string settings;
    friend auto operator<=>(const RowKey&, const RowKey&) = default;
};
inline constexpr std::string_view without_sun_text = "as delivered, without the sun";

/// Not for several threads at once. Every function throws InputRefused where the file is to blame
/// (no SQLite file, another layout, another question, held by another program) and
/// std::runtime_error where the machine is (disk full).
class ResultsFile {
  public:
    /// Opens the file, or makes it. A file that is there must hold the same question.
    ResultsFile(const std::filesystem::path& file, const SearchQuestion& question);
    ResultsFile(ResultsFile&&) noexcept;
    ResultsFile& operator=(ResultsFile&&) = delete;
    ~ResultsFile();

    [[nodiscard]] std::optional<YearFigures> find(const RowKey& key) const;
    /// On the disk when it returns. The world is written with its first row.
    void add(const RowKey& key, const World& world, const YearFigures& figures);
    [[nodiscard]] std::size_t rows() const;
    /// The whole content as text, tables and rows in a fixed order, numbers to the last bit.
    [[nodiscard]] std::string dump() const;

  private:
    class Database;
    std::unique_ptr<Database> database_;
};

}  // namespace noonbench::harness
