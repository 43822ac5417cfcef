// SPDX-License-Identifier: MIT
// Answers that were worked out aside, on whatever thread, until their session fetches them. Shared
// by both, so that either may end first.
#pragma once
#include "session.hpp"

#include <boost/json.hpp>

#include <cstdint>
#include <mutex>
#include <utility>
#include <vector>

namespace noonbench::harness {

struct Letter {
    std::uint64_t run = 0;  // of the session, for which it was worked out
    boost::json::object content;
};

struct Session::Mailbox {
  public:
    void put(Letter letter) {
        const std::lock_guard lock(guard_);
        letters_.push_back(std::move(letter));
    }
    [[nodiscard]] std::vector<Letter> fetch() {
        const std::lock_guard lock(guard_);
        return std::exchange(letters_, {});
    }

  private:
    std::mutex guard_;
    std::vector<Letter> letters_;
};

}  // namespace noonbench::harness
