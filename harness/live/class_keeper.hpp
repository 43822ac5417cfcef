// SPDX-License-Identifier: MIT
// What of a class outlives the program, and who keeps it.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

struct KeptClass {
    std::string title;
    std::string word;
    bool held = false;
    std::string shown;  // a seat's name; empty: none
};

struct KeptSeat {
    std::string name;
    std::string ticket;
    std::string bench;    // Session::kept() as JSON
    std::string records;  // what was done, lesson by lesson, as JSON
};

struct KeptAll {
    KeptClass of_class;
    std::vector<KeptSeat> seats;
};

/// Each call is on the disk when it returns, or throws std::runtime_error.
class ClassKeeper {
  public:
    ClassKeeper() = default;
    ClassKeeper(const ClassKeeper&) = delete;
    ClassKeeper& operator=(const ClassKeeper&) = delete;
    virtual ~ClassKeeper() = default;

    /// Nothing where no class is kept.
    [[nodiscard]] virtual std::optional<KeptAll> all() = 0;
    virtual void keep(const KeptClass& of_class) = 0;
    /// All of them or none.
    virtual void keep(const std::vector<KeptSeat>& seats) = 0;
    virtual void forget_seat(const std::string& name) = 0;
    /// The class with all its seats.
    virtual void forget() = 0;
};

}  // namespace noonbench::harness
