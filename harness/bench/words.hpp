// SPDX-License-Identifier: MIT
// The reason line: one true sentence in an installer's words for each reason of the pump and the
// backup. A sentence is a template whose fixed parts come from the settings in force; what changes
// from second to second stays in braces and is filled here or by the report's page:
//   {collector} {bottom} {top}   readings, "51.3 °C"
//   {gap}                        "3.9 K above" or "5.0 K below" (collector against store bottom)
#pragma once
#include "firmware-model/settings.hpp"
#include "firmware-model/terminals.hpp"

#include <string>

namespace noonbench::harness {

std::string sentence_template(firmware::PumpReason reason, const firmware::Settings& settings);
std::string sentence_template(firmware::BackupReason reason, const firmware::Settings& settings);

/// The reading that the difference is taken from: of two roof planes the warmer one; a broken
/// second sensor leaves the first alone.
const firmware::Reading& deciding_collector(const firmware::Outputs& outputs);

/// Fills a template from what the controller reads; a reading that is lost is written as "lost".
std::string filled(const std::string& sentence, const firmware::Outputs& outputs);

/// Two or three words for a strip or a table: "waiting for sun", "collector too hot".
std::string short_words(firmware::PumpReason reason);
std::string short_words(firmware::BackupReason reason);

/// A setting's value as a person reads it: "8 K", "75 °C", "2 min", "06:30", "on".
std::string setting_text(firmware::Setting setting, std::int16_t value);

}  // namespace noonbench::harness
