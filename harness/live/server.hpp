// SPDX-License-Identifier: MIT
// The live bench on a socket: HTTP for the page's files, one WebSocket and one Session a learner.
// One thread runs everything; a slow page misses frames, never decisions, and slows nobody.
#pragma once
#include "shelf.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>

namespace noonbench::harness {

struct ServerWishes {
    std::string address = "127.0.0.1";
    std::uint16_t port = 0;  // 0: any that is free
    std::size_t most_sessions = 80;
};

/// Serves until `stop` is asked for by a signal (SIGINT, SIGTERM). Tells the port once it listens.
/// Throws boost::system::system_error if the port cannot be had.
void serve(const Shelf& shelf, const ServerWishes& wishes,
           const std::function<void(std::uint16_t port)>& listening);

}  // namespace noonbench::harness
