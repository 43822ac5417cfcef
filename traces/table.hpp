// SPDX-License-Identifier: MIT
// A trace in memory: columns over integer time, and the events between them. Values are kept as
// 32-bit integers scaled by the column's decimals, so that what is read back is what is printed.
#pragma once
#include "signal.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::traces {

/// All times are seconds of local standard time since 2000-01-01 00:00:00.
class Table {
  public:
    Table() = default;

    /// Columns in the order of `signals`. `start_s` is the first instant of the run (the zero of
    /// a viewer's time axis); rows lie at or after it. Throws std::invalid_argument, naming the
    /// signal, if a name is not snake_case, stands twice or is time_s, if decimals lie outside
    /// 0..6, or if a choice has no words.
    explicit Table(std::vector<Signal> signals, std::int64_t start_s = 0);

    /// One value a column; NaN means "no value" (an empty cell). Numbers are rounded to the
    /// column's decimals, half away from zero. Throws std::invalid_argument for a wrong count, a
    /// time that is not after the last row's or lies before start_s, an on_off other than 0 and
    /// 1, a choice outside its words, or a number that does not fit (beyond 2.1e9 units of the
    /// last decimal). A refused row leaves the table as it was.
    void append(std::int64_t at_s, std::span<const double> values);
    void reserve(std::size_t rows);

    [[nodiscard]] std::int64_t start_s() const { return start_s_; }
    [[nodiscard]] std::size_t row_count() const { return times_.size(); }
    [[nodiscard]] std::size_t column_count() const { return signals_.size(); }
    [[nodiscard]] const std::vector<Signal>& signals() const { return signals_; }
    [[nodiscard]] const std::vector<std::int64_t>& times_s() const { return times_; }

    /// Index of the column of that name, if there is one.
    [[nodiscard]] std::optional<std::size_t> find(std::string_view name) const;
    /// The same; throws std::out_of_range with the name if there is none.
    [[nodiscard]] std::size_t column(std::string_view name) const;

    /// The value as printed; NaN where there is none.
    [[nodiscard]] double value(std::size_t row, std::size_t column) const;
    /// A choice's word; empty where there is none. The column must be a choice.
    [[nodiscard]] const std::string& word(std::size_t row, std::size_t column) const;
    /// The stored integer: the value times 10^decimals, or `no_value`.
    [[nodiscard]] std::int32_t raw(std::size_t row, std::size_t column) const {
        return columns_[column][row];
    }
    static constexpr std::int32_t no_value = INT32_MIN;

  private:
    std::vector<Signal> signals_;
    std::int64_t start_s_ = 0;
    std::vector<std::int64_t> times_;
    std::vector<std::vector<std::int32_t>> columns_;
    std::vector<std::int32_t> fresh_;  // the row being checked, kept to save its allocation
};

/// Something that changed at a tick.
struct Event {
    std::int64_t at_s = 0;
    std::string what;  // relay, reason, advice, lever, setting, hand, household, mode
    std::string name;  // which one: pump_relay, pump_reason, no_flow_although_running ...
    std::string from;
    std::string to;
    std::string because;  // in words; may be empty

    friend bool operator==(const Event&, const Event&) = default;
};

}  // namespace noonbench::traces
