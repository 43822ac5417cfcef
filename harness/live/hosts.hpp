// SPDX-License-Identifier: MIT
// Under which names this machine may be asked for, and where others find it.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// Whether a request's Host names this machine: localhost, its own name, the address `here` at
/// which the connection has come in, or a loopback address. Any other name could be a stranger's
/// that was made to point here (DNS rebinding).
[[nodiscard]] bool is_own_host(std::string_view host, std::string_view here);

/// The page at each address of this machine's interfaces that are up, IPv4 first; without loopback.
[[nodiscard]] std::vector<std::string> page_addresses(std::uint16_t port);

}  // namespace noonbench::harness
