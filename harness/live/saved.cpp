// SPDX-License-Identifier: MIT
#include "saved.hpp"

#include "hand_move.hpp"

#include "harness/bench/clock.hpp"
#include "harness/scenario/read.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

void put(Node& map, std::string key, std::string text) {
    Entry& entry = map.entries.emplace_back();
    entry.key = std::move(key);
    entry.value.kind = Node::Kind::scalar;
    entry.value.text = std::move(text);
}

Node move_node(const HandMoveText& move) {
    Node node;
    node.kind = Node::Kind::map;
    put(node, "at", date_time_text(move.at_s));
    put(node, move.kind, move.name);
    put(node, "to", move.to);
    if (move.over_s > 0) put(node, "over", fmt::format("{} s", move.over_s));
    return node;
}

}  // namespace

std::string saved_scenario(const std::filesystem::path& file, std::span<const std::string> sets,
                           const std::vector<HandMoveText>& by_hand) {
    Node tree = composed_tree(file, sets);
    if (!by_hand.empty()) {
        Node* moves = find(tree, "moves");
        if (moves == nullptr) {
            Entry& entry = tree.entries.emplace_back();
            entry.key = "moves";
            moves = &entry.value;
        }
        moves->kind = Node::Kind::list;
        for (const HandMoveText& move : by_hand) moves->items.push_back(move_node(move));
    }
    return yaml_text(tree);
}

}  // namespace noonbench::harness
