// SPDX-License-Identifier: MIT
// Many seconds of the bench at once. The plant strides as far as weather, household and moves
// allow; along the stride's course the controller runs its ticks, those that are promised to be
// quiet in one go. Where it does something else the stride is cut there and taken again, so the
// plant never goes on under orders that no longer stand.
#include "bands.hpp"
#include "bench.hpp"
#include "clock.hpp"
#include "wires.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

constexpr int ticks_before_asking_again = 8;
constexpr int near_ticks = 16;  // where nothing is promised for the whole stride
constexpr CivilSeconds saving_every_s = 3600;

}  // namespace

int Bench::longest_stride(CivilSeconds until) const {
    const bool counts_flow = wiring_.pulse_meter.fitted && pulse_meter_connected_;
    if (!slides_.empty() || counts_flow) return 1;
    CivilSeconds end =
        std::min({until, weather_.to.at_s, day_start(now_) + plant::seconds_a_day,
                  household_.running ? now_ + plant::full_ticks_left(household_)
                                     : plant::next_opening_s(household_, draws_, now_ + 1)});
    if (next_move_ < scenario_.moves.size()) end = std::min(end, scenario_.moves[next_move_].at_s);
    return static_cast<int>(std::max<CivilSeconds>(1, end - now_));
}

/// 0: the tick itself has to be run, for the firmware's clock or timers or to save its memory.
int Bench::ticks_until_due(const ControllerBoard& board, int tick) const {
    const CivilSeconds at = now_ + tick;
    const auto since_saving = static_cast<int>((at - scenario_.start_s) % saving_every_s);
    if (since_saving == 0) return 0;
    const firmware::Ticks due =
        firmware::due_at(board.settings, board.state, clock_chip_s(at), clock_is_set());
    return std::min(static_cast<int>(saving_every_s) - since_saving,
                    static_cast<int>(due.count - board.state.now.count));
}

int Bench::quiet_ticks(const ControllerBoard& board, const plant::SensorCourse& course, int tick,
                       int end) const {
    for (const int reach : {end - tick, near_ticks}) {
        if (reach > end - tick) break;
        firmware::Bands bands = bands_of(wiring_, course.part(tick, tick + reach - 1));
        include(bands, board.state);
        bands.clock_s = clock_chip_s(now_ + tick);
        bands.clock_is_set = clock_is_set();
        if (firmware::stays_quiet(board.settings, board.state, bands)) return reach;
    }
    return 0;
}

void Bench::pass_quiet(ControllerBoard& board, const plant::SensorCourse& course, int tick,
                       int ticks) const {
    std::array<firmware::Inputs, firmware::quiet_window> last{};
    const int count = std::min(ticks, static_cast<int>(last.size()));
    for (int k = 0; k < count; ++k) {
        const int at = tick + ticks - count + k;
        last[static_cast<std::size_t>(k)] = inputs_at(now_ + at, course.at(at));
    }
    firmware::pass_quiet(board.settings, board.state, static_cast<std::uint32_t>(ticks),
                         last.data(), static_cast<std::size_t>(count));
}

void Bench::run_tick(ControllerBoard& board, const plant::SensorCourse& course, int tick) const {
    const CivilSeconds at = now_ + tick;
    run_board(board, inputs_at(at, course.at(tick)),
              (at - scenario_.start_s) % saving_every_s == 0);
}

int Bench::run_along(ControllerBoard& board, const plant::SensorCourse& course, int first, int end,
                     Passing passing) {
    const bool clock_jumps = scenario_.controller.clock.drift_s_per_day != 0.0;
    const bool skips = passing == Passing::skipping && !clock_jumps;
    int singly = 0;
    told_.clear();
    for (int tick = first; tick < end;) {
        if (skips && singly == 0 && board.powered) {
            const int due = ticks_until_due(board, tick);
            const int quiet =
                due > 0 ? quiet_ticks(board, course, tick, std::min(end, tick + due)) : 0;
            if (quiet > 0) {
                pass_quiet(board, course, tick, quiet);
                tick += quiet;
                continue;
            }
            singly = due > 0 ? ticks_before_asking_again : 1;
        }
        singly = std::max(0, singly - 1);
        const firmware::Outputs before = board.outputs;
        if (board.powered) run_tick(board, course, tick);
        if (!acts_alike(before, board.outputs)) return tick;
        if (passing == Passing::every_tick) told_.push_back(board.outputs);
        ++tick;
    }
    return end;
}

/// The household's ticks along the stride; ends where the tap would be turned.
int Bench::live_along(plant::HouseholdState& household, const plant::StrideReport& report) const {
    if (!household.running) return report.seconds;
    for (int second = 1; second <= report.seconds; ++second) {
        const CivilSeconds at = now_ + second - 1;
        if (second > 1 &&
            plant::begin_tick(household, draws_, at) + hand_drawn_kg_s() != tap_flow_kg_s_) {
            return second - 1;
        }
        const plant::StepReport did = plant::second_within(plant_, report, second);
        book_draw(household, tap_flow_kg_s_, did.delivered_c, did.delivered_energy_j);
    }
    return report.seconds;
}

/// Ticks that were run one by one have left their outputs; others are run once more, up to each
/// that is to be shown.
void Bench::show_ticks(const plant::StrideReport& report, const InBetween& between) {
    const CivilSeconds from = now_;
    const std::vector<firmware::Outputs> told = between.passing == Passing::every_tick
                                                    ? std::move(told_)
                                                    : std::vector<firmware::Outputs>{};
    const std::int64_t to_first = between.every_s - (from - scenario_.start_s) % between.every_s;
    if (to_first >= report.seconds) return;
    const plant::Plant at_end = plant_;
    int next = 1;  // first tick that the board has not run
    for (std::int64_t shown = to_first; shown < report.seconds; shown += between.every_s) {
        const auto tick = static_cast<int>(shown);
        if (told.empty()) {
            run_along(board_, report.sensors, next, tick, between.passing);
            if (board_.powered) run_tick(board_, report.sensors, tick);
            next = tick + 1;
        } else {
            board_.outputs = told[static_cast<std::size_t>(tick - 1)];
        }
        plant::show_within(plant_, report, tick);
        now_ = from + tick;
        between.show(*this);
        now_ = from;
    }
    plant_ = at_end;
}

int Bench::stride(CivilSeconds until, const InBetween& between) {
    int most = longest_stride(until);
    if (most == 1) {
        advance();
        return 1;
    }
    const plant::Plant before = plant_;
    for (;;) {
        const plant::StrideReport report =
            plant::stride(plant_, weather_, now_, actions(), tap_flow_kg_s_, most);
        ControllerBoard board = board_;
        plant::HouseholdState household = household_;
        most = std::min(run_along(board, report.sensors, 1, report.seconds, between.passing),
                        live_along(household, report));
        if (most < report.seconds) {
            plant_ = before;  // something changes on the way: once more, to there
            continue;
        }
        moved_.clear();
        slid_home_.clear();
        if (between.every_s > 0) show_ticks(report, between);
        board_ = board;
        household_ = household;
        now_ += report.seconds;
        return report.seconds;
    }
}

}  // namespace noonbench::harness
