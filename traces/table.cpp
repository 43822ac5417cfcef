// SPDX-License-Identifier: MIT
#include "table.hpp"

#include "fixed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace noonbench::traces {
namespace {

bool is_snake_case(const std::string& name) {
    const auto fits = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    };
    return !name.empty() && name.front() >= 'a' && name.front() <= 'z' &&
           std::all_of(name.begin(), name.end(), fits);
}

void refuse(const Signal& signal, const std::string& why) {
    throw std::invalid_argument("signal '" + signal.name + "': " + why);
}

void check(const Signal& signal) {
    if (!is_snake_case(signal.name)) refuse(signal, "the name is not snake_case");
    if (signal.name == "time_s") refuse(signal, "time_s is the table's own column");
    if (signal.decimals < 0 || signal.decimals > 6) refuse(signal, "decimals are 0 to 6");
    if (signal.kind != SignalKind::choice) return;
    if (signal.choices.empty() || signal.choices.size() > 127) {
        refuse(signal, "a choice has 1 to 127 words");
    }
    for (const auto& word : signal.choices) {
        if (!is_snake_case(word)) refuse(signal, "the word '" + word + "' is not snake_case");
    }
}

std::int32_t stored(const Signal& signal, double value) {
    if (std::isnan(value)) return Table::no_value;
    double scaled = value;
    double most = static_cast<double>(std::numeric_limits<std::int32_t>::max());
    double least = -most;
    if (signal.kind == SignalKind::number) {
        scaled = std::round(value * static_cast<double>(power_of_ten(signal.decimals)));
    } else {
        least = 0.0;
        most = signal.kind == SignalKind::on_off ? 1.0
                                                 : static_cast<double>(signal.choices.size() - 1);
        if (value != std::floor(value)) refuse(signal, std::to_string(value) + " is not whole");
    }
    if (!(scaled >= least && scaled <= most)) {
        refuse(signal, "the value " + std::to_string(value) + " does not fit");
    }
    return static_cast<std::int32_t>(scaled);
}

}  // namespace

Table::Table(std::vector<Signal> signals, std::int64_t start_s)
    : signals_(std::move(signals)), start_s_(start_s), columns_(signals_.size()) {
    for (auto signal = signals_.begin(); signal != signals_.end(); ++signal) {
        check(*signal);
        const auto same = [&](const Signal& other) { return other.name == signal->name; };
        if (std::any_of(signals_.begin(), signal, same)) refuse(*signal, "the name stands twice");
    }
    fresh_.resize(signals_.size());
}

void Table::append(std::int64_t at_s, std::span<const double> values) {
    if (values.size() != signals_.size()) {
        throw std::invalid_argument("a row of " + std::to_string(values.size()) + " values for " +
                                    std::to_string(signals_.size()) + " columns");
    }
    if (at_s < start_s_ || (!times_.empty() && at_s <= times_.back())) {
        throw std::invalid_argument("time " + std::to_string(at_s) + " s is not after " +
                                    std::to_string(times_.empty() ? start_s_ : times_.back()));
    }
    for (std::size_t i = 0; i < values.size(); ++i) fresh_[i] = stored(signals_[i], values[i]);
    for (std::size_t i = 0; i < values.size(); ++i) columns_[i].push_back(fresh_[i]);
    times_.push_back(at_s);
}

void Table::reserve(std::size_t rows) {
    times_.reserve(rows);
    for (auto& column : columns_) column.reserve(rows);
}

std::optional<std::size_t> Table::find(std::string_view name) const {
    for (std::size_t i = 0; i < signals_.size(); ++i) {
        if (signals_[i].name == name) return i;
    }
    return std::nullopt;
}

std::size_t Table::column(std::string_view name) const {
    const auto index = find(name);
    if (!index) throw std::out_of_range("no column '" + std::string(name) + "' in the trace");
    return *index;
}

double Table::value(std::size_t row, std::size_t column) const {
    const std::int32_t stored_value = columns_[column][row];
    if (stored_value == no_value) return std::numeric_limits<double>::quiet_NaN();
    const Signal& signal = signals_[column];
    if (signal.kind != SignalKind::number) return static_cast<double>(stored_value);
    return static_cast<double>(stored_value) / static_cast<double>(power_of_ten(signal.decimals));
}

const std::string& Table::word(std::size_t row, std::size_t column) const {
    static const std::string none;
    const std::int32_t index = columns_[column][row];
    return index == no_value ? none : signals_[column].choices.at(static_cast<std::size_t>(index));
}

}  // namespace noonbench::traces
