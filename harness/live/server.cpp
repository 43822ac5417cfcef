// SPDX-License-Identifier: MIT
#include "server.hpp"

#include "assets.hpp"
#include "session.hpp"

#include <fmt/format.h>
#include <boost/asio.hpp>
#include <boost/beast.hpp>

#include <algorithm>
#include <chrono>
#include <deque>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using tcp = asio::ip::tcp;
using std::chrono::steady_clock;

constexpr auto between_frames = std::chrono::milliseconds(100);
constexpr std::size_t most_waiting_answers = 64;
constexpr int most_messages_a_second = 50;
constexpr std::size_t most_request_bytes = std::size_t{8} * 1024;
constexpr std::string_view content_policy =
    "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

struct Hub {
    const Shelf& shelf;
    LessonDesk& desk;
    ServerWishes wishes;
    std::size_t sessions = 0;
};

/// A page may speak to us only if we served it: its origin is the host that it asked.
bool is_own_origin(const http::request<http::string_body>& request) {
    const auto origin = request[http::field::origin];
    const auto host = request[http::field::host];
    return !host.empty() && origin == "http://" + std::string(host);
}

/// One learner's socket with the bench behind it.
class Seat : public std::enable_shared_from_this<Seat> {
  public:
    Seat(tcp::socket socket, Hub& hub)
        : socket_(std::move(socket)),
          timer_(socket_.get_executor()),
          hub_(hub),
          bench_(hub.shelf, hub.desk) {
        ++hub_.sessions;
    }
    ~Seat() { --hub_.sessions; }
    Seat(const Seat&) = delete;
    Seat& operator=(const Seat&) = delete;

    void start(const http::request<http::string_body>& request) {
        socket_.set_option(
            beast::websocket::stream_base::timeout::suggested(beast::role_type::server));
        socket_.read_message_max(most_message_bytes);
        socket_.async_accept(request, [self = shared_from_this()](beast::error_code error) {
            if (error) return;
            self->send(self->bench_.greeting());
            self->listen();
            self->last_ = steady_clock::now();
            self->wait();
        });
    }

  private:
    void listen() {
        socket_.async_read(buffer_,
                           [self = shared_from_this()](beast::error_code error, std::size_t) {
                               if (error) {
                                   self->closed_ = true;
                                   self->timer_.cancel();
                                   return;
                               }
                               self->hear();
                               self->listen();
                           });
    }

    void hear() {
        const std::string text = beast::buffers_to_string(buffer_.data());
        buffer_.consume(buffer_.size());
        if (heard_++ >= most_messages_a_second) return;  // counted anew each second
        for (std::string& answer : bench_.take(text)) send(std::move(answer));
    }

    void wait() {
        timer_.expires_after(between_frames);
        timer_.async_wait([self = shared_from_this()](beast::error_code error) {
            if (error || self->closed_) return;
            self->beat();
            self->wait();
        });
    }

    /// A page that has not taken the last frame yet gets none; its time stands still meanwhile, so
    /// that nothing is lost.
    void beat() {
        const auto now = steady_clock::now();
        const std::chrono::duration<double> passed = now - last_;
        if (now - second_began_ >= std::chrono::seconds(1)) {
            second_began_ = now;
            heard_ = 0;
        }
        last_ = now;
        if (writing_) return;
        for (std::string& each : bench_.pass(passed.count())) send(std::move(each));
    }

    void send(std::string text) {
        if (closed_) return;
        if (waiting_.size() >= most_waiting_answers) return close();
        waiting_.push_back(std::move(text));
        if (!writing_) write();
    }

    void write() {
        writing_ = true;
        socket_.text(true);
        socket_.async_write(asio::buffer(waiting_.front()),
                            [self = shared_from_this()](beast::error_code error, std::size_t) {
                                self->writing_ = false;
                                if (error) return self->close();
                                self->waiting_.pop_front();
                                if (!self->waiting_.empty()) self->write();
                            });
    }

    void close() {
        closed_ = true;
        timer_.cancel();
        beast::get_lowest_layer(socket_).close();
    }

    beast::websocket::stream<beast::tcp_stream> socket_;
    asio::steady_timer timer_;
    Hub& hub_;
    Session bench_;
    beast::flat_buffer buffer_;
    std::deque<std::string> waiting_;
    bool writing_ = false;
    bool closed_ = false;
    int heard_ = 0;
    steady_clock::time_point last_{};
    steady_clock::time_point second_began_{};
};

using Request = http::request<http::string_body>;
using Response = http::response<http::string_body>;

Response response_to(const Request& request) {
    Response response;
    response.version(request.version());
    response.keep_alive(request.keep_alive());
    response.set(http::field::cache_control, "no-cache");
    response.set("Content-Security-Policy", std::string(content_policy));
    response.set("X-Content-Type-Options", "nosniff");
    response.set("Referrer-Policy", "no-referrer");
    const std::string_view target = std::string_view(request.target());
    const std::string_view path = target.substr(0, target.find('?'));
    const auto files = page_files();
    const auto file = std::find_if(files.begin(), files.end(),
                                   [&](const PageFile& each) { return each.path == path; });
    if (request.method() != http::verb::get && request.method() != http::verb::head) {
        response.result(http::status::method_not_allowed);
    } else if (file == files.end()) {
        response.result(http::status::not_found);
    } else {
        response.set(http::field::content_type, std::string(file->type));
        if (request.method() == http::verb::get) response.body() = std::string(file->content);
    }
    response.prepare_payload();
    return response;
}

/// One connection of a browser, until it turns into a seat.
class Visit : public std::enable_shared_from_this<Visit> {
  public:
    Visit(tcp::socket socket, Hub& hub) : stream_(std::move(socket)), hub_(hub) {}

    void read() {
        parser_.emplace();
        parser_->body_limit(most_request_bytes);
        parser_->header_limit(most_request_bytes);
        stream_.expires_after(std::chrono::seconds(30));
        http::async_read(stream_, buffer_, *parser_,
                         [self = shared_from_this()](beast::error_code error, std::size_t) {
                             if (!error) self->answer();
                         });
    }

  private:
    void answer() {
        const Request request = parser_->release();
        if (beast::websocket::is_upgrade(request) && request.target() == "/bench") {
            if (!is_own_origin(request)) return refuse(request, http::status::forbidden);
            if (hub_.sessions >= hub_.wishes.most_sessions) {
                return refuse(request, http::status::service_unavailable);
            }
            stream_.expires_never();
            return std::make_shared<Seat>(stream_.release_socket(), hub_)->start(request);
        }
        write(response_to(request));
    }

    void refuse(const Request& request, http::status status) {
        Response response(status, request.version());
        response.keep_alive(false);
        response.prepare_payload();
        write(std::move(response));
    }

    void write(Response response) {
        response_ = std::move(response);
        http::async_write(stream_, response_,
                          [self = shared_from_this()](beast::error_code error, std::size_t) {
                              if (error || !self->response_.keep_alive()) return;
                              self->read();
                          });
    }

    beast::tcp_stream stream_;
    Hub& hub_;
    beast::flat_buffer buffer_;
    std::optional<http::request_parser<http::string_body>> parser_;
    Response response_;
};

void accept(tcp::acceptor& acceptor, Hub& hub) {
    acceptor.async_accept([&](beast::error_code error, tcp::socket socket) {
        if (error == asio::error::operation_aborted) return;
        if (!error) {
            socket.set_option(tcp::no_delay(true), error);
            std::make_shared<Visit>(std::move(socket), hub)->read();
        }
        accept(acceptor, hub);
    });
}

}  // namespace

void serve(const Shelf& shelf, const ServerWishes& wishes,
           const std::function<void(std::uint16_t)>& listening) {
    LessonDesk desk;
    asio::thread_pool workers(1);  // runs that lessons ask for, beside those that are shown
    desk.aside = [&workers](std::function<void()> work) { asio::post(workers, std::move(work)); };
    asio::io_context context(1);
    Hub hub{shelf, desk, wishes};
    tcp::acceptor acceptor(context, {asio::ip::make_address(wishes.address), wishes.port});
    asio::signal_set signals(context, SIGINT, SIGTERM);
    signals.async_wait([&](beast::error_code, int) { context.stop(); });
    listening(acceptor.local_endpoint().port());
    accept(acceptor, hub);
    context.run();
    workers.stop();
    workers.join();
}

}  // namespace noonbench::harness
