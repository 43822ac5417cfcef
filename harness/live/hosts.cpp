// SPDX-License-Identifier: MIT
#include "hosts.hpp"

#include <fmt/format.h>
#include <boost/asio/ip/address.hpp>

#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstring>
#include <memory>
#include <optional>

namespace noonbench::harness {
namespace {

namespace ip = boost::asio::ip;

std::string lower_letters(std::string_view text) {
    std::string lower(text);
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return lower;
}

/// "name:port" or "[address]:port" without its port; nothing for what is neither.
std::optional<std::string> without_port(std::string_view host) {
    std::string_view name = host;
    std::string_view rest;
    if (!host.empty() && host.front() == '[') {
        const std::size_t end = host.find(']');
        if (end == std::string_view::npos) return std::nullopt;
        name = host.substr(1, end - 1);
        rest = host.substr(end + 1);
    } else if (const std::size_t colon = host.find(':'); colon != std::string_view::npos) {
        name = host.substr(0, colon);
        rest = host.substr(colon);
    }
    const bool is_port =
        rest.empty() ||
        (rest.front() == ':' && rest.size() >= 2 && rest.size() <= 6 &&
         std::all_of(rest.begin() + 1, rest.end(), [](char c) { return c >= '0' && c <= '9'; }));
    if (name.empty() || !is_port) return std::nullopt;
    return lower_letters(name);
}

std::string own_name() {
    std::array<char, 256> name{};
    if (gethostname(name.data(), name.size() - 1) != 0) return {};
    return lower_letters(name.data());
}

/// An IPv4 address that has come in through an IPv6 socket is that IPv4 address; a scope says only
/// through which interface.
std::optional<ip::address> plain_address(std::string_view text) {
    boost::system::error_code error;
    const ip::address address = ip::make_address(std::string(text), error);
    if (error) return std::nullopt;
    if (!address.is_v6()) return address;
    ip::address_v6 v6 = address.to_v6();
    if (v6.is_v4_mapped()) return ip::make_address_v4(ip::v4_mapped, v6);
    v6.scope_id(0);
    return v6;
}

std::optional<std::string> page_at(const sockaddr& address, std::uint16_t port) {
    if (address.sa_family == AF_INET) {
        sockaddr_in in{};
        std::memcpy(&in, &address, sizeof in);
        const ip::address_v4 v4(ntohl(in.sin_addr.s_addr));
        return fmt::format("http://{}:{}/", v4.to_string(), port);
    }
    if (address.sa_family != AF_INET6) return std::nullopt;
    sockaddr_in6 in{};
    std::memcpy(&in, &address, sizeof in);
    ip::address_v6::bytes_type bytes{};
    std::memcpy(bytes.data(), &in.sin6_addr, bytes.size());
    const ip::address_v6 v6(bytes);
    if (v6.is_link_local()) return std::nullopt;  // no browser takes its scope
    return fmt::format("http://[{}]:{}/", v6.to_string(), port);
}

}  // namespace

bool is_own_host(std::string_view host, std::string_view here) {
    const std::optional<std::string> name = without_port(host);
    if (!name) return false;
    if (const auto address = plain_address(*name)) {
        return address->is_loopback() || address == plain_address(here);
    }
    const std::string own = own_name();
    return *name == "localhost" || (!own.empty() && (*name == own || *name == own + ".local"));
}

std::vector<std::string> page_addresses(std::uint16_t port) {
    ifaddrs* first = nullptr;
    if (getifaddrs(&first) != 0) return {};
    const std::unique_ptr<ifaddrs, void (*)(ifaddrs*)> all(first, &freeifaddrs);
    std::vector<std::string> pages;
    for (const ifaddrs* each = first; each != nullptr; each = each->ifa_next) {
        const bool is_of_use = each->ifa_addr != nullptr && (each->ifa_flags & IFF_UP) != 0U &&
                               (each->ifa_flags & IFF_LOOPBACK) == 0U;
        if (!is_of_use) continue;
        if (auto page = page_at(*each->ifa_addr, port)) pages.push_back(std::move(*page));
    }
    std::stable_partition(pages.begin(), pages.end(), [](const std::string& page) {
        return page.find('[') == std::string::npos;
    });
    return pages;
}

}  // namespace noonbench::harness
