// SPDX-License-Identifier: MIT
#include "fault_range.hpp"

#include "band.hpp"
#include "findings.hpp"
#include "key_lookup.hpp"
#include "move_text.hpp"
#include "quantity_text.hpp"
#include "setting_text.hpp"
#include "value.hpp"
#include "wire_names.hpp"

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

namespace noonbench::harness {

namespace {

/// In the order of RangeKind.
constexpr std::array<std::string_view, 4> kind_words = {"lever", "wire", "setting", "key"};

class RangeReader {
  public:
    RangeReader(const FaultRangeDraft& draft, std::vector<Objection>& objections)
        : draft_(draft), objections_(objections) {}

    std::optional<FaultRange> read() {
        if (!choose()) return std::nullopt;
        fill();
        const bool is_band = draft_.least.given && draft_.most.given && !draft_.to.given;
        const bool is_value = draft_.to.given && !draft_.least.given && !draft_.most.given;
        if (!is_band && !is_value)
            return complain(name_->place, in_quotes(name_->text) + " has no range",
                            "least and most, or `to` alone"),
                   std::nullopt;
        if (!(is_band ? read_band() : read_value())) return std::nullopt;
        return range_;
    }

  private:
    bool complain(const Place& place, std::string what, std::string allowed) {
        objections_.push_back({std::move(what), std::move(allowed), place});
        return false;
    }

    /// The one thing that is given.
    bool choose() {
        const std::array all = {&draft_.lever, &draft_.wire, &draft_.setting, &draft_.key};
        int given = 0;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (!all[i]->given) continue;
            name_ = all[i];
            range_.kind = static_cast<RangeKind>(i);
            ++given;
        }
        if (given == 1) return true;
        return complain({}, fmt::format("a range names {} things that the fault moves", given),
                        "exactly one of " + joined(kind_words));
    }

    void fill() {
        range_.name = name_->text;
        range_.place = name_->place;
        range_.least = draft_.least.text;
        range_.least_place = draft_.least.place;
        range_.most = draft_.most.text;
        range_.most_place = draft_.most.place;
        range_.to = draft_.to.text;
        range_.to_place = draft_.to.place;
    }

    bool read_band() {
        if (range_.kind == RangeKind::wire) return read_wire_band();
        // An unknown setting is called so, not an unknown key.
        if (range_.kind == RangeKind::setting && find_setting(range_.name) == nullptr)
            return read_move_value(draft_.least).has_value();
        Uncertain band;
        if (range_.kind == RangeKind::lever) band.lever = range_.name;
        if (range_.kind == RangeKind::setting) band.key = "controller." + range_.name;
        if (range_.kind == RangeKind::key) band.key = range_.name;
        band.least = range_.least;
        band.most = range_.most;
        band.place = range_.place;
        band.least_place = range_.least_place;
        band.most_place = range_.most_place;
        return understood_band(band, objections_).has_value();
    }

    bool read_wire_band() {
        const std::optional<MoveOf> least = read_move_value(draft_.least);
        if (!least) return false;
        const std::optional<MoveOf> most = read_move_value(draft_.most);
        if (!most) return false;
        const auto* from = std::get_if<WireMove>(&*least);
        const auto* until = std::get_if<WireMove>(&*most);
        const bool is_number = from != nullptr && until != nullptr &&
                               wire_fields()[static_cast<std::size_t>(from->field)].words.empty();
        if (!is_number)
            return complain(range_.place, in_quotes(range_.name) + " is no number and has no range",
                            "`to` with one of its words");
        if (from->to < until->to) return true;
        return complain(range_.most_place, in_quotes(range_.most) + " is not above least",
                        "more than " + range_.least);
    }

    bool read_value() {
        return range_.kind == RangeKind::key ? read_key_value(draft_.to)
                                             : read_move_value(draft_.to).has_value();
    }

    /// As a move to that value would be read, on any day.
    std::optional<MoveOf> read_move_value(const Raw& to) {
        MoveDraft move;
        if (range_.kind == RangeKind::lever) move.lever = *name_;
        if (range_.kind == RangeKind::wire) move.wire = *name_;
        if (range_.kind == RangeKind::setting) move.setting = *name_;
        move.to = to;
        const Scenario any_day;
        move.at_s = any_day.start_s;
        const Parsed<Move> parsed = understood(move, any_day);
        if (parsed.value) return parsed.value->what;
        complain(place_of(move), parsed.what, parsed.allowed);
        return std::nullopt;
    }

    /// As the scenario's own key would be read.
    bool read_key_value(const Raw& to) {
        const KeyFound found = find_key(range_.name);
        if (found.key == nullptr) {
            const std::string nearest = nearest_path(range_.name);
            const std::string hint =
                nearest.empty() ? std::string() : fmt::format(" (did you mean {}?)", nearest);
            return complain(range_.place,
                            fmt::format("there is no key {}{}", in_quotes(range_.name), hint),
                            "a path of `noonbench list keys`, items of lists by number");
        }
        Draft draft;
        if (found.list != nullptr && found.list->begin) found.list->begin(draft);
        Node node;
        node.kind = Node::Kind::scalar;
        node.text = to.text;
        node.place = to.place;
        Findings findings;
        if (store_value(*found.key, node, range_.name, draft, findings)) return true;
        try {
            findings.refuse_if_any({});
        } catch (const InputRefused& refused) {
            const Problem& first = refused.problems().front();
            complain(to.place, first.what, first.allowed);
        }
        return false;
    }

    const FaultRangeDraft& draft_;
    std::vector<Objection>& objections_;
    const Raw* name_ = nullptr;
    FaultRange range_;
};

}  // namespace

std::optional<FaultRange> understood_range(const FaultRangeDraft& draft,
                                           std::vector<Objection>& objections) {
    return RangeReader(draft, objections).read();
}

}  // namespace noonbench::harness
