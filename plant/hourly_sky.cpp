// SPDX-License-Identifier: MIT
#include "hourly_sky.hpp"

#include "calendar.hpp"
#include "clear_sky.hpp"
#include "sun.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <utility>

namespace noonbench::plant {
namespace {

constexpr CivilSeconds hour_s = 3600;
constexpr std::size_t steps = 6;  // knots an hour while there is light
constexpr CivilSeconds step_s = hour_s / static_cast<CivilSeconds>(steps);

/// A record put into a place of time.
struct Slot {
    CivilSeconds begin_s = 0;  // of the hour whose mean the irradiance is
    CivilSeconds stamp_s = 0;
    const SkyHour* record = nullptr;
    double beam_w_m2 = 0.0;  // on the horizontal
    double diffuse_w_m2 = 0.0;
};

void check(const HourlySky& sky) {
    constexpr std::size_t records = std::size_t{days_a_weather_year} * 24;
    if (sky.hours.size() != records) {
        throw std::invalid_argument("hourly sky: " + std::to_string(sky.hours.size()) +
                                    " records instead of " + std::to_string(records));
    }
    if (std::abs(sky.first_stamp_s) > seconds_a_day || std::abs(sky.sun_shift_s) > 2 * hour_s) {
        throw std::invalid_argument("hourly sky: first_stamp_s " +
                                    std::to_string(sky.first_stamp_s) + ", sun_shift_s " +
                                    std::to_string(sky.sun_shift_s));
    }
}

Slot slot_at(const HourlySky& sky, CivilSeconds record_time_s) {
    const auto day = static_cast<std::size_t>(day_of_weather_year(date_of(record_time_s)));
    const auto hour =
        static_cast<std::size_t>((record_time_s - midnight_before(record_time_s)) / hour_s);
    Slot slot;
    slot.record = &sky.hours[24 * day + hour];
    slot.stamp_s = record_time_s + sky.first_stamp_s;
    slot.begin_s = slot.stamp_s + sky.sun_shift_s - hour_s / 2;
    const double global = std::max(0.0, slot.record->global_horizontal_w_m2);
    slot.diffuse_w_m2 = std::clamp(slot.record->diffuse_horizontal_w_m2, 0.0, global);
    slot.beam_w_m2 = global - slot.diffuse_w_m2;
    return slot;
}

/// The day's records and at least two more on either side, since neighbours shape each other.
std::vector<Slot> slots_around(const HourlySky& sky, CivilSeconds day_start_s) {
    const CivilSeconds reach = std::abs(sky.sun_shift_s) + 4 * hour_s;
    const CivilSeconds first = midnight_before(day_start_s - sky.first_stamp_s - reach);
    std::vector<Slot> slots;
    for (CivilSeconds at = first; at + sky.first_stamp_s < day_start_s + seconds_a_day + reach;
         at += hour_s) {
        if (at + sky.first_stamp_s >= day_start_s - reach) slots.push_back(slot_at(sky, at));
    }
    return slots;
}

/// What shapes the hours: relative weights on the horizontal at the points of time
/// slots[i].begin_s + j step_s, number i * steps + j.
struct Shapes {
    std::vector<double> beam, diffuse;
    std::vector<double> most_scale;  // of the beam, so that it stays below the extraterrestrial
};

struct PointShape {
    double beam = 0.0, diffuse = 0.0, most_scale = 1e300;
};

PointShape shape_at(const Site& site, CivilSeconds at_s) {
    const SunPosition sun = sun_position(site, static_cast<double>(at_s));
    const double elevation = sun.apparent_elevation_rad;
    PointShape shape;
    // A little diffuse from civil twilight on, when the sun is at most 6 degrees down.
    constexpr double six_degrees = 0.10472;
    shape.diffuse = 0.02 * std::clamp(1.0 + elevation / six_degrees, 0.0, 1.0);
    if (elevation <= 0.0) return shape;
    const double sine = std::sin(elevation);
    const double outside = extraterrestrial_normal_w_m2(sun.distance_au);
    const double air_mass =
        relative_air_mass(elevation) * standard_pressure_pa(site.elevation_m) / 101325.0;
    const double clear =
        clear_sky({3.0, site.elevation_m}, sine, air_mass, outside).beam_normal_w_m2;
    shape.diffuse += sine;
    shape.beam = clear * sine;
    if (clear > 0.0) shape.most_scale = outside / clear;
    return shape;
}

/// Only where there is light: a point inside or at the border of an hour with irradiance.
Shapes shapes_of(const Site& site, const std::vector<Slot>& slots) {
    const std::size_t points = slots.size() * steps + 1;
    Shapes shapes{std::vector<double>(points), std::vector<double>(points),
                  std::vector<double>(slots.size(), 0.0)};
    for (std::size_t i = 0; i < slots.size(); ++i) {
        if (slots[i].beam_w_m2 + slots[i].diffuse_w_m2 <= 0.0) continue;
        double most_scale = 1e300;
        double inside = 0.0;
        for (std::size_t j = 0; j <= steps; ++j) {
            const CivilSeconds at = slots[i].begin_s + static_cast<CivilSeconds>(j) * step_s;
            const PointShape point = shape_at(site, at);
            shapes.beam[i * steps + j] = point.beam;
            shapes.diffuse[i * steps + j] = point.diffuse;
            most_scale = std::min(most_scale, point.most_scale);
            if (j > 0 && j < steps) inside += point.diffuse;
        }
        shapes.most_scale[i] = most_scale;
        // Light in the dead of night: the record has it, so it is kept, spread evenly.
        if (inside < 1e-3) {
            for (std::size_t j = 1; j < steps; ++j) shapes.diffuse[i * steps + j] = 1.0;
        }
    }
    return shapes;
}

double weighted(const std::vector<double>& shape, std::size_t slot, std::size_t from,
                std::size_t to) {
    double sum = 0.0;
    for (std::size_t j = from; j <= to; ++j) {
        const bool border = j == 0 || j == steps;
        sum += (border ? 0.5 : 1.0) * shape[slot * steps + j];
    }
    return sum / static_cast<double>(steps);
}

/// For each hour the factor on its shape, as if it stood alone.
std::vector<double> scales_alone(const std::vector<double>& means, const std::vector<double>& shape,
                                 const std::vector<double>& most) {
    std::vector<double> scales(means.size(), 0.0);
    for (std::size_t i = 0; i < means.size(); ++i) {
        const double weight = weighted(shape, i, 0, steps);
        if (means[i] > 0.0 && weight > 0.0) scales[i] = std::min(means[i] / weight, most[i]);
    }
    return scales;
}

/// The line of light: values at all points, and what an hour could not carry.
struct Light {
    std::vector<double> values;
    std::vector<double> left_over;  // W/m2, hour's mean
};

/// At a border the lower of both hours' scales holds, so that no hour leaks into a darker one;
/// inside the hour the scale makes up for it.
Light light_of(const std::vector<double>& means, const std::vector<double>& shape,
               const std::vector<double>& most) {
    const std::vector<double> alone = scales_alone(means, shape, most);
    Light light{std::vector<double>(shape.size(), 0.0), std::vector<double>(means.size(), 0.0)};
    for (std::size_t i = 0; i + 1 < means.size(); ++i) {
        light.values[(i + 1) * steps] = std::min(alone[i], alone[i + 1]) * shape[(i + 1) * steps];
    }
    for (std::size_t i = 0; i < means.size(); ++i) {
        const double borders =
            (light.values[i * steps] + light.values[(i + 1) * steps]) * 0.5 / steps;
        const double inside = weighted(shape, i, 1, steps - 1);
        const double wanted = std::max(0.0, means[i] - borders);
        const double scale = inside > 0.0 ? std::min(wanted / inside, most[i]) : 0.0;
        for (std::size_t j = 1; j < steps; ++j) {
            light.values[i * steps + j] = scale * shape[i * steps + j];
        }
        light.left_over[i] = std::max(0.0, wanted - scale * inside);
    }
    return light;
}

/// All that lies on straight lines between the points and the stamps.
struct Lines {
    std::vector<Slot> slots;
    std::vector<double> beam, diffuse;  // on the horizontal
};

Lines lines_around(const HourlySky& sky, CivilSeconds day_start_s) {
    Lines lines{slots_around(sky, day_start_s), {}, {}};
    const Shapes shapes = shapes_of(sky.site, lines.slots);
    std::vector<double> beam_means;
    std::vector<double> diffuse_means;
    for (const Slot& slot : lines.slots) {
        beam_means.push_back(slot.beam_w_m2);
        diffuse_means.push_back(slot.diffuse_w_m2);
    }
    Light beam = light_of(beam_means, shapes.beam, shapes.most_scale);
    for (std::size_t i = 0; i < diffuse_means.size(); ++i) diffuse_means[i] += beam.left_over[i];
    const std::vector<double> no_limit(diffuse_means.size(), 1e300);
    lines.beam = std::move(beam.values);
    lines.diffuse = light_of(diffuse_means, shapes.diffuse, no_limit).values;
    return lines;
}

std::vector<CivilSeconds> times_of(const Lines& lines, CivilSeconds day_start_s) {
    std::vector<CivilSeconds> times{day_start_s};
    for (std::size_t i = 0; i < lines.slots.size(); ++i) {
        const Slot& slot = lines.slots[i];
        const bool lit = slot.beam_w_m2 + slot.diffuse_w_m2 > 0.0;
        times.push_back(slot.stamp_s);
        times.push_back(slot.begin_s);
        for (std::size_t j = 1; lit && j < steps; ++j) {
            times.push_back(slot.begin_s + static_cast<CivilSeconds>(j) * step_s);
        }
    }
    std::erase_if(times, [&](CivilSeconds at) {
        return at < day_start_s || at >= day_start_s + seconds_a_day;
    });
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

/// `share` of the way from a to b.
double between(double a, double b, double share) {
    return a + share * (b - a);
}

SkyKnot knot_at(const Site& site, const Lines& lines, CivilSeconds at_s) {
    SkyKnot knot;
    knot.at_s = at_s;
    const CivilSeconds since_stamp = at_s - lines.slots.front().stamp_s;
    const auto i = static_cast<std::size_t>(since_stamp / hour_s);
    const double part = static_cast<double>(since_stamp % hour_s) / static_cast<double>(hour_s);
    const SkyHour& before = *lines.slots[i].record;
    const SkyHour& after = *lines.slots[i + 1].record;
    knot.air_c = between(before.air_c, after.air_c, part);
    knot.sky_c = between(before.sky_c, after.sky_c, part);
    knot.wind_m_s = between(before.wind_m_s, after.wind_m_s, part);

    const CivilSeconds since_begin = at_s - lines.slots.front().begin_s;
    const auto point = static_cast<std::size_t>(since_begin / step_s);
    const double share = static_cast<double>(since_begin % step_s) / static_cast<double>(step_s);
    knot.diffuse_horizontal_w_m2 = between(lines.diffuse[point], lines.diffuse[point + 1], share);
    const double beam = between(lines.beam[point], lines.beam[point + 1], share);
    if (beam <= 0.0) return knot;
    const SunPosition sun = sun_position(site, static_cast<double>(at_s));
    const double sine = std::sin(sun.apparent_elevation_rad);
    const double outside = extraterrestrial_normal_w_m2(sun.distance_au);
    // A stamp between two points can meet a sun not yet risen: then the beam waits for the next.
    knot.beam_normal_w_m2 = sine > 0.0 ? std::min(beam / sine, outside) : 0.0;
    return knot;
}

}  // namespace

std::vector<SkyKnot> knots_of_day(const HourlySky& sky, CivilSeconds day_start_s) {
    check(sky);
    const Lines lines = lines_around(sky, day_start_s);
    std::vector<SkyKnot> knots;
    for (const CivilSeconds at : times_of(lines, day_start_s)) {
        knots.push_back(knot_at(sky.site, lines, at));
    }
    return knots;
}

}  // namespace noonbench::plant
