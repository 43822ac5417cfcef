// SPDX-License-Identifier: MIT
#include "minute_clouds.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "calendar.hpp"
#include "clear_moment.hpp"
#include "cloud_passages.hpp"
#include "random.hpp"

namespace noonbench::plant {
namespace {

constexpr CivilSeconds hour_s = 3600;
constexpr double turbidity = 3.0;  // as for the shape of the smooth hours

// Rough figures without source, but for the diffuse, which is that of a clear day's cloud passage.
constexpr double least_clear_w_m2 = 50.0;
constexpr double overcast_below = 0.06;
constexpr double clear_above = 0.94;
constexpr double under_cloud = 0.02;  // of the clear beam
constexpr double cloud_diffuse_gain = 0.2;
constexpr double shift_allowed = 0.10;
constexpr int most_trials = 4;

// Linke turbidities of about 2 to 6 at the air mass of a middling sun.
constexpr double haziest = 0.70;
constexpr double cleanest = 1.15;
constexpr double usual_haze = 0.85;  // a day without a clear hour does not tell

/// A knot and the clear sun over it.
struct Instant {
    SkyKnot knot{};
    double sine = 0.0;  // of the apparent elevation, not below zero
    double clear_normal_w_m2 = 0.0;
    double outside_w_m2 = 0.0;

    [[nodiscard]] double beam_horizontal_w_m2() const { return knot.beam_normal_w_m2 * sine; }
    [[nodiscard]] double clear_horizontal_w_m2() const { return clear_normal_w_m2 * sine; }
};

Instant instant_of(const Site& site, const SkyKnot& knot) {
    const ClearMoment moment = clear_moment(site, turbidity, knot.at_s);
    return {knot, std::max(0.0, moment.cos_zenith), moment.sky.beam_normal_w_m2,
            moment.extraterrestrial_normal_w_m2};
}

double between(double a, double b, double share) {
    return a + share * (b - a);
}

SkyKnot between(const SkyKnot& a, const SkyKnot& b, CivilSeconds at_s) {
    const double share = static_cast<double>(at_s - a.at_s) / static_cast<double>(b.at_s - a.at_s);
    return {at_s,
            between(a.beam_normal_w_m2, b.beam_normal_w_m2, share),
            between(a.diffuse_horizontal_w_m2, b.diffuse_horizontal_w_m2, share),
            between(a.air_c, b.air_c, share),
            between(a.sky_c, b.sky_c, share),
            between(a.wind_m_s, b.wind_m_s, share)};
}

struct Hour {
    std::vector<Instant> smooth;  // both borders included
    double beam_mean_w_m2 = 0.0;  // on the horizontal, as the following
    double diffuse_mean_w_m2 = 0.0;
    double clear_mean_w_m2 = 0.0;
    bool clouded = false;
    double sunny_share = 0.0;

    /// Of the clear beam; 0 where there is too little of that to tell.
    [[nodiscard]] double beam_share() const {
        return clear_mean_w_m2 >= least_clear_w_m2 ? beam_mean_w_m2 / clear_mean_w_m2 : 0.0;
    }
};

void take_means(Hour& hour) {
    for (std::size_t i = 1; i < hour.smooth.size(); ++i) {
        const Instant& a = hour.smooth[i - 1];
        const Instant& b = hour.smooth[i];
        const double half = static_cast<double>(b.knot.at_s - a.knot.at_s) / (2.0 * hour_s);
        hour.beam_mean_w_m2 += half * (a.beam_horizontal_w_m2() + b.beam_horizontal_w_m2());
        hour.diffuse_mean_w_m2 +=
            half * (a.knot.diffuse_horizontal_w_m2 + b.knot.diffuse_horizontal_w_m2);
        hour.clear_mean_w_m2 += half * (a.clear_horizontal_w_m2() + b.clear_horizontal_w_m2());
    }
}

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
        Hour hour;
        while (knots[at].at_s < end) hour.smooth.push_back(instant_of(sky.site, knots[at++]));
        hour.smooth.push_back(instant_of(sky.site, knots[at]));
        take_means(hour);
        hours.push_back(std::move(hour));
    }
    return hours;
}

/// What of the clear beam the day's air lets through between clouds. Hours of low sun do not vote:
/// through that much air a little less haze makes too great a difference.
double haze_of(const std::vector<Hour>& hours) {
    double brightest = 0.0;
    for (const Hour& hour : hours) brightest = std::max(brightest, hour.clear_mean_w_m2);
    double best = 0.0;
    for (const Hour& hour : hours) {
        if (hour.clear_mean_w_m2 >= 0.5 * brightest) best = std::max(best, hour.beam_share());
    }
    return best < haziest ? usual_haze : std::min(best, cleanest);
}

/// Where two hours meet: the later knot of one, the first of the other.
struct Border {
    Instant instant{};
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
            hour.sunny_share = (share - under_cloud) / (1.0 - under_cloud);
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
            const CivilSeconds begin = laid[i].front().at_s;
            const CivilSeconds end = laid[i].back().at_s;
            while (smooth_[next].at_s < begin) all.push_back(smooth_[next++]);
            while (smooth_[next].at_s < end) ++next;
            // The border's last second belongs to what follows, where it stands again.
            smooth_[next] = laid[i].back();
            all.insert(all.end(), laid[i].begin(), laid[i].end() - 1);
        }
        all.insert(all.end(), smooth_.begin() + static_cast<std::ptrdiff_t>(next), smooth_.end());
        return all;
    }

  private:
    [[nodiscard]] bool lay(std::vector<std::vector<SkyKnot>>& laid) {
        std::vector<Border> borders;
        for (std::size_t i = 0; i <= hours_.size(); ++i) borders.push_back(border(i));
        bool whole = true;
        for (std::size_t i = 0; i < hours_.size(); ++i) {
            laid.emplace_back();
            if (!hours_[i].clouded) continue;
            auto knots = lay_hour(i, borders[i], borders[i + 1]);
            hours_[i].clouded = knots.has_value();
            whole = whole && knots.has_value();
            if (knots) laid.back() = std::move(*knots);
        }
        return whole;
    }

    [[nodiscard]] double gap_beam(const Instant& instant) const {
        return std::min(haze_ * instant.clear_normal_w_m2, instant.outside_w_m2);
    }

    /// Beside a smooth hour the border stays as it is, and a clearer one is met with the sun out;
    /// between two clouded hours a gap or a cloud runs through.
    [[nodiscard]] Border border(std::size_t i) const {
        const Hour none;
        const Hour& before = i > 0 ? hours_[i - 1] : none;
        const Hour& after = i < hours_.size() ? hours_[i] : none;
        Border border;
        border.instant = i > 0 ? before.smooth.back() : after.smooth.front();
        SkyKnot& knot = border.instant.knot;
        if (before.clouded && after.clouded) {
            const double share = 0.5 * (before.sunny_share + after.sunny_share);
            const bool sunny = random_uniform(stream_, i) < share;
            border.sunny_before = border.sunny_after = sunny;
            border.sun = sunny ? 1.0 : 0.0;
            knot.beam_normal_w_m2 =
                sunny ? gap_beam(border.instant) : under_cloud * border.instant.clear_normal_w_m2;
            knot.diffuse_horizontal_w_m2 *= diffuse_factor(border.sun, share);
            return border;
        }
        const double span = haze_ - under_cloud;
        const double level = border.instant.clear_normal_w_m2 > 0.0
                                 ? knot.beam_normal_w_m2 / border.instant.clear_normal_w_m2
                                 : 0.0;
        border.sun = std::clamp((level - under_cloud) / span, 0.0, 1.0);
        border.sunny_before = after.beam_share() > before.beam_share();
        border.sunny_after = before.beam_share() > after.beam_share();
        return border;
    }

    [[nodiscard]] static double diffuse_factor(double sun, double mean_sun) {
        return 1.0 + cloud_diffuse_gain * (mean_sun - sun);
    }

    /// The hour's knots, both borders included.
    [[nodiscard]] std::optional<std::vector<SkyKnot>> lay_hour(std::size_t i, const Border& begin,
                                                               const Border& end) const {
        const Hour& hour = hours_[i];
        CloudyHour wanted{hour.sunny_share, begin.sun, end.sun, begin.sunny_after,
                          end.sunny_before};
        const RandomStream own = sub_stream(stream_, i);
        for (int trial = 0; trial < most_trials; ++trial) {
            Drawn drawn = draw(hour, draw_passages(wanted, own), begin, end);
            const double beam = beam_in_gaps(hour, drawn);
            if (std::abs(beam / haze_ - 1.0) <= shift_allowed && fill(hour, drawn, beam)) {
                return std::move(drawn.knots);
            }
            wanted.sunny_share =
                std::clamp(wanted.sunny_share * std::clamp(beam / haze_, 0.5, 2.0), 0.0, 1.0);
        }
        return std::nullopt;
    }

    /// An hour in the making, by knots.
    struct Drawn {
        std::vector<SkyKnot> knots;
        std::vector<Instant> instants;
        std::vector<double> sun;
        std::vector<double> weight;  // in the hour's mean
    };

    [[nodiscard]] Drawn draw(const Hour& hour, const std::vector<SunBend>& bends,
                             const Border& begin, const Border& end) const {
        const CivilSeconds start = hour.smooth.front().knot.at_s;
        std::vector<CivilSeconds> times;
        for (const Instant& instant : hour.smooth) times.push_back(instant.knot.at_s);
        for (const SunBend& bend : bends) times.push_back(start + bend.second);
        std::sort(times.begin(), times.end());
        times.erase(std::unique(times.begin(), times.end()), times.end());

        Drawn drawn;
        std::size_t piece = 1;
        std::size_t bend = 1;
        for (const CivilSeconds at : times) {
            while (hour.smooth[piece].knot.at_s < at) ++piece;
            while (start + bends[bend].second < at) ++bend;
            const SkyKnot knot = between(hour.smooth[piece - 1].knot, hour.smooth[piece].knot, at);
            const auto done = static_cast<double>(at - start - bends[bend - 1].second);
            const auto whole = static_cast<double>(bends[bend].second - bends[bend - 1].second);
            drawn.sun.push_back(between(bends[bend - 1].sun, bends[bend].sun, done / whole));
            drawn.instants.push_back(instant_of(site_, knot));
        }
        drawn.instants.front() = begin.instant;
        drawn.instants.back() = end.instant;
        for (std::size_t k = 0; k < times.size(); ++k) {
            const CivilSeconds before = times[k > 0 ? k - 1 : k];
            const CivilSeconds after = times[k + 1 < times.size() ? k + 1 : k];
            drawn.weight.push_back(static_cast<double>(after - before) / (2.0 * hour_s));
        }
        return drawn;
    }

    /// The share of the clear beam in the gaps that gives the hour its mean: the borders and the
    /// clouds are given, the rest is for the gaps to carry.
    [[nodiscard]] static double beam_in_gaps(const Hour& hour, const Drawn& drawn) {
        const std::size_t last = drawn.instants.size() - 1;
        double given = drawn.weight[0] * drawn.instants[0].beam_horizontal_w_m2() +
                       drawn.weight[last] * drawn.instants[last].beam_horizontal_w_m2();
        double open = 0.0;
        for (std::size_t k = 1; k < last; ++k) {
            const double clear = drawn.weight[k] * drawn.instants[k].clear_horizontal_w_m2();
            given += under_cloud * (1.0 - drawn.sun[k]) * clear;
            open += drawn.sun[k] * clear;
        }
        return open > 0.0 ? (hour.beam_mean_w_m2 - given) / open : 0.0;
    }

    /// Puts beam and diffuse into the knots. False where the beam would exceed the extraterrestrial
    /// or the borders leave too little diffuse for the rest.
    [[nodiscard]] static bool fill(const Hour& hour, Drawn& drawn, double beam_in_gaps) {
        const std::size_t last = drawn.instants.size() - 1;
        double rest = hour.diffuse_mean_w_m2;
        double shape = 0.0;
        for (std::size_t k = 0; k <= last; ++k) {
            Instant& instant = drawn.instants[k];
            double& diffuse = instant.knot.diffuse_horizontal_w_m2;
            if (k == 0 || k == last) {
                rest -= drawn.weight[k] * diffuse;
                continue;
            }
            const double level = between(under_cloud, beam_in_gaps, drawn.sun[k]);
            instant.knot.beam_normal_w_m2 = level * instant.clear_normal_w_m2;
            if (instant.knot.beam_normal_w_m2 > instant.outside_w_m2) return false;
            diffuse *= diffuse_factor(drawn.sun[k], hour.sunny_share);
            shape += drawn.weight[k] * diffuse;
        }
        const double scale = shape > 0.0 ? rest / shape : 1.0;
        if (scale < 0.5 || scale > 2.0) return false;
        for (std::size_t k = 0; k <= last; ++k) {
            SkyKnot& knot = drawn.instants[k].knot;
            if (k > 0 && k < last) knot.diffuse_horizontal_w_m2 *= scale;
            drawn.knots.push_back(knot);
        }
        return true;
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
