// SPDX-License-Identifier: MIT
#include "server.hpp"

#include "class_secrets.hpp"
#include "hosts.hpp"
#include "hub.hpp"
#include "visit.hpp"

#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/thread_pool.hpp>

#include <chrono>
#include <csignal>
#include <memory>
#include <utility>

namespace noonbench::harness {
namespace {

namespace asio = boost::asio;
using tcp = asio::ip::tcp;

/// On all addresses: IPv6 and IPv4 by one socket where the system can.
tcp::acceptor listening_socket(asio::io_context& context, const ServerWishes& wishes) {
    tcp::acceptor acceptor(context);
    if (wishes.lan) {
        boost::system::error_code error;
        acceptor.open(tcp::v6(), error);
        if (!error) acceptor.set_option(asio::ip::v6_only(false), error);
        if (!error) acceptor.set_option(asio::socket_base::reuse_address(true), error);
        if (!error) acceptor.bind({asio::ip::address_v6::any(), wishes.port}, error);
        if (!error) {
            acceptor.listen();
            return acceptor;
        }
        return {context, {asio::ip::address_v4::any(), wishes.port}};
    }
    return {context, {asio::ip::address_v4::loopback(), wishes.port}};
}

/// Without a place for one more, accepting again at once would only burn time.
class Entrance {
  public:
    Entrance(tcp::acceptor& acceptor, Hub& hub)
        : acceptor_(acceptor), pause_(acceptor.get_executor()), hub_(hub) {}

    void accept() {
        acceptor_.async_accept([this](boost::system::error_code error, tcp::socket socket) {
            if (error == asio::error::operation_aborted) return;
            if (error) return rest();
            socket.set_option(tcp::no_delay(true), error);
            std::make_shared<Visit>(std::move(socket), hub_)->start();
            accept();
        });
    }

  private:
    void rest() {
        pause_.expires_after(std::chrono::milliseconds(100));
        pause_.async_wait([this](boost::system::error_code error) {
            if (!error) accept();
        });
    }

    tcp::acceptor& acceptor_;
    asio::steady_timer pause_;
    Hub& hub_;
};

}  // namespace

/// In the order in which they need each other; connections may still stand in the context when it
/// ends, so their doors outlive it.
struct Server::Parts {
    Parts(const Shelf& shelf, const ServerWishes& wishes, ClassKeeper* keeper)
        : acceptor(listening_socket(context, wishes)),
          opened(told(acceptor, wishes)),
          hub(context, doors, wishes, opened),
          entrance(acceptor, hub),
          signals(context, SIGINT, SIGTERM) {
        desk.aside = [this](std::function<void()> work) { asio::post(workers, std::move(work)); };
        hub.start(shelf, desk, keeper);
        signals.async_wait([this](boost::system::error_code error, int) {
            if (!error) context.stop();
        });
        entrance.accept();
    }

    static ServerOpened told(const tcp::acceptor& acceptor, const ServerWishes& wishes) {
        ServerOpened opened;
        opened.port = acceptor.local_endpoint().port();
        if (wishes.lan) opened.addresses = page_addresses(opened.port);
        opened.secret = wishes.secret.empty() ? drawn_secret() : wishes.secret;
        return opened;
    }

    LessonDesk desk;
    asio::thread_pool workers{1};  // runs that lessons ask for, beside those that are shown
    Doors doors;
    asio::io_context context{1};
    tcp::acceptor acceptor;
    ServerOpened opened;
    Hub hub;
    Entrance entrance;
    asio::signal_set signals;
};

Server::Server(const Shelf& shelf, const ServerWishes& wishes, ClassKeeper* keeper)
    : parts_(std::make_unique<Parts>(shelf, wishes, keeper)) {}

Server::~Server() {
    parts_->workers.stop();
    parts_->workers.join();
}

const ServerOpened& Server::opened() const {
    return parts_->opened;
}

void Server::run() {
    parts_->context.run();
    parts_->hub.room().keep_all();
}

void Server::stop() {
    parts_->context.stop();
}

}  // namespace noonbench::harness
