// SPDX-License-Identifier: MIT
// What a page says. Nothing that does not keep to messages.schema.json goes any further.
#pragma once
#include <boost/json.hpp>

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace noonbench::harness {

/// Longer messages are refused unread.
inline constexpr std::size_t most_message_bytes = std::size_t{16} * 1024;

struct PageMessage {
    std::string what;  // the word under "do"
    boost::json::object body;
};

/// What is wrong with a message, in words.
struct BadMessage {
    std::string of;  // the word under "do", as far as it could be read
    std::string what;
};

[[nodiscard]] std::variant<PageMessage, BadMessage> read_message(std::string_view text);

/// {"is":"error","of":..,"what":..}
[[nodiscard]] std::string error_message(std::string_view of, std::string_view what);

/// What stands under a key of a message that keeps to its schema: text, or a whole number.
[[nodiscard]] std::string word_in(const boost::json::object& body, std::string_view key);
[[nodiscard]] std::int64_t whole_in(const boost::json::object& body, std::string_view key,
                                    std::int64_t otherwise = 0);

}  // namespace noonbench::harness
