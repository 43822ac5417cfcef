// SPDX-License-Identifier: MIT
// The calm right-hand side and the rule as C functions, for scipy_peer.py. Made into a library of
// its own by the target `scipy_peer`. The world comes as a file of knots, as scipy_part.cpp writes
// it: the same compiler made both.
#include "flat_plant.hpp"

#include <cstdint>
#include <fstream>
#include <memory>

namespace {

using namespace noonbench::benchmarks;

struct Peer {
    World world;
    FlatPlant flat;
    WorldReader reader;
    Rule rule;
    Stretch stretch{};

    Peer(World knots, bool regulated)
        : world(std::move(knots)),
          flat(house_parameters()),
          reader(world),
          rule{.regulated = regulated} {}
};

World read_world(const char* path) {
    World world;
    world.days = 1;
    std::ifstream file(path, std::ios::binary);
    std::uint64_t count = 0;
    file.read(reinterpret_cast<char*>(&count), sizeof(count));
    world.draws.resize(count);
    file.read(reinterpret_cast<char*>(world.draws.data()),
              static_cast<std::streamsize>(count * sizeof(DailyFlow)));
    file.read(reinterpret_cast<char*>(&count), sizeof(count));
    world.knots.resize(count);
    file.read(reinterpret_cast<char*>(world.knots.data()),
              static_cast<std::streamsize>(count * sizeof(PlaneKnot)));
    if (!file) world.knots.clear();
    return world;
}

}  // namespace

extern "C" {

/// Null when the file cannot be read.
Peer* peer_open(const char* path, int regulated) {
    World world = read_world(path);
    if (world.knots.size() < 2) return nullptr;
    return std::make_unique<Peer>(std::move(world), regulated != 0).release();
}
void peer_close(Peer* peer) {
    const std::unique_ptr<Peer> last(peer);
}
int peer_size(const Peer* peer) {
    return static_cast<int>(peer->flat.size());
}
/// State at the start, and one kelvin of each of its numbers.
void peer_start(const Peer* peer, double* state, double* kelvin) {
    const std::vector<double> start = peer->flat.start();
    const std::vector<double> scale = peer->flat.kelvin();
    std::copy(start.begin(), start.end(), state);
    std::copy(scale.begin(), scale.end(), kelvin);
}
/// From `now` on; returns until when nothing bends, jumps or is to be looked at.
std::int64_t peer_drive(Peer* peer, std::int64_t now) {
    peer->stretch = peer->reader.at(now);
    peer->flat.drive(peer->stretch, now, peer->rule.order);
    return std::min(peer->stretch.until_s, peer->rule.next_look_s(now));
}
void peer_rate(Peer* peer, double t, const double* state, double* rate) {
    peer->flat.rate(t, state, rate);
}
double peer_crossing_k(const Peer* peer, const double* state) {
    return peer->rule.crossing_k(peer->flat.sensors(state));
}
/// 1 when the pump is switched, 0 otherwise.
int peer_decide(Peer* peer, const double* state, std::int64_t now) {
    const bool was_on = peer->rule.order.on;
    peer->rule.decide(peer->flat.sensors(state), now);
    return peer->rule.order.on != was_on ? 1 : 0;
}
long peer_evaluations(const Peer* peer) {
    return peer->flat.evaluations;
}
}
