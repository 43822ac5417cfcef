// SPDX-License-Identifier: MIT
#include "web_line.hpp"

#include "messages.hpp"

#include <boost/asio/buffer.hpp>
#include <boost/asio/post.hpp>
#include <boost/beast/core/buffers_to_string.hpp>
#include <boost/beast/websocket.hpp>

#include <string>
#include <utility>

namespace noonbench::harness {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using std::chrono::steady_clock;

constexpr auto between_frames = std::chrono::milliseconds(100);
constexpr auto most_late = std::chrono::milliseconds(500);
constexpr auto to_say_goodbye = std::chrono::seconds(5);
constexpr std::size_t most_waiting_texts = 64;
constexpr std::size_t most_waiting_bytes = std::size_t{4} * 1024 * 1024;
constexpr int most_messages_a_second = 50;
constexpr int flood_a_second = 500;
// What the system holds of frames for a slow page is of no use to it.
constexpr int most_bytes_in_the_system = 128 * 1024;

}  // namespace

WebLine::WebLine(asio::ip::tcp::socket socket, std::unique_ptr<Guest> guest, Hub& hub)
    : socket_(std::move(socket)),
      timer_(socket_.get_executor()),
      guest_(std::move(guest)),
      hub_(hub) {
    guest_->becomes_line();
}

void WebLine::start(const http::request<http::string_body>& request) {
    beast::error_code ignored;
    beast::get_lowest_layer(socket_).socket().set_option(
        asio::socket_base::send_buffer_size(most_bytes_in_the_system), ignored);
    socket_.set_option(beast::websocket::stream_base::timeout::suggested(beast::role_type::server));
    socket_.read_message_max(most_message_bytes);
    socket_.async_accept(request, [self = shared_from_this()](beast::error_code error) {
        if (error) return;
        self->line_ = self->hub_.add(self);
        self->second_began_ = steady_clock::now();
        self->hub_.room().enter(self->line_, self->hub_.now_s());
        self->listen();
        // Lines that come in together do not all want their frames at one instant.
        self->timer_.expires_after(std::chrono::milliseconds(self->line_ * 37 % 100));
        self->wait();
    });
}

void WebLine::listen() {
    socket_.async_read(buffer_, [self = shared_from_this()](beast::error_code error, std::size_t) {
        if (error) return self->close();
        self->hear();
        self->listen();
    });
}

void WebLine::hear() {
    const std::string text = beast::buffers_to_string(buffer_.data());
    buffer_.consume(buffer_.size());
    if (leaving_ || closed_ || !is_within_rate()) return;
    hub_.take(line_, text);
}

bool WebLine::is_within_rate() {
    const auto now = steady_clock::now();
    if (now - second_began_ >= std::chrono::seconds(1)) {
        second_began_ = now;
        heard_ = 0;
    }
    if (++heard_ <= most_messages_a_second) return true;
    if (heard_ == most_messages_a_second + 1) {
        say(std::make_shared<const std::string>(
            error_message("", "more than 50 messages a second; the rest of them is lost")));
    }
    if (heard_ >= flood_a_second) hang_up();
    return false;
}

/// Frames keep to their grid: one that was late is followed by the next in time.
void WebLine::wait() {
    timer_.async_wait([self = shared_from_this()](beast::error_code error) {
        if (error || self->closed_) return;
        const auto now = steady_clock::now();
        if (self->leaving_ && now > self->leaves_at_) return self->close();
        if (!self->leaving_) self->hub_.room().beat(self->line_, self->hub_.now_s());
        auto next = self->timer_.expiry() + between_frames;
        if (next + most_late < now) next = now + between_frames;
        self->timer_.expires_at(next);
        self->wait();
    });
}

/// Called from within the classroom: what ends the line is done later, see close().
void WebLine::say(SaidText text) {
    if (closed_) return;
    if (waiting_.size() >= most_waiting_texts ||
        waiting_bytes_ + text->size() > most_waiting_bytes) {
        return close();
    }
    waiting_bytes_ += text->size();
    waiting_.push_back(std::move(text));
    if (!writing_) write();
}

void WebLine::write() {
    writing_ = true;
    socket_.text(true);
    socket_.async_write(asio::buffer(*waiting_.front()),
                        [self = shared_from_this()](beast::error_code error, std::size_t) {
                            self->writing_ = false;
                            if (error || self->closed_) return self->close();
                            self->waiting_bytes_ -= self->waiting_.front()->size();
                            self->waiting_.pop_front();
                            if (!self->waiting_.empty()) return self->write();
                            if (self->leaving_) self->wave();
                        });
}

void WebLine::hang_up() {
    if (std::exchange(leaving_, true) || closed_) return;
    leaves_at_ = steady_clock::now() + to_say_goodbye;
    if (!writing_) wave();
}

void WebLine::wave() {
    writing_ = true;  // nothing after the goodbye
    socket_.async_close(beast::websocket::close_code::policy_error,
                        [self = shared_from_this()](beast::error_code) { self->close(); });
}

/// The classroom hears of it afterwards, since it may be at work with this very line.
void WebLine::close() {
    if (std::exchange(closed_, true)) return;
    timer_.cancel();
    beast::get_lowest_layer(socket_).close();
    asio::post(socket_.get_executor(),
               [self = shared_from_this()] { self->hub_.remove(self->line_); });
}

}  // namespace noonbench::harness
