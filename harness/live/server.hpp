// SPDX-License-Identifier: MIT
// The live bench on a socket: HTTP for the page's files, a WebSocket for each page, one classroom
// behind them. One thread runs everything; a slow page misses frames, never decisions, and slows
// nobody.
#pragma once
#include "class_keeper.hpp"
#include "shelf.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace noonbench::harness {

struct ServerWishes {
    std::uint16_t port = 0;  // 0: any that is free
    bool lan = false;        // listen on all addresses; visitors must join the class
    std::string secret;      // the trainer's; empty: one is drawn

    std::size_t most_lines = 100;        // WebSockets
    std::size_t most_connections = 400;  // of any kind
    std::size_t most_lines_of_one = 8;   // from one other machine
    std::size_t most_connections_of_one = 40;
};

/// What a server says of itself once it listens.
struct ServerOpened {
    std::uint16_t port = 0;
    std::vector<std::string> addresses;  // of the page, as others on the network see it
    std::string secret;
};

/// The server as something that can be stopped from another thread.
class Server {
  public:
    /// Listens from here on. `shelf` and `keeper` outlive it; keeper may be null: no class outlives
    /// the program then. Throws boost::system::system_error if the port cannot be had.
    Server(const Shelf& shelf, const ServerWishes& wishes, ClassKeeper* keeper);
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server();

    [[nodiscard]] const ServerOpened& opened() const;
    /// Serves until it is stopped, by stop() or a signal (SIGINT, SIGTERM); then everything is
    /// kept.
    void run();
    void stop();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace noonbench::harness
