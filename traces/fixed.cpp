// SPDX-License-Identifier: MIT
#include "fixed.hpp"

#include <array>
#include <charconv>

namespace noonbench::traces {

std::int64_t power_of_ten(int decimals) {
    std::int64_t power = 1;
    for (int i = 0; i < decimals; ++i) power *= 10;
    return power;
}

void append_integer(std::string& out, std::int64_t number) {
    std::array<char, 20> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
    out.append(digits.data(), end);
}

void append_fixed(std::string& out, std::int64_t raw, int decimals) {
    if (decimals == 0) {
        append_integer(out, raw);
        return;
    }
    if (raw < 0) out.push_back('-');
    const std::int64_t size = raw < 0 ? -raw : raw;
    const std::int64_t scale = power_of_ten(decimals);
    append_integer(out, size / scale);
    out.push_back('.');
    std::int64_t rest = size % scale;
    for (std::int64_t place = scale / 10; place > 0; place /= 10) {
        out.push_back(static_cast<char>('0' + rest / place));
        rest %= place;
    }
}

std::optional<Fixed> parse_fixed(std::string_view text) {
    const bool negative = !text.empty() && text.front() == '-';
    if (negative) text.remove_prefix(1);
    Fixed number;
    std::size_t digits = 0;
    bool after_point = false;
    for (const char c : text) {
        if (c == '.' && !after_point && digits > 0) {
            after_point = true;
            continue;
        }
        if (c < '0' || c > '9' || ++digits > 18) return std::nullopt;
        number.raw = number.raw * 10 + (c - '0');
        if (after_point) ++number.decimals;
    }
    if (digits == 0 || (after_point && number.decimals == 0)) return std::nullopt;
    if (negative) number.raw = -number.raw;
    return number;
}

}  // namespace noonbench::traces
