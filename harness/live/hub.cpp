// SPDX-License-Identifier: MIT
#include "hub.hpp"

#include "web_line.hpp"

#include <boost/asio/post.hpp>

#include <utility>

namespace noonbench::harness {
namespace {

namespace asio = boost::asio;

constexpr auto between_passes = std::chrono::milliseconds(100);

asio::ip::address plain(asio::ip::address address) {
    if (address.is_v6() && address.to_v6().is_v4_mapped()) {
        return asio::ip::make_address_v4(asio::ip::v4_mapped, address.to_v6());
    }
    return address;
}

}  // namespace

Guest::Guest(Doors& doors, const asio::ip::tcp::socket& socket) : doors_(doors) {
    boost::system::error_code error;
    const asio::ip::address there = plain(socket.remote_endpoint(error).address());
    address_ = there.to_string();
    is_from_here_ = there.is_loopback();
    here_ = plain(socket.local_endpoint(error).address()).to_string();
    ++doors_.all.connections;
    ++doors_.from[address_].connections;
}

Guest::~Guest() {
    const auto from = doors_.from.find(address_);
    --doors_.all.connections;
    --from->second.connections;
    if (is_line_) {
        --doors_.all.lines;
        --from->second.lines;
    }
    if (from->second.connections == 0) doors_.from.erase(from);
}

void Guest::becomes_line() {
    is_line_ = true;
    ++doors_.all.lines;
    ++doors_.from.at(address_).lines;
}

Hub::Hub(asio::io_context& context, Doors& doors, const ServerWishes& wishes,
         const ServerOpened& opened)
    : wishes_(wishes),
      context_(context),
      timer_(context),
      began_(std::chrono::steady_clock::now()),
      doors_(doors),
      opened_(opened) {}

Hub::~Hub() = default;

double Hub::now_s() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count();
}

void Hub::say(LineId line, SaidText text) {
    const auto found = lines_.find(line);
    if (found == lines_.end()) return;
    if (const auto end = found->second.lock()) end->say(std::move(text));
}

std::size_t Hub::waiting(LineId line) const {
    const auto found = lines_.find(line);
    const auto end = found != lines_.end() ? found->second.lock() : nullptr;
    return end ? end->waiting() : 0;
}

void Hub::hang_up(LineId line) {
    const auto found = lines_.find(line);
    if (found == lines_.end()) return;
    if (const auto end = found->second.lock()) end->hang_up();
}

LineId Hub::add(std::weak_ptr<WebLine> line) {
    lines_[++last_line_] = std::move(line);
    return last_line_;
}

void Hub::remove(LineId line) {
    if (lines_.erase(line) > 0) room_->leave(line);
}

void Hub::take(LineId line, std::string_view text) {
    room_->take(line, text, now_s());
    if (!std::exchange(works_, true)) work();
}

/// Runs that the trainer has sent, one at a time: between two of them everybody is served.
void Hub::work() {
    asio::post(context_, [this] {
        works_ = room_->open_next();
        if (works_) work();
    });
}

void Hub::start(const Shelf& shelf, LessonDesk& desk, ClassKeeper* keeper) {
    RoomWishes wishes;
    wishes.must_join = wishes_.lan;
    wishes.secret = opened_.secret;
    wishes.address = opened_.addresses.empty()
                         ? "http://127.0.0.1:" + std::to_string(opened_.port) + "/"
                         : opened_.addresses.front();
    shelf_ = &shelf;
    wishes.new_bench = [&shelf, &desk] { return std::make_unique<Session>(shelf, desk); };
    room_.emplace(shelf, std::move(wishes), *this, keeper);
    wait();
}

void Hub::wait() {
    timer_.expires_after(between_passes);
    timer_.async_wait([this](boost::system::error_code error) {
        if (error) return;
        room_->pass(now_s());
        wait();
    });
}

}  // namespace noonbench::harness
