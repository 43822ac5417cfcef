// SPDX-License-Identifier: MIT
// What lies on the shelf to be opened: lessons, days, faults, commissioning.
#pragma once
#include "harness/lesson/lesson.hpp"
#include "harness/scenario/scenario.hpp"

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

struct ShelfItem {
    std::string kind;  // "lesson", "day", "fault", "commissioning"
    std::string path;  // "days/clear_spring_day"
    std::string title;
    std::string about;
    const Lesson* lesson = nullptr;  // of a lesson
};

class Shelf {
  public:
    /// Reads the titles of all scenario files in the folder's parts, and all lessons. Throws
    /// InputRefused for a folder that is none, or a file that is no scenario.
    explicit Shelf(std::filesystem::path folder);

    [[nodiscard]] const std::vector<ShelfItem>& items() const { return items_; }
    /// Null for a path that is not on the shelf; no other file can be reached by it.
    [[nodiscard]] const ShelfItem* find(std::string_view path) const;
    /// Of anything but a lesson.
    [[nodiscard]] Scenario read(const ShelfItem& item) const;
    [[nodiscard]] std::filesystem::path file_of(const ShelfItem& item) const;

  private:
    std::filesystem::path folder_;
    void add_lessons();
    void add_scenarios(const char* part, const char* kind);

    std::vector<ShelfItem> items_;
    std::vector<std::unique_ptr<Lesson>> lessons_;
};

}  // namespace noonbench::harness
