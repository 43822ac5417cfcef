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
    for (const Part& part : parts) {
        const std::filesystem::path from = folder_ / part.folder;
        if (!std::filesystem::is_directory(from)) continue;
        const std::size_t first = items_.size();
        for (const auto& entry : std::filesystem::directory_iterator(from)) {
            if (entry.path().extension() != ".yaml") continue;
            const Node tree = composed_tree(entry.path());
            items_.push_back({part.kind,
                              std::string(part.folder) + "/" + entry.path().stem().string(),
                              text_of(tree, "title"), text_of(tree, "about")});
        }
        std::sort(items_.begin() + static_cast<std::ptrdiff_t>(first), items_.end(),
                  [](const ShelfItem& a, const ShelfItem& b) { return a.path < b.path; });
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
