// SPDX-License-Identifier: MIT
// The loop of time. One tick, in its written order:
//   moves due now -> sensors to counts -> controller -> tap -> plant for one second
// The bench owns time as an integer. Everything here is a value: copy a Bench and the world forks.
#pragma once
#include "sky_feed.hpp"

#include "firmware-model/controller.hpp"
#include "plant/draw.hpp"
#include "plant/household.hpp"
#include "plant/plant.hpp"
#include "plant/random.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace noonbench::harness {

/// A number that slides from one value to another, moved by a scenario's move.
struct Slide {
    std::size_t move = 0;  // index into Scenario::moves
    double from = 0.0;
};

/// The controller with its power, its saved memory and its clock.
struct ControllerBoard {
    firmware::Settings settings{};
    firmware::State state{};
    firmware::Outputs outputs{};
    firmware::Persistent saved{};
    bool powered = true;      // mains reaches the board
    bool was_powered = true;  // at the tick before
};

class Bench {
  public:
    /// Throws InputRefused for what can only be seen now (a weather file), std::invalid_argument
    /// for parameters that make no plant.
    explicit Bench(const Scenario& scenario);

    /// What happens at the instant `now()`: moves, sensors, controller, tap.
    void decide();
    /// Carries the plant from `now()` to `now()` + 1 on what was decided.
    void advance();
    void tick() {
        decide();
        advance();
    }

    [[nodiscard]] CivilSeconds now() const { return now_; }
    [[nodiscard]] const Scenario& scenario() const { return scenario_; }
    [[nodiscard]] const firmware::Outputs& outputs() const { return board_.outputs; }
    [[nodiscard]] const firmware::Settings& settings() const { return board_.settings; }
    [[nodiscard]] bool controller_powered() const { return board_.powered; }
    [[nodiscard]] const plant::Plant& plant() const { return plant_; }
    [[nodiscard]] const plant::WeatherSpan& weather() const { return weather_; }
    [[nodiscard]] const plant::HouseholdState& household() const { return household_; }
    [[nodiscard]] double tap_flow_kg_s() const { return tap_flow_kg_s_; }
    [[nodiscard]] double mains_c() const { return mains_c_; }
    [[nodiscard]] const std::vector<std::string>& messages() const { return messages_; }
    /// Indices of the moves that were made at the last tick.
    [[nodiscard]] const std::vector<std::size_t>& moved() const { return moved_; }
    /// Indices of the moves that slid home at the last tick.
    [[nodiscard]] const std::vector<std::size_t>& slid_home() const { return slid_home_; }

  private:
    void make_moves();
    void make(std::size_t index);
    void slide();
    void set_number(const MoveOf& what, double value);
    [[nodiscard]] double number_of(const MoveOf& what) const;
    void start_day();
    /// What the controller's own clock shows.
    [[nodiscard]] std::uint32_t clock_chip_s() const;
    [[nodiscard]] firmware::Inputs inputs();
    void run_controller();

    Scenario scenario_;
    std::vector<std::string> messages_;
    SkyFeed sky_;
    plant::WeatherSpan weather_{};
    plant::Plant plant_;
    plant::HouseholdState household_{};
    std::vector<plant::Draw> draws_;  // of today
    Wiring wiring_;
    bool pulse_meter_connected_ = true;
    ControllerBoard board_;
    std::array<plant::RandomStream, firmware::sensor_count> noise_{};
    firmware::HandRequest pump_hand_ = firmware::HandRequest::none;  // pressed since the last tick
    firmware::HandRequest backup_hand_ = firmware::HandRequest::none;
    std::size_t next_move_ = 0;
    std::vector<Slide> slides_;
    std::vector<std::size_t> moved_;
    std::vector<std::size_t> slid_home_;
    double pulse_rest_ = 0.0;  // part of a pulse that has flowed
    double tap_flow_kg_s_ = 0.0;
    double mains_c_ = 10.0;
    CivilSeconds now_ = 0;
};

}  // namespace noonbench::harness
