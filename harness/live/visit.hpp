// SPDX-License-Identifier: MIT
// One connection of a browser, until it turns into a line: the page's files and printable sheets.
#pragma once
#include "hub.hpp"

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>

#include <memory>
#include <optional>

namespace noonbench::harness {

class Visit : public std::enable_shared_from_this<Visit> {
  public:
    Visit(boost::asio::ip::tcp::socket socket, Hub& hub);
    /// Serves one request after the other; shut at once if there are too many connections.
    void start();

  private:
    using Request = boost::beast::http::request<boost::beast::http::string_body>;
    using Response = boost::beast::http::response<boost::beast::http::string_body>;

    void read();
    void answer();
    [[nodiscard]] Response response_to(const Request& request) const;
    [[nodiscard]] bool is_line_allowed() const;
    void refuse(const Request& request, boost::beast::http::status status, const char* why);
    void write(Response response);

    std::unique_ptr<Guest> guest_;
    boost::beast::tcp_stream stream_;
    Hub& hub_;
    boost::beast::flat_buffer buffer_;
    std::optional<boost::beast::http::request_parser<boost::beast::http::string_body>> parser_;
    Response response_;
};

}  // namespace noonbench::harness
