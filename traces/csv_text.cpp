// SPDX-License-Identifier: MIT
#include "csv_text.hpp"

#include "read_error.hpp"

namespace noonbench::traces {

void append_cell(std::string& out, std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) {
        out.append(text);
        return;
    }
    out.push_back('"');
    for (const char c : text) {
        if (c == '"') out.push_back('"');
        out.push_back(c);
    }
    out.push_back('"');
}

int RowReader::get() {
    const int c = in_.rdbuf()->sbumpc();
    if (c == '\n') {
        ++line_;
        column_ = 1;
    } else {
        ++column_;
    }
    return c;
}

/// The opening quote is read; reads to the closing one. A doubled quote stands for one.
bool RowReader::next_in_quotes(std::string& text) {
    for (;;) {
        const int c = get();
        if (c == std::istream::traits_type::eof()) return false;
        if (c != '"') {
            text.push_back(static_cast<char>(c));
        } else if (in_.rdbuf()->sgetc() == '"') {
            get();
            text.push_back('"');
        } else {
            return true;
        }
    }
}

bool RowReader::next(std::vector<Cell>& cells) {
    constexpr int end = std::istream::traits_type::eof();
    cells.clear();
    if (in_.rdbuf()->sgetc() == end) return false;
    for (;;) {
        Cell cell{{}, line_, column_};
        int c = get();
        if (c == '"') {
            if (!next_in_quotes(cell.text)) {
                throw ReadError(cell.line, cell.column, "the quote is never closed");
            }
            c = get();
            if (c != ',' && c != '\r' && c != '\n' && c != end) {
                throw ReadError(line_, column_ - 1, "after a closing quote comes a comma");
            }
        }
        while (c != ',' && c != '\r' && c != '\n' && c != end) {
            if (c == '"') throw ReadError(line_, column_ - 1, "a quote inside an unquoted cell");
            cell.text.push_back(static_cast<char>(c));
            c = get();
        }
        cells.push_back(std::move(cell));
        if (c == ',') continue;
        if (c == '\r' && get() != '\n') throw ReadError(line_, column_ - 2, "a CR without its LF");
        return true;
    }
}

}  // namespace noonbench::traces
