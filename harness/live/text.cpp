// SPDX-License-Identifier: MIT
#include "text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <iterator>
#include <string_view>

namespace noonbench::harness {

void append_number(std::string& out, double value, int decimals) {
    if (!std::isfinite(value)) {
        out += "null";
        return;
    }
    const std::size_t begin = out.size();
    fmt::format_to(std::back_inserter(out), "{:.{}f}", value, decimals);
    if (decimals > 0) {
        while (out.back() == '0') out.pop_back();
        if (out.back() == '.') out.pop_back();
    }
    if (std::string_view(out).substr(begin) == "-0") out.replace(begin, 2, "0");
}

void append_quoted(std::string& out, std::string_view text) {
    out += boost::json::serialize(boost::json::string(text));
}

}  // namespace noonbench::harness
