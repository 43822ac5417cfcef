// SPDX-License-Identifier: MIT
#include "csv.hpp"

#include "csv_text.hpp"
#include "fixed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace noonbench::traces {
namespace {

constexpr std::size_t flush_at_bytes = 1U << 16U;
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

void flush_if_large(std::ostream& out, std::string& text) {
    if (text.size() < flush_at_bytes) return;
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    text.clear();
}

[[noreturn]] void refuse(const Cell& cell, const std::string& what) {
    throw ReadError(cell.line, cell.column, what);
}

std::int64_t parse_time(const Cell& cell) {
    const auto number = parse_fixed(cell.text);
    if (!number || number->decimals != 0) {
        refuse(cell, "'" + cell.text + "' is not a time in whole seconds");
    }
    return number->raw;
}

double parse_number(const Cell& cell, const Signal& signal) {
    const int decimals = signal.kind == SignalKind::number ? signal.decimals : 0;
    const auto number = parse_fixed(cell.text);
    if (!number) refuse(cell, signal.name + ": '" + cell.text + "' is not a number");
    if (number->decimals != decimals) {
        refuse(cell, signal.name + ": '" + cell.text + "' does not have " +
                         std::to_string(decimals) + " decimals");
    }
    return static_cast<double>(number->raw) / static_cast<double>(power_of_ten(decimals));
}

double parse_word(const Cell& cell, const Signal& signal) {
    const auto found = std::find(signal.choices.begin(), signal.choices.end(), cell.text);
    if (found == signal.choices.end()) {
        refuse(cell, signal.name + ": '" + cell.text + "' is none of its words");
    }
    return static_cast<double>(found - signal.choices.begin());
}

double parse(const Cell& cell, const Signal& signal) {
    if (cell.text.empty()) return no_number;
    return signal.kind == SignalKind::choice ? parse_word(cell, signal)
                                             : parse_number(cell, signal);
}

void append_row(const Cell& first, std::int64_t at_s, const std::vector<double>& values,
                Table& table) {
    try {
        table.append(at_s, values);
    } catch (const std::invalid_argument& problem) {
        refuse(first, problem.what());
    }
}

std::vector<Cell> read_header(RowReader& reader) {
    std::vector<Cell> header;
    if (!reader.next(header)) throw ReadError(1, 1, "the file is empty");
    if (header.front().text != "time_s") refuse(header.front(), "the first column is time_s");
    return header;
}

void check_width(const std::vector<Cell>& cells, std::size_t columns) {
    if (cells.size() == columns) return;
    refuse(cells.back(), "a row of " + std::to_string(cells.size()) + " cells under " +
                             std::to_string(columns) + " headings");
}

/// Kind, words and decimals of a column nobody has described, learned cell by cell.
struct Learner {
    Signal signal;
    bool known = false;
    std::vector<double> values;

    void take(const Cell& cell) {
        if (!known && !cell.text.empty()) {
            known = true;
            const auto number = parse_fixed(cell.text);
            signal.kind = number ? SignalKind::number : SignalKind::choice;
            signal.decimals = number ? number->decimals : 0;
        }
        auto& words = signal.choices;
        if (known && signal.kind == SignalKind::choice && !cell.text.empty() &&
            std::find(words.begin(), words.end(), cell.text) == words.end()) {
            words.push_back(cell.text);
        }
        values.push_back(parse(cell, signal));
    }
};

/// The table's own checks of its signals, told at the header.
Table table_under(const Cell& header, std::vector<Signal> signals, std::int64_t start_s) {
    try {
        return Table(std::move(signals), start_s);
    } catch (const std::invalid_argument& problem) {
        refuse(header, problem.what());
    }
}

void append_parsed(const std::vector<Cell>& cells, std::vector<double>& values, Table& table) {
    for (std::size_t i = 1; i < cells.size(); ++i) {
        values[i - 1] = parse(cells[i], table.signals()[i - 1]);
    }
    append_row(cells.front(), parse_time(cells.front()), values, table);
}

}  // namespace

void write_csv(std::ostream& out, const Table& table) {
    std::string text = "time_s";
    for (const auto& signal : table.signals()) text += "," + signal.name;
    text += "\r\n";
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        append_integer(text, table.times_s()[row]);
        for (std::size_t column = 0; column < table.column_count(); ++column) {
            text.push_back(',');
            const std::int32_t raw = table.raw(row, column);
            if (raw == Table::no_value) continue;
            const Signal& signal = table.signals()[column];
            if (signal.kind == SignalKind::choice) {
                text += table.word(row, column);
            } else {
                append_fixed(text, raw, signal.kind == SignalKind::number ? signal.decimals : 0);
            }
        }
        text += "\r\n";
        flush_if_large(out, text);
    }
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
}

Table read_csv(std::istream& in, std::vector<Signal> signals) {
    RowReader reader(in);
    const auto header = read_header(reader);
    check_width(header, signals.size() + 1);
    for (std::size_t i = 0; i < signals.size(); ++i) {
        if (header[i + 1].text == signals[i].name) continue;
        refuse(header[i + 1], "the column '" + header[i + 1].text + "' stands where '" +
                                  signals[i].name + "' belongs");
    }
    std::vector<Cell> cells;
    std::vector<double> values(signals.size());
    if (!reader.next(cells)) return table_under(header.front(), std::move(signals), 0);
    Table table = table_under(header.front(), std::move(signals), parse_time(cells.front()));
    do {
        check_width(cells, header.size());
        append_parsed(cells, values, table);
    } while (reader.next(cells));
    return table;
}

Table read_csv(std::istream& in) {
    RowReader reader(in);
    const auto header = read_header(reader);
    std::vector<Learner> learners;
    for (std::size_t i = 1; i < header.size(); ++i) {
        learners.push_back({{.name = header[i].text, .unit = {}, .meaning = {}}, false, {}});
    }
    std::vector<Cell> times;
    for (std::vector<Cell> cells; reader.next(cells);) {
        check_width(cells, header.size());
        for (std::size_t i = 0; i < learners.size(); ++i) learners[i].take(cells[i + 1]);
        times.push_back(cells.front());
    }
    std::vector<Signal> signals;
    signals.reserve(learners.size());
    for (const auto& learner : learners) signals.push_back(learner.signal);
    const std::int64_t start_s = times.empty() ? 0 : parse_time(times.front());
    Table table = table_under(header.front(), std::move(signals), start_s);
    std::vector<double> values(learners.size());
    for (std::size_t row = 0; row < times.size(); ++row) {
        for (std::size_t i = 0; i < values.size(); ++i) values[i] = learners[i].values[row];
        append_row(times[row], parse_time(times[row]), values, table);
    }
    return table;
}

void write_events_csv(std::ostream& out, const std::vector<Event>& events) {
    std::string text = "time_s,what,name,from,to,because\r\n";
    for (const auto& event : events) {
        append_integer(text, event.at_s);
        for (const auto* cell :
             {&event.what, &event.name, &event.from, &event.to, &event.because}) {
            text.push_back(',');
            append_cell(text, *cell);
        }
        text += "\r\n";
        flush_if_large(out, text);
    }
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
}

std::vector<Event> read_events_csv(std::istream& in) {
    RowReader reader(in);
    const auto header = read_header(reader);
    const std::vector<std::string> names{"time_s", "what", "name", "from", "to", "because"};
    check_width(header, names.size());
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (header[i].text != names[i]) refuse(header[i], "the column is named " + names[i]);
    }
    std::vector<Event> events;
    for (std::vector<Cell> cells; reader.next(cells);) {
        check_width(cells, names.size());
        const std::int64_t at_s = parse_time(cells[0]);
        if (!events.empty() && at_s < events.back().at_s) {
            refuse(cells[0], "time " + cells[0].text + " s goes backward");
        }
        events.push_back(
            {at_s, cells[1].text, cells[2].text, cells[3].text, cells[4].text, cells[5].text});
    }
    return events;
}

}  // namespace noonbench::traces
