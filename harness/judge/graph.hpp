// SPDX-License-Identifier: MIT
// The nodes of all requirements of a monitor. What several of them have in common is there once.
#pragma once
#include "block.hpp"
#include "number_nodes.hpp"
#include "watch.hpp"

#include <cstdint>
#include <map>
#include <memory>
#include <type_traits>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// What a node is made of: its kind, its parameters, the ids of the nodes below.
using NodeKey = std::vector<std::uint64_t>;

class Graph {
  public:
    explicit Graph(RunState& run) : run_(run) {}

    /// The node of this key, made from the arguments if there is none yet.
    template <class T, class... Args>
    StreamNode& node(const NodeKey& key, Args&&... args) {
        const auto found = known_.find(key);
        if (found != known_.end()) return *nodes_[found->second];
        auto made = std::make_unique<T>(run_, std::forward<Args>(args)...);
        made->set_id(nodes_.size());
        if constexpr (std::is_base_of_v<CarryingNode, T>) carrying_.push_back(made.get());
        known_.emplace(key, nodes_.size());
        nodes_.push_back(std::move(made));
        return *nodes_.back();
    }
    StreamNode& signal(std::size_t index);
    /// Index of the watch for this; the same for the same.
    std::size_t watch(const WatchOrder& order);

    /// After all nodes and watches are made.
    void make_room();
    /// All ticks of a block are there: carries it on.
    void carry(std::int64_t block);
    /// Looks at what can be looked at while the run goes on beyond the block.
    void look_up_to(std::int64_t block);

    /// Signal nodes by their index.
    [[nodiscard]] const std::map<std::size_t, SignalNode*>& signals() const { return signals_; }
    [[nodiscard]] std::vector<Watch>& watches() { return watches_; }

  private:
    RunState& run_;
    std::vector<std::unique_ptr<StreamNode>> nodes_;  // those below come first
    std::map<NodeKey, std::size_t> known_;
    std::vector<CarryingNode*> carrying_;
    std::map<std::size_t, SignalNode*> signals_;
    std::vector<Watch> watches_;
};

}  // namespace noonbench::harness
