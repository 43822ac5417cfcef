// SPDX-License-Identifier: MIT
// What a page says. Nothing that does not keep to messages.schema.json goes any further.
#pragma once
#include <boost/json.hpp>

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

}  // namespace noonbench::harness
