// SPDX-License-Identifier: MIT
#include "visit.hpp"

#include "assets.hpp"
#include "hosts.hpp"
#include "web_line.hpp"

#include "harness/lesson/sheet.hpp"

#include <boost/beast/http.hpp>
#include <boost/beast/websocket/rfc6455.hpp>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

namespace beast = boost::beast;
namespace http = beast::http;

constexpr std::size_t most_request_bytes = std::size_t{8} * 1024;
constexpr auto idle_visit = std::chrono::seconds(20);
constexpr std::string_view page_policy =
    "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";
// A sheet brings its look with it and runs nothing.
constexpr std::string_view sheet_policy =
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'";

/// The stem in /sheets/<stem>/learner.
std::optional<std::string_view> stem_of_sheet(std::string_view path) {
    constexpr std::string_view before = "/sheets/";
    constexpr std::string_view after = "/learner";
    constexpr std::size_t longest = 60;
    if (path.size() <= before.size() + after.size() || !path.starts_with(before) ||
        !path.ends_with(after)) {
        return std::nullopt;
    }
    const std::string_view stem =
        path.substr(before.size(), path.size() - before.size() - after.size());
    const bool is_plain =
        stem.size() <= longest && std::all_of(stem.begin(), stem.end(), [](char c) {
            return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
        });
    return is_plain ? std::optional(stem) : std::nullopt;
}

/// A page may speak to us only if we served it: its origin is the host that it asked.
bool is_own_origin(const http::request<http::string_body>& request) {
    return request[http::field::origin] == "http://" + std::string(request[http::field::host]);
}

}  // namespace

Visit::Visit(boost::asio::ip::tcp::socket socket, Hub& hub)
    : guest_(std::make_unique<Guest>(hub.doors(), socket)), stream_(std::move(socket)), hub_(hub) {}

void Visit::start() {
    const bool is_too_many = hub_.doors().all.connections > hub_.wishes().most_connections ||
                             (!guest_->is_from_here() && guest_->of_its_address().connections >
                                                             hub_.wishes().most_connections_of_one);
    if (!is_too_many) read();
}

void Visit::read() {
    parser_.emplace();
    parser_->body_limit(most_request_bytes);
    parser_->header_limit(most_request_bytes);
    stream_.expires_after(idle_visit);
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](beast::error_code error, std::size_t) {
                         if (!error) self->answer();
                     });
}

void Visit::answer() {
    const Request request = parser_->release();
    if (!is_own_host(std::string_view(request[http::field::host]), guest_->here())) {
        return refuse(request, http::status::misdirected_request,
                      "The bench is not known under that name.\n");
    }
    if (!beast::websocket::is_upgrade(request) || request.target() != "/bench") {
        return write(response_to(request));
    }
    if (!is_own_origin(request)) {
        return refuse(request, http::status::forbidden, "Only the bench's own page may ask.\n");
    }
    if (!is_line_allowed()) {
        return refuse(request, http::status::service_unavailable, "All lines are taken.\n");
    }
    stream_.expires_never();
    std::make_shared<WebLine>(stream_.release_socket(), std::move(guest_), hub_)->start(request);
}

bool Visit::is_line_allowed() const {
    if (hub_.doors().all.lines >= hub_.wishes().most_lines) return false;
    return guest_->is_from_here() ||
           guest_->of_its_address().lines < hub_.wishes().most_lines_of_one;
}

Visit::Response Visit::response_to(const Request& request) const {
    Response response;
    response.version(request.version());
    response.keep_alive(request.keep_alive());
    response.set(http::field::cache_control, "no-cache");
    response.set("Content-Security-Policy", std::string(page_policy));
    response.set("X-Content-Type-Options", "nosniff");
    response.set("Referrer-Policy", "no-referrer");
    const std::string_view target = std::string_view(request.target());
    const std::string_view path = target.substr(0, target.find('?'));
    const bool has_body = request.method() == http::verb::get;
    const auto files = page_files();
    const auto file = std::find_if(files.begin(), files.end(),
                                   [&](const PageFile& each) { return each.path == path; });
    const auto stem = stem_of_sheet(path);
    const ShelfItem* item = stem ? hub_.shelf().find("lessons/" + std::string(*stem)) : nullptr;
    if (!has_body && request.method() != http::verb::head) {
        response.result(http::status::method_not_allowed);
    } else if (item != nullptr) {
        response.set("Content-Security-Policy", std::string(sheet_policy));
        response.set(http::field::content_type, "text/html; charset=utf-8");
        if (has_body) response.body() = learner_sheet(*item->lesson);
    } else if (file != files.end()) {
        response.set(http::field::content_type, std::string(file->type));
        if (has_body) response.body() = std::string(file->content);
    } else {
        response.result(http::status::not_found);
    }
    response.prepare_payload();
    return response;
}

void Visit::refuse(const Request& request, http::status status, const char* why) {
    Response response(status, request.version());
    response.keep_alive(false);
    response.set(http::field::content_type, "text/plain; charset=utf-8");
    response.set("X-Content-Type-Options", "nosniff");
    response.body() = why;
    response.prepare_payload();
    write(std::move(response));
}

void Visit::write(Response response) {
    response_ = std::move(response);
    http::async_write(stream_, response_,
                      [self = shared_from_this()](beast::error_code error, std::size_t) {
                          if (error || !self->response_.keep_alive()) return;
                          self->read();
                      });
}

}  // namespace noonbench::harness
