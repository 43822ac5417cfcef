// SPDX-License-Identifier: MIT
// A page's end of the line, with a real socket, for tests and benchmarks.
#pragma once
#include <boost/asio.hpp>
#include <boost/beast.hpp>
#include <boost/json.hpp>

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace noonbench::harness::testing {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace json = boost::json;

class WebClient {
  public:
    struct Asked {
        std::string host;       // empty: the address and port
        std::string origin;     // empty: http:// and the host
        int receive_bytes = 0;  // of the socket's own buffer; 0: as the system likes
    };

    /// Throws where the server does not take the line; `status` then says how.
    WebClient(const std::string& address, std::uint16_t port, const Asked& asked,
              unsigned* status = nullptr) {
        socket_ = std::make_unique<Socket>(context_);
        auto& tcp = beast::get_lowest_layer(*socket_).socket();
        const asio::ip::tcp::endpoint there(asio::ip::make_address(address), port);
        tcp.open(there.protocol());
        if (asked.receive_bytes > 0) {
            tcp.set_option(asio::socket_base::receive_buffer_size(asked.receive_bytes));
        }
        tcp.connect(there);
        tcp.set_option(asio::ip::tcp::no_delay(true));
        const std::string host =
            asked.host.empty() ? address + ":" + std::to_string(port) : asked.host;
        const std::string origin = asked.origin.empty() ? "http://" + host : asked.origin;
        socket_->set_option(
            beast::websocket::stream_base::decorator([origin](beast::websocket::request_type& r) {
                r.set(beast::http::field::origin, origin);
            }));
        beast::websocket::response_type response;
        try {
            socket_->handshake(response, host, "/bench");
        } catch (const boost::system::system_error&) {
            if (status != nullptr) *status = response.result_int();
            throw;
        }
    }
    WebClient(const std::string& address, std::uint16_t port) : WebClient(address, port, Asked{}) {}

    bool say(const json::object& wish) { return say_text(json::serialize(wish)); }
    /// False where the line is shut.
    bool say_text(std::string_view text) {
        beast::error_code error;
        socket_->write(asio::buffer(text.data(), text.size()), error);
        return !error;
    }

    /// The next message; nothing once the line is shut, or when it takes too long.
    std::optional<json::object> hear(
        std::chrono::milliseconds patience = std::chrono::seconds(10)) {
        const auto text = hear_text(patience);
        if (!text) return std::nullopt;
        return json::parse(*text).as_object();
    }
    std::optional<std::string> hear_text(std::chrono::milliseconds patience) {
        if (!reading_) {
            reading_ = true;
            done_ = false;
            buffer_.clear();
            socket_->async_read(buffer_, [this](beast::error_code error, std::size_t) {
                reading_ = false;
                done_ = !error;
                shut_ = shut_ || error;
            });
        }
        context_.restart();
        const auto until = std::chrono::steady_clock::now() + patience;
        while (reading_ && std::chrono::steady_clock::now() < until) context_.run_one_until(until);
        if (!done_) return std::nullopt;
        done_ = false;
        return beast::buffers_to_string(buffer_.data());
    }

    /// The next of that kind; what comes before it is passed over.
    std::optional<json::object> hear(
        std::string_view kind, std::chrono::milliseconds patience = std::chrono::seconds(10)) {
        const auto until = std::chrono::steady_clock::now() + patience;
        for (;;) {
            const auto left = until - std::chrono::steady_clock::now();
            if (left <= left.zero()) return std::nullopt;
            auto message = hear(std::chrono::duration_cast<std::chrono::milliseconds>(left));
            if (!message || message->at("is").as_string() == kind) return message;
        }
    }

    [[nodiscard]] bool is_shut() const { return shut_; }

  private:
    using Socket = beast::websocket::stream<beast::tcp_stream>;

    asio::io_context context_;
    std::unique_ptr<Socket> socket_;
    beast::flat_buffer buffer_;
    bool reading_ = false;
    bool done_ = false;
    bool shut_ = false;
};

}  // namespace noonbench::harness::testing
