// SPDX-License-Identifier: MIT
// What a search for settings found for one site, as plain data: the sheet for the plant room and
// the page of all choices tried are both made from it. Texts are plain, never markup. Figures of a
// year unless a name says otherwise.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// A figure with the interval in which it lies with the confidence of Chosen::confidence.
struct Interval {
    double figure = 0.0;
    double low = 0.0;
    double high = 0.0;
};

/// One setting that was varied.
struct SearchedSetting {
    std::string name;                 // in words: "start difference"
    std::vector<std::string> values;  // with unit, least first; all that any choice tried has
    bool scale = true;     // more and less of one quantity, so that neighbours run together
    std::string ground{};  // why these values, and where they come from
};

/// One choice of the searched settings and how it did in the mean of its worlds. Where it ran in
/// fewer than others, what these worlds give or take to all is taken out of objective and saving:
/// figures of a few sunny years beside those of many would mislead.
struct TriedChoice {
    std::vector<std::size_t> values;  // for each searched setting the index of its value
    std::size_t worlds = 0;           // in how many worlds it was judged
    double objective_kwh = 0.0;
    double saving_kwh = 0.0;
    double pump_electricity_kwh = 0.0;
    double starts_a_day = 0.0;
    double litres_below_comfort = 0.0;
    double stagnation_h = 0.0;
    bool holds = true;    // every limit, as often as asked
    bool in_set = false;  // no further behind the best than Chosen::set_within, or not proven to be
};

/// One setting as it is to be set; `tolerance` and `flat_sentence` below are filled in by
/// fill_in_flatness().
struct ChosenSetting {
    std::string name;
    std::string value;         // with unit
    std::string as_delivered;  // with unit
    std::string tolerance;     // values that occur in the set: "5 K to 8 K"
    std::string because;       // what the bench found, in a few words
    std::string check;         // what to check on the day, one sentence
};

/// Something that must hold: `margin` is how far `figure` is from `limit`, below 0 = broken.
struct KeptLimit {
    std::string name;
    std::string unit;
    double limit = 0.0;
    double figure = 0.0;
    double margin = 0.0;
    int decimals = 1;
    double probability = 0.0;  // share of worlds in which it held, 0..1
};

/// Theory beside what the bench found.
struct TheoryLine {
    std::string name;       // "start/stop rule"
    std::string rule;       // in words or as a formula
    std::string source;     // and how far it was seen
    std::string theory;     // for this loop, with unit
    std::string simulated;  // may be empty: the bench was not asked
    std::string why;        // where the two differ and why; may be empty
};

struct Caution {
    std::string about;  // one word
    std::string text;
};

struct Chosen {
    std::string site_title;
    std::string site_line;  // collectors, pipes, store, people
    std::string climate;    // where the weather comes from
    std::uint64_t seed = 0;
    std::vector<SearchedSetting> searched;
    std::size_t trials = 0;
    std::size_t worlds = 0;        // the most in which a choice was judged
    std::size_t fresh_worlds = 0;  // drawn after the search, for `gain`
    double confidence = 0.95;
    double electricity_weight = 0.0;  // of pump electricity in the objective
    double set_within = 0.004;        // parts of the winner's saving

    std::vector<ChosenSetting> settings;
    std::string flat_sentence;
    Interval saving_kwh;  // of the winner, fresh worlds
    Interval objective_kwh;
    Interval pump_electricity_kwh;
    Interval gain_kwh;  // objective over that of the settings as delivered, fresh worlds
    std::vector<KeptLimit> limits;
    double probability_reached = 0.0;  // share of fresh worlds in which all limits held; the
                                       // search itself asks that each does in the mean

    std::vector<TriedChoice> tried;
    std::optional<std::size_t> winner;  // index into tried
    std::optional<std::size_t> delivered;

    std::vector<TheoryLine> theory;
    std::vector<Caution> cautions;
    std::string repeat;  // the command
};

/// Throws std::invalid_argument with the reason when indices, counts or figures do not fit
/// together or a figure is not finite: what cannot be drawn.
void check_chosen(const Chosen& chosen);

/// Indices of the values of a searched setting that occur in the set, ascending.
[[nodiscard]] std::vector<std::size_t> values_in_set(const Chosen& chosen, std::size_t searched);

/// Fills in flat_sentence, and the tolerance of each setting that was searched, from the choices
/// tried. A setting that was not searched keeps the tolerance it has.
void fill_in_flatness(Chosen& chosen);

/// "start difference 5 K, stop difference 3 K"
[[nodiscard]] std::string choice_text(const Chosen& chosen, const TriedChoice& choice);

/// Whether the gain is one, told with its interval.
[[nodiscard]] std::string gain_sentence(const Chosen& chosen);

/// Steam, scalding, legionella, pressure, height, mains, and who decides.
[[nodiscard]] std::vector<Caution> usual_cautions();

}  // namespace noonbench::harness
