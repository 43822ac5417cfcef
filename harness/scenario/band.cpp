// SPDX-License-Identifier: MIT
#include "band.hpp"

#include "compose.hpp"
#include "key_lookup.hpp"
#include "move_text.hpp"
#include "quantity_text.hpp"
#include "setting_text.hpp"

#include "plant/calendar.hpp"
#include "plant/levers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

namespace noonbench::harness {

namespace {

/// Wide enough that a band has some hundred values, so coarse that none needs more figures than
/// its ends and two more.
double step_for(double width) {
    return std::pow(10.0, std::floor(std::log10(width / 200.0)));
}

std::string number_text(double value, double step) {
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

/// What its ends say and how they are to be read.
class BandReader {
  public:
    BandReader(const Uncertain& uncertain, std::vector<Objection>& objections)
        : uncertain_(uncertain), objections_(objections) {}

    std::optional<Band> read() {
        band_.least_text = uncertain_.least;
        band_.most_text = uncertain_.most;
        const bool is_read = uncertain_.lever.empty() ? read_key() : read_lever();
        if (!is_read) return std::nullopt;
        if (band_.least < band_.most) return band_;
        return complain(uncertain_.most_place, in_quotes(uncertain_.most) + " is not above least",
                        "more than " + uncertain_.least),
               std::nullopt;
    }

  private:
    bool complain(const Place& place, std::string what, std::string allowed) {
        objections_.push_back({std::move(what), std::move(allowed), place});
        return false;
    }

    /// Both ends by the same reading; `end` is where the number goes.
    template <class Parse>
    bool read_ends(Parse parse) {
        bool good = true;
        for (const bool at_least : {true, false}) {
            const auto parsed = parse(at_least ? uncertain_.least : uncertain_.most);
            const Place& place = at_least ? uncertain_.least_place : uncertain_.most_place;
            if (!parsed.value)
                good = complain(place, parsed.what, parsed.allowed);
            else
                (at_least ? band_.least : band_.most) = static_cast<double>(*parsed.value);
        }
        return good;
    }

    bool read_lever() {
        const plant::LeverInfo* lever = plant::find_lever(uncertain_.lever);
        if (lever == nullptr) {
            std::vector<std::string_view> names;
            names.reserve(plant::lever_table.size());
            for (const plant::LeverInfo& each : plant::lever_table) names.push_back(each.name);
            return complain_unknown("lever", uncertain_.lever,
                                    std::string(nearest_word(uncertain_.lever, names)),
                                    "`noonbench list levers`");
        }
        if (lever->unit == "switch")
            return complain(uncertain_.place,
                            in_quotes(uncertain_.lever) + " is a switch and has no band",
                            "levers that are numbers");
        const bool is_share = uncertain_.least.ends_with('%');
        if (is_share != uncertain_.most.ends_with('%'))
            return complain(uncertain_.most_place, "least and most are written in two units",
                            "% at both or at neither");
        band_.unit = is_share ? "%" : lever->unit == "1" ? "" : std::string(lever->unit);
        return read_ends([&](const std::string& text) {
                   Parsed<double> value = parse_lever_value(*lever, text);
                   if (value.value && is_share) value.value = in_unit(*value.value, "%");
                   return value;
               }) &&
               steps_of_width();
    }

    bool complain_unknown(std::string_view kind, const std::string& name,
                          const std::string& nearest, std::string allowed) {
        std::string what = fmt::format("there is no {} {}", kind, in_quotes(name));
        if (!nearest.empty()) what += fmt::format(" (did you mean {}?)", nearest);
        return complain(uncertain_.place, what, std::move(allowed));
    }

    bool read_key() {
        const Key* key = find_key(uncertain_.key).key;
        if (key == nullptr)
            return complain_unknown("key", uncertain_.key, nearest_path(uncertain_.key),
                                    "a path of `noonbench list keys`, items of lists by number");
        switch (key->form) {
            case Form::number:
                return read_number(*key);
            case Form::setting:
                return read_setting(*key->setting);
            case Form::time_of_day:
                band_.writing = Band::Writing::time_of_day;
                band_.step = 1.0;
                return read_ends(parse_time_of_day);
            case Form::moment:
                return read_moment();
            default:
                return complain(uncertain_.place,
                                in_quotes(uncertain_.key) + " is neither a number nor a time",
                                "keys that hold a number or a time");
        }
    }

    bool read_number(const Key& key) {
        Draft draft;
        const Slot slot = key.slot(draft);
        const bool is_whole = std::holds_alternative<std::int32_t*>(slot) ||
                              std::holds_alternative<std::int64_t*>(slot) ||
                              std::holds_alternative<std::uint64_t*>(slot);
        const bool is_time = is_whole && !key.unit.empty();
        band_.writing = is_time ? Band::Writing::duration : Band::Writing::quantity;
        band_.unit = is_time ? "s" : std::string(key.unit);
        const Range range{key.unit, key.least, key.most};
        const auto parse = [&](const std::string& text) {
            Parsed<double> si = parse_quantity(text, range);
            if (si.value) si.value = in_unit(*si.value, band_.unit);
            return si;
        };
        if (!read_ends(parse)) return false;
        if (!is_whole) return steps_of_width();
        band_.step = 1.0;
        return true;
    }

    bool read_setting(const firmware::SettingInfo& info) {
        const SettingScale scale = scale_of(info.unit);
        const bool is_time = info.unit == firmware::SettingUnit::minute_of_day;
        if (scale.unit == nullptr && !is_time)
            return complain(uncertain_.place,
                            in_quotes(uncertain_.key) + " is neither a number nor a time",
                            "settings that are a number or a time");
        const double per_unit = is_time ? 1.0 / 60.0 : scale.per_unit;
        band_.writing = is_time ? Band::Writing::time_of_day : Band::Writing::quantity;
        band_.unit = is_time ? "" : scale.unit;
        band_.step = info.step / per_unit;
        const auto parse = [&](const std::string& text) {
            const Parsed<std::int16_t> stored = parse_setting(info, text);
            if (!stored.value) return Parsed<double>{std::nullopt, stored.what, stored.allowed};
            return Parsed<double>{*stored.value / per_unit, {}, {}};
        };
        if (!read_ends(parse)) return false;
        band_.origin = band_.least;
        return true;
    }

    bool read_moment() {
        band_.step = 1.0;
        const bool is_clock = parse_time_of_day(uncertain_.least).value.has_value();
        band_.writing = is_clock ? Band::Writing::time_of_day : Band::Writing::date_time;
        if (is_clock) return read_ends(parse_time_of_day);
        return read_ends(parse_date_time);
    }

    bool steps_of_width() {
        if (band_.least < band_.most) band_.step = step_for(band_.most - band_.least);
        return true;
    }

    const Uncertain& uncertain_;
    std::vector<Objection>& objections_;
    Band band_;
};

std::string lever_text(const Band& band, double value) {
    return quantity_text(band.unit == "%" ? value : from_unit(value, band.unit), band.unit);
}

}  // namespace

std::optional<Band> understood_band(const Uncertain& uncertain,
                                    std::vector<Objection>& objections) {
    return BandReader(uncertain, objections).read();
}

double on_grid(const Band& band, double value) {
    const double steps = std::round((value - band.origin) / band.step);
    return std::clamp(band.origin + steps * band.step, band.least, band.most);
}

std::string written(const Band& band, double value) {
    if (value <= band.least) return band.least_text;
    if (value >= band.most) return band.most_text;
    const auto whole = std::llround(value);
    switch (band.writing) {
        case Band::Writing::time_of_day:
            return time_of_day_text(static_cast<std::int32_t>(whole));
        case Band::Writing::date_time:
            return moment_text(whole);
        case Band::Writing::duration:
            return whole % 60 == 0 ? fmt::format("{} min", whole / 60) : fmt::format("{} s", whole);
        case Band::Writing::quantity:
            break;
    }
    const std::string number = number_text(value, band.step);
    return band.unit.empty() ? number : fmt::format("{} {}", number, band.unit);
}

std::optional<double> number_in(const Band& band, std::string_view text, CivilSeconds start_s) {
    switch (band.writing) {
        case Band::Writing::quantity:
        case Band::Writing::duration: {
            // Any number that the unit can say; the key's own range was checked when it was read.
            const Parsed<double> si = parse_quantity(text, {band.unit, -1e15, 1e15});
            if (!si.value) return std::nullopt;
            return in_unit(*si.value, band.unit);
        }
        case Band::Writing::time_of_day:
        case Band::Writing::date_time:
            break;
    }
    const CivilSeconds midnight_s = plant::midnight_before(start_s);
    std::optional<CivilSeconds> at_s;
    if (text == "start") at_s = start_s;
    if (const auto moment = parse_date_time(text); moment.value) at_s = *moment.value;
    if (const auto clock = parse_time_of_day(text); clock.value) {
        at_s = midnight_s + *clock.value;
        if (band.writing == Band::Writing::date_time && *at_s < start_s)
            *at_s += plant::seconds_a_day;
    }
    if (!at_s) return std::nullopt;
    if (band.writing == Band::Writing::time_of_day) *at_s -= midnight_s;
    return static_cast<double>(*at_s);
}

std::string usual_text(const Uncertain& uncertain, const Band& band, const Node& root,
                       const Scenario& scenario) {
    if (uncertain.lever.empty()) return held_text(uncertain.key, root, scenario);
    double value = plant::find_lever(uncertain.lever)->healthy;
    for (const Move& move : scenario.moves) {
        const auto* lever = std::get_if<LeverMove>(&move.what);
        if (lever != nullptr && lever->lever == uncertain.lever && move.at_s == scenario.start_s &&
            move.over_s == 0)
            value = lever->to;
    }
    return lever_text(band, value);
}

void lay_value(Node& root, const Uncertain& uncertain, const std::string& text) {
    const auto scalar = [&](const std::string& value) {
        Node node;
        node.kind = Node::Kind::scalar;
        node.text = value;
        node.place = uncertain.place;
        return node;
    };
    if (uncertain.lever.empty()) {
        lay_at(root, uncertain.key, scalar(text), uncertain.place);
        return;
    }
    Node move;
    move.kind = Node::Kind::map;
    move.place = uncertain.place;
    move.entries.push_back({"lever", uncertain.place, scalar(uncertain.lever)});
    move.entries.push_back({"to", uncertain.place, scalar(text)});
    Node* moves = find(root, "moves");
    if (moves == nullptr) {
        root.entries.push_back({"moves", uncertain.place, {}});
        moves = &root.entries.back().value;
    }
    if (moves->kind == Node::Kind::map) {
        Node only = std::move(*moves);
        *moves = {};
        moves->items.push_back(std::move(only));
    }
    moves->kind = Node::Kind::list;
    moves->items.push_back(std::move(move));
}

}  // namespace noonbench::harness
