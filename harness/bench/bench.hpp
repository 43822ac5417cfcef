// SPDX-License-Identifier: MIT
// The loop of time. One tick, in its written order:
//   moves due now -> sensors to counts -> controller -> tap -> plant for one second
// and where nothing can change, many ticks in one stride.
// The bench owns time as an integer. Everything here is a value: copy a Bench and the world forks.
#pragma once
#include "board.hpp"
#include "sky_feed.hpp"

#include "plant/draw.hpp"
#include "plant/household.hpp"
#include "plant/plant.hpp"
#include "plant/random.hpp"
#include "plant/stride.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// A number that slides from one value to another, moved by a scenario's move.
struct Slide {
    std::size_t move = 0;  // index into Scenario::moves
    double from = 0.0;
};

class Bench;

/// How the controller passes the ticks of a stride; what it does is the same to the last byte.
enum class Passing : std::uint8_t {
    skipping,   // ticks on which nothing can change are passed in one go
    every_tick  // one after the other
};

/// What is to be seen of the ticks between two decisions.
struct InBetween {
    std::int64_t every_s = 0;  // ticks at multiples of it, counted from the run's start; 0: none
    std::function<void(const Bench&)> show;  // as after decide(); must be there if every_s is
    Passing passing = Passing::skipping;
};

class Bench {
  public:
    /// Throws InputRefused for what can only be seen now (a weather file), std::invalid_argument
    /// for parameters that make no plant.
    explicit Bench(const Scenario& scenario) : Bench(scenario, SkyFeed(scenario)) {}
    /// The same under a sky that was made of the same scenario before, whenever that began.
    Bench(const Scenario& scenario, const SkyFeed& sky);

    /// What happens at the instant `now()`: moves, sensors, controller, tap.
    void decide();
    /// Carries the plant from `now()` to `now()` + 1 on what was decided.
    void advance();
    void tick() {
        decide();
        advance();
    }
    /// In place of advance(): over as many seconds as nothing outside changes, nobody turns the
    /// tap and the controller goes on doing the same, at most to `until`. Returns how many.
    int stride(CivilSeconds until, const InBetween& between = {});

    /// One more move, as if it had stood in the scenario from the start; at now() or later, and not
    /// at an instant that was decided already. Moves of one instant are made in order of adding.
    void add(const Move& move);
    /// Takes back what add() brought for later than `after`; scenario and copies of it keep theirs.
    void forget_added(CivilSeconds after);

    [[nodiscard]] CivilSeconds now() const { return now_; }
    [[nodiscard]] const Scenario& scenario() const { return scenario_; }
    [[nodiscard]] const firmware::Outputs& outputs() const { return board_.outputs; }
    [[nodiscard]] const firmware::Settings& settings() const { return board_.settings; }
    /// How pump and backup are set by hand: automatic, on or off.
    [[nodiscard]] std::array<firmware::HandRequest, 2> hands() const {
        return {board_.state.pump.hand, board_.state.backup.hand};
    }
    [[nodiscard]] bool controller_powered() const { return board_.powered; }
    [[nodiscard]] const plant::Plant& plant() const { return plant_; }
    [[nodiscard]] const plant::WeatherSpan& weather() const { return weather_; }
    [[nodiscard]] const plant::HouseholdState& household() const { return household_; }
    [[nodiscard]] double tap_flow_kg_s() const { return tap_flow_kg_s_; }
    [[nodiscard]] double mains_c() const { return mains_c_; }
    [[nodiscard]] const Wiring& wiring() const { return wiring_; }
    /// What the controller's converter counts at this instant.
    [[nodiscard]] std::array<std::uint16_t, firmware::sensor_count> counts() const {
        return inputs_at(now_, plant::readings(plant_)).counts;
    }
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
    [[nodiscard]] std::uint32_t clock_chip_s(CivilSeconds at) const;
    [[nodiscard]] std::uint8_t clock_is_set() const { return scenario_.controller.clock.is_set; }
    /// Of the sensors and the clock alone.
    [[nodiscard]] firmware::Inputs inputs_at(CivilSeconds at, const plant::Readings& sensors) const;
    [[nodiscard]] firmware::Inputs inputs();
    [[nodiscard]] plant::Actions actions() const;
    /// Drawn by hand beside the household.
    [[nodiscard]] double hand_drawn_kg_s() const { return plant_.levers.open_tap / 60.0; }
    void book_draw(plant::HouseholdState& household, double mass_kg, double temperature_c,
                   double energy_j) const;

    [[nodiscard]] int longest_stride(CivilSeconds until) const;
    // Ticks count in seconds from now(), along a stride's course.
    [[nodiscard]] int ticks_until_due(const ControllerBoard& board, int tick) const;
    [[nodiscard]] int quiet_ticks(const ControllerBoard& board, const plant::SensorCourse& course,
                                  int tick, int end) const;
    void pass_quiet(ControllerBoard& board, const plant::SensorCourse& course, int tick,
                    int ticks) const;
    void run_tick(ControllerBoard& board, const plant::SensorCourse& course, int tick) const;
    /// Runs ticks `first` to `end` - 1; stops at the first on which the board acts otherwise and
    /// returns it, else `end`.
    int run_along(ControllerBoard& board, const plant::SensorCourse& course, int first, int end,
                  Passing passing);
    int live_along(plant::HouseholdState& household, const plant::StrideReport& report) const;
    void show_ticks(const plant::StrideReport& report, const InBetween& between);

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
    std::vector<firmware::Outputs> told_;  // by the ticks of run_along(), where each was run
};

}  // namespace noonbench::harness
