// SPDX-License-Identifier: MIT
#include "vcd.hpp"

#include "fixed.hpp"

#include <string>
#include <vector>

namespace noonbench::traces {
namespace {

/// Identifier codes are short words of the 94 printable characters (IEEE 1364, 18.2.1).
std::string code(std::size_t number) {
    std::string text;
    do {
        text.push_back(static_cast<char>('!' + number % 94));
        number /= 94;
    } while (number > 0);
    return text;
}

/// Codes of one column: its own, then one a word (choice) or "is known" (number).
struct Codes {
    std::string own;
    std::vector<std::string> extra;
};

bool has_gaps(const Table& table, std::size_t column) {
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        if (table.raw(row, column) == Table::no_value) return true;
    }
    return false;
}

std::vector<Codes> hand_out_codes(const Table& table) {
    std::vector<Codes> codes(table.column_count());
    std::size_t next = 0;
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const Signal& signal = table.signals()[i];
        codes[i].own = code(next++);
        std::size_t extra = signal.choices.size();
        if (signal.kind == SignalKind::number) extra = has_gaps(table, i) ? 1 : 0;
        if (signal.kind == SignalKind::on_off) extra = 0;
        while (codes[i].extra.size() < extra) codes[i].extra.push_back(code(next++));
    }
    return codes;
}

void append_var(std::string& out, const char* type, const std::string& id,
                const std::string& name) {
    out += std::string("$var ") + type + " " + id + " " + name + " $end\n";
}

void append_choice_vars(std::string& out, const Signal& signal, const Codes& codes) {
    append_var(out, "integer 32", codes.own, signal.name);
    out += "$scope module " + signal.name + "_is $end\n";
    for (std::size_t word = 0; word < signal.choices.size(); ++word) {
        append_var(out, "wire 1", codes.extra[word], signal.choices[word]);
    }
    out += "$upscope $end\n";
}

void append_header(std::string& out, const Table& table, const std::vector<Codes>& codes) {
    out += "$comment noonbench trace; time 0 is ";
    append_integer(out, table.start_s());
    out += " s after 2000-01-01 00:00:00 local standard time $end\n$timescale 1 s $end\n";
    out += "$scope module noonbench $end\n";
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const Signal& signal = table.signals()[i];
        if (signal.kind == SignalKind::choice) {
            append_choice_vars(out, signal, codes[i]);
        } else if (signal.kind == SignalKind::on_off) {
            append_var(out, "wire 1", codes[i].own, signal.name);
        } else {
            append_var(out, "real 64", codes[i].own, signal.name);
            if (!codes[i].extra.empty()) {
                append_var(out, "wire 1", codes[i].extra.front(), signal.name + "_known");
            }
        }
    }
    out += "$upscope $end\n$enddefinitions $end\n";
}

void append_bits(std::string& out, std::int32_t raw, const std::string& id) {
    out.push_back('b');
    if (raw == Table::no_value) {
        out.push_back('x');
    } else {
        int top = 31;
        while (top > 0 && ((raw >> top) & 1) == 0) --top;
        for (; top >= 0; --top) out.push_back(((raw >> top) & 1) != 0 ? '1' : '0');
    }
    out += " " + id + "\n";
}

void append_wire(std::string& out, char level, const std::string& id) {
    out.push_back(level);
    out += id + "\n";
}

void append_choice(std::string& out, std::int32_t raw, const Codes& codes) {
    append_bits(out, raw, codes.own);
    for (std::size_t word = 0; word < codes.extra.size(); ++word) {
        const bool is_it = static_cast<std::size_t>(raw) == word;
        append_wire(out, raw == Table::no_value ? 'x' : (is_it ? '1' : '0'), codes.extra[word]);
    }
}

void append_number(std::string& out, std::int32_t raw, int decimals, const Codes& codes) {
    if (!codes.extra.empty()) {
        append_wire(out, raw == Table::no_value ? '0' : '1', codes.extra.front());
        if (raw == Table::no_value) return;
    }
    out.push_back('r');
    append_fixed(out, raw, decimals);
    out += " " + codes.own + "\n";
}

void append_change(std::string& out, const Signal& signal, std::int32_t raw, const Codes& codes) {
    if (signal.kind == SignalKind::choice) {
        append_choice(out, raw, codes);
    } else if (signal.kind == SignalKind::number) {
        append_number(out, raw, signal.decimals, codes);
    } else {
        append_wire(out, raw == Table::no_value ? 'x' : (raw != 0 ? '1' : '0'), codes.own);
    }
}

void append_time(std::string& out, std::int64_t time_s) {
    out.push_back('#');
    append_integer(out, time_s);
    out.push_back('\n');
}

void append_row(std::string& out, const Table& table, std::size_t row,
                const std::vector<Codes>& codes) {
    bool time_stands = false;
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const std::int32_t raw = table.raw(row, i);
        if (row > 0 && raw == table.raw(row - 1, i)) continue;
        if (!time_stands) append_time(out, table.times_s()[row] - table.start_s());
        if (!time_stands && row == 0) out += "$dumpvars\n";
        time_stands = true;
        append_change(out, table.signals()[i], raw, codes[i]);
    }
    if (row == 0 && time_stands) out += "$end\n";
}

}  // namespace

void write_vcd(std::ostream& out, const Table& table) {
    const auto codes = hand_out_codes(table);
    std::string text;
    append_header(text, table, codes);
    for (std::size_t row = 0; row < table.row_count(); ++row) {
        append_row(text, table, row, codes);
        if (text.size() < (1U << 16U)) continue;
        out.write(text.data(), static_cast<std::streamsize>(text.size()));
        text.clear();
    }
    // The last instant, so that a viewer shows the trace to its end.
    if (table.row_count() > 0) append_time(text, table.times_s().back() - table.start_s());
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
}

}  // namespace noonbench::traces
