// SPDX-License-Identifier: MIT
// What the connections of a server share: the classroom, the lines to it, the clock, the limits.
#pragma once
#include "classroom.hpp"
#include "server.hpp"

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>

#include <chrono>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace noonbench::harness {

class WebLine;

/// How many connections there are, altogether and from each address.
struct Doors {
    struct Count {
        std::size_t connections = 0;
        std::size_t lines = 0;
    };
    Count all;
    std::map<std::string, Count> from;
};

/// A connection that is counted as long as this lives.
class Guest {
  public:
    Guest(Doors& doors, const boost::asio::ip::tcp::socket& socket);
    Guest(const Guest&) = delete;
    Guest& operator=(const Guest&) = delete;
    ~Guest();

    /// From here on it is a line as well.
    void becomes_line();
    [[nodiscard]] bool is_from_here() const { return is_from_here_; }
    [[nodiscard]] const Doors::Count& of_its_address() const { return doors_.from.at(address_); }
    /// At which of our own addresses it has come in.
    [[nodiscard]] const std::string& here() const { return here_; }

  private:
    Doors& doors_;
    std::string address_;
    std::string here_;
    bool is_from_here_ = false;
    bool is_line_ = false;
};

class Hub final : public Lines {
  public:
    /// `doors` outlives the context with its connections, the hub need not.
    Hub(boost::asio::io_context& context, Doors& doors, const ServerWishes& wishes,
        const ServerOpened& opened);
    ~Hub() override;

    void say(LineId line, SaidText text) override;
    [[nodiscard]] std::size_t waiting(LineId line) const override;
    void hang_up(LineId line) override;

    /// The classroom comes in, once; its own time begins.
    void start(const Shelf& shelf, LessonDesk& desk, ClassKeeper* keeper);
    [[nodiscard]] LineId add(std::weak_ptr<WebLine> line);
    void remove(LineId line);
    void take(LineId line, std::string_view text);

    [[nodiscard]] Classroom& room() { return *room_; }
    [[nodiscard]] const Shelf& shelf() const { return *shelf_; }
    [[nodiscard]] const ServerWishes& wishes() const { return wishes_; }
    [[nodiscard]] Doors& doors() { return doors_; }
    /// Seconds since the server began.
    [[nodiscard]] double now_s() const;

  private:
    void wait();
    void work();

    ServerWishes wishes_;
    boost::asio::io_context& context_;
    boost::asio::steady_timer timer_;
    std::chrono::steady_clock::time_point began_;
    Doors& doors_;
    ServerOpened opened_;
    std::map<LineId, std::weak_ptr<WebLine>> lines_;
    LineId last_line_ = 0;
    bool works_ = false;
    const Shelf* shelf_ = nullptr;
    std::optional<Classroom> room_;
};

}  // namespace noonbench::harness
