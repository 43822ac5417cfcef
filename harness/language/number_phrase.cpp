// SPDX-License-Identifier: MIT
#include "number_phrase.hpp"

#include "formula_walks.hpp"
#include "misread.hpp"
#include "place_in_scalar.hpp"
#include "sentence_reader.hpp"
#include "vocabulary.hpp"

#include <memory>
#include <utility>

namespace noonbench::harness {
namespace {

bool is_a_calculation(Syntax::Kind kind) {
    return kind >= Syntax::Kind::sum && kind <= Syntax::Kind::clock;
}

std::vector<std::size_t> signals_of_phrase(const NumberPhrase& phrase) {
    if (phrase.condition) return used_signals(*phrase.condition);
    Formula formula;
    formula.op = Formula::Op::has_value;
    formula.left = phrase.number;
    return used_signals(formula);
}

}  // namespace

NumberPhrase SentenceReader::read_number(const Syntax& sentence) const {
    NumberPhrase phrase;
    Inside inside;
    const Syntax* rest = &sentence;
    if (rest->kind == Syntax::Kind::at_clock) {
        phrase.at_s = clock_seconds(rest->children.at(0));
        rest = &rest->children.at(1);
    }
    if (rest->kind == Syntax::Kind::over_run) {
        inside.period = Period{};
        rest = &rest->children.at(0);
    }
    const bool on_off =
        rest->kind == Syntax::Kind::name &&
        signals_[signal_index(rest->text, rest->at, signals_)].kind == traces::SignalKind::on_off;
    if (is_a_calculation(rest->kind) || (rest->kind == Syntax::Kind::name && !on_off)) {
        phrase.number = number(*rest, inside).expression;
    } else {
        phrase.condition = counted(*rest, inside_count(*rest, inside));
    }
    phrase.signals = signals_of_phrase(phrase);
    return phrase;
}

NumberPhrase parse_number(std::string_view text, const Place& place,
                          std::span<const traces::Signal> signals) {
    try {
        return SentenceReader(signals).read_number(parsed_sentence(text, signals));
    } catch (const Misread& misfit) {
        const Place at = place_in_scalar(place, text, misfit.at());
        throw InputRefused({{at.file, at.line, at.column, misfit.what(), misfit.allowed()}});
    }
}

}  // namespace noonbench::harness
