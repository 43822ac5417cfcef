// SPDX-License-Identifier: MIT
// One page's WebSocket: what it says, within limits, goes to the classroom; what it is told waits
// here until it has been taken.
#pragma once
#include "hub.hpp"

#include <boost/asio/steady_timer.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>
#include <boost/beast/websocket/stream.hpp>

#include <chrono>
#include <cstddef>
#include <deque>
#include <memory>

namespace noonbench::harness {

class WebLine : public std::enable_shared_from_this<WebLine> {
  public:
    WebLine(boost::asio::ip::tcp::socket socket, std::unique_ptr<Guest> guest, Hub& hub);

    /// Answers the request that asked for it, then serves until either end has enough.
    void start(const boost::beast::http::request<boost::beast::http::string_body>& request);
    void say(SaidText text);
    [[nodiscard]] std::size_t waiting() const { return waiting_.size(); }
    /// Nothing more is heard; shut once all that was said is out.
    void hang_up();

  private:
    void listen();
    void hear();
    [[nodiscard]] bool is_within_rate();
    void wait();
    void write();
    void wave();
    void close();

    boost::beast::websocket::stream<boost::beast::tcp_stream> socket_;
    boost::asio::steady_timer timer_;
    std::unique_ptr<Guest> guest_;
    Hub& hub_;
    LineId line_ = 0;
    boost::beast::flat_buffer buffer_;
    std::deque<SaidText> waiting_;
    std::size_t waiting_bytes_ = 0;
    bool writing_ = false;
    bool leaving_ = false;
    bool closed_ = false;
    int heard_ = 0;
    std::chrono::steady_clock::time_point second_began_;
    std::chrono::steady_clock::time_point leaves_at_;
};

}  // namespace noonbench::harness
