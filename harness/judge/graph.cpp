// SPDX-License-Identifier: MIT
#include "graph.hpp"

#include <algorithm>

namespace noonbench::harness {

StreamNode& Graph::signal(std::size_t index) {
    SignalNode*& known = signals_[index];
    if (known == nullptr) {
        auto made = std::make_unique<SignalNode>(run_);
        made->set_id(nodes_.size());
        known = made.get();
        nodes_.push_back(std::move(made));
    }
    return *known;
}

std::size_t Graph::watch(const WatchOrder& order) {
    const auto same = [&](const Watch& watch) { return watch.order() == order; };
    const auto found = std::find_if(watches_.begin(), watches_.end(), same);
    if (found != watches_.end()) return static_cast<std::size_t>(found - watches_.begin());
    watches_.emplace_back(run_, order);
    return watches_.size() - 1;
}

void Graph::make_room() {
    for (const Watch& watch : watches_) watch.announce();
    for (std::size_t i = nodes_.size(); i-- > 0;) nodes_[i]->pass_need_on();
    for (const auto& node : nodes_) node->make_room();
}

void Graph::carry(std::int64_t block) {
    for (CarryingNode* node : carrying_) node->carry(block);
}

void Graph::look_up_to(std::int64_t block) {
    for (Watch& watch : watches_) watch.look_up_to(block);
}

}  // namespace noonbench::harness
