// SPDX-License-Identifier: MIT
#include "shelf.hpp"

#include "harness/scenario/compose.hpp"
#include "harness/scenario/read.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace noonbench::harness {
namespace {

struct Part {
    const char* folder;
    const char* kind;
};
constexpr std::array parts{Part{"days", "day"}, Part{"faults", "fault"},
                           Part{"commissioning", "commissioning"}};

/// In the order of their names.
std::vector<std::filesystem::path> yaml_files_in(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::string text_of(const Node& tree, std::string_view key) {
    const Node* node = find(tree, key);
    return node != nullptr ? node->text : std::string();
}

}  // namespace

Shelf::Shelf(std::filesystem::path folder) : folder_(std::move(folder)) {
    if (!std::filesystem::is_directory(folder_)) {
        throw InputRefused(
            {{folder_.string(), 0, 0, "is no folder", "a folder of scenarios (--shelf)"}});
    }
    add_lessons();
    for (const Part& part : parts) add_scenarios(part.folder, part.kind);
}

void Shelf::add_lessons() {
    const std::filesystem::path from = folder_ / "lessons";
    if (!std::filesystem::is_directory(from)) return;
    for (const std::filesystem::path& file : yaml_files_in(from)) {
        lessons_.push_back(std::make_unique<Lesson>(read_lesson(file)));
        const Lesson& lesson = *lessons_.back();
        items_.push_back(
            {"lesson", "lessons/" + file.stem().string(), lesson.title, lesson.aim, &lesson});
    }
}

void Shelf::add_scenarios(const char* part, const char* kind) {
    const std::filesystem::path from = folder_ / part;
    if (!std::filesystem::is_directory(from)) return;
    for (const std::filesystem::path& file : yaml_files_in(from)) {
        const Node tree = composed_tree(file);
        items_.push_back({kind, std::string(part) + "/" + file.stem().string(),
                          text_of(tree, "title"), text_of(tree, "about")});
    }
}

const ShelfItem* Shelf::find(std::string_view path) const {
    const auto item = std::find_if(items_.begin(), items_.end(),
                                   [&](const ShelfItem& each) { return each.path == path; });
    return item != items_.end() ? &*item : nullptr;
}

std::filesystem::path Shelf::file_of(const ShelfItem& item) const {
    return folder_ / (item.path + ".yaml");
}

Scenario Shelf::read(const ShelfItem& item) const {
    return read_scenario(file_of(item));
}

}  // namespace noonbench::harness
