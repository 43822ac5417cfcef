// SPDX-License-Identifier: MIT
#include "minute_clouds.hpp"

#include "calendar.hpp"
#include "clouded_hour.hpp"
#include "random.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace noonbench::plant {
namespace {

constexpr CivilSeconds hour_s = 3600;

// Rough figures without source.
constexpr double least_clear_w_m2 = 50.0;
constexpr double overcast_below = 0.06;
constexpr double clear_above = 0.94;

// Linke turbidities of about 2 to 6 at the air mass of a middling sun.
constexpr double haziest = 0.70;
constexpr double cleanest = 1.15;
constexpr double usual_haze = 0.85;  // a day without a clear hour does not tell

struct Hour {
    SmoothHour smooth{};
    bool clouded = false;
    double sunny_share = 0.0;

    /// Of the clear beam; 0 where there is too little of that to tell.
    [[nodiscard]] double beam_share() const {
        return smooth.clear_mean_w_m2 >= least_clear_w_m2
                   ? smooth.beam_mean_w_m2 / smooth.clear_mean_w_m2
                   : 0.0;
    }
};

/// The hours of irradiance from the first that begins in the day to the last that ends in it.
std::vector<Hour> hours_of(const HourlySky& sky, const std::vector<SkyKnot>& knots) {
    const CivilSeconds day_start = knots.front().at_s;
    const CivilSeconds phase = sky.first_stamp_s + sky.sun_shift_s - hour_s / 2;
    const CivilSeconds first = ((phase % hour_s) + hour_s) % hour_s;
    std::vector<Hour> hours;
    std::size_t at = 0;
    while (knots[at].at_s < day_start + first) ++at;
    for (CivilSeconds end = day_start + first + hour_s; end < day_start + seconds_a_day;
         end += hour_s) {
        std::vector<SunnyKnot> inside;
        while (knots[at].at_s < end) inside.push_back(sunny_knot(sky.site, knots[at++]));
        inside.push_back(sunny_knot(sky.site, knots[at]));
        hours.push_back({smooth_hour(std::move(inside)), false, 0.0});
    }
    return hours;
}

/// What of the clear beam the day's air lets through between clouds. Hours of low sun do not vote:
/// through that much air a little less haze makes too great a difference.
double haze_of(const std::vector<Hour>& hours) {
    double brightest = 0.0;
    for (const Hour& hour : hours) brightest = std::max(brightest, hour.smooth.clear_mean_w_m2);
    double best = 0.0;
    for (const Hour& hour : hours) {
        if (hour.smooth.clear_mean_w_m2 >= 0.5 * brightest) {
            best = std::max(best, hour.beam_share());
        }
    }
    return best < haziest ? usual_haze : std::min(best, cleanest);
}

/// Where two hours meet: the last knot of one, the first of the other.
struct Border {
    SunnyKnot at{};
    double sun = 0.0;
    bool sunny_before = false;  // how the earlier hour ends
    bool sunny_after = false;   // how the later begins
};

class CloudedDay {
  public:
    CloudedDay(const CloudedHours& sky, CivilSeconds day_start_s)
        : site_(sky.hours.site),
          stream_(
              sub_stream(random_stream(sky.seed, "minute clouds"),
                         static_cast<std::uint64_t>(day_of_weather_year(date_of(day_start_s))))),
          smooth_(knots_of_day(sky.hours, day_start_s)),
          hours_(hours_of(sky.hours, smooth_)),
          haze_(haze_of(hours_)) {
        for (Hour& hour : hours_) {
            const double share = hour.beam_share() / haze_;
            hour.clouded = share >= overcast_below && share <= clear_above;
            // Both the gaps' beam and the clouds' count: share haze = s haze + (1 - s) under_cloud.
            hour.sunny_share = (share * haze_ - beam_under_cloud) / (haze_ - beam_under_cloud);
        }
    }

    /// An hour that fails stays smooth, which changes its neighbours' borders: all over again then.
    [[nodiscard]] std::vector<SkyKnot> knots() {
        std::vector<std::vector<SkyKnot>> laid;
        while (!lay(laid)) laid.clear();
        std::vector<SkyKnot> all;
        std::size_t next = 0;
        for (std::size_t i = 0; i < hours_.size(); ++i) {
            if (!hours_[i].clouded) continue;
            while (smooth_[next].at_s < laid[i].front().at_s) all.push_back(smooth_[next++]);
            while (smooth_[next].at_s < laid[i].back().at_s) ++next;
            // The border belongs to what follows, where it stands again.
            smooth_[next] = laid[i].back();
            all.insert(all.end(), laid[i].begin(), laid[i].end() - 1);
        }
        all.insert(all.end(), smooth_.begin() + static_cast<std::ptrdiff_t>(next), smooth_.end());
        return all;
    }

  private:
    /// False if an hour failed and has lost its clouds.
    [[nodiscard]] bool lay(std::vector<std::vector<SkyKnot>>& laid) {
        std::vector<Border> borders;
        for (std::size_t i = 0; i <= hours_.size(); ++i) borders.push_back(border(i));
        bool whole = true;
        for (std::size_t i = 0; i < hours_.size(); ++i) {
            laid.emplace_back();
            Hour& hour = hours_[i];
            if (!hour.clouded) continue;
            const Border& begin = borders[i];
            const Border& end = borders[i + 1];
            const CloudyHour clouds{hour.sunny_share, begin.sun, end.sun, begin.sunny_after,
                                    end.sunny_before};
            auto knots = with_passages(site_, hour.smooth, {clouds, haze_, begin.at, end.at},
                                       sub_stream(stream_, i));
            hour.clouded = knots.has_value();
            whole = whole && knots.has_value();
            if (knots) laid.back() = std::move(*knots);
        }
        return whole;
    }

    [[nodiscard]] Border border(std::size_t i) const {
        const Hour none;
        const Hour& before = i > 0 ? hours_[i - 1] : none;
        const Hour& after = i < hours_.size() ? hours_[i] : none;
        Border border;
        border.at = i > 0 ? before.smooth.knots.back() : after.smooth.knots.front();
        if (before.clouded && after.clouded) {
            const double share = 0.5 * (before.sunny_share + after.sunny_share);
            run_through(border, random_uniform(stream_, i) < share, share);
        } else {
            stay_smooth(border, before.beam_share(), after.beam_share());
        }
        return border;
    }

    /// Between two clouded hours a gap or a cloud lies on the border.
    void run_through(Border& border, bool sunny, double mean_sun) const {
        border.sunny_before = border.sunny_after = sunny;
        border.sun = sunny ? 1.0 : 0.0;
        SunnyKnot& at = border.at;
        at.knot.beam_normal_w_m2 =
            std::min((sunny ? haze_ : beam_under_cloud) * at.clear_normal_w_m2, at.outside_w_m2);
        at.knot.diffuse_horizontal_w_m2 *= cloud_diffuse_factor(border.sun, mean_sun);
    }

    /// Beside a smooth hour the border stays as it is; a clearer hour is met with the sun out.
    void stay_smooth(Border& border, double share_before, double share_after) const {
        const SunnyKnot& at = border.at;
        const double level =
            at.clear_normal_w_m2 > 0.0 ? at.knot.beam_normal_w_m2 / at.clear_normal_w_m2 : 0.0;
        border.sun = std::clamp((level - beam_under_cloud) / (haze_ - beam_under_cloud), 0.0, 1.0);
        border.sunny_before = share_after > share_before;
        border.sunny_after = share_before > share_after;
    }

    Site site_;
    RandomStream stream_;
    std::vector<SkyKnot> smooth_;
    std::vector<Hour> hours_;
    double haze_;
};

}  // namespace

std::vector<SkyKnot> knots_of_day(const CloudedHours& sky, CivilSeconds day_start_s) {
    return CloudedDay(sky, day_start_s).knots();
}

}  // namespace noonbench::plant
