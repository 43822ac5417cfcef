// SPDX-License-Identifier: MIT
// netCDF in its classic format (64-bit offsets) with CF conventions: the same bytes each time,
// since the newer formats write the library's version.
#pragma once
#include "table.hpp"

#include <filesystem>
#include <string>

namespace noonbench::traces {

/// Writes the file whole or not at all; a file of that name is replaced. Numbers are doubles,
/// on_off and choices bytes with flag_values and flag_meanings. Throws FileError where the disk
/// refuses, std::runtime_error with the library's words otherwise.
void write_netcdf(const std::filesystem::path& target, const Table& table,
                  const std::string& title);

/// The unit as UDUNITS reads it: "kWh" -> "kW.h", empty -> "1"; others unchanged.
std::string udunits_of(const std::string& unit);

}  // namespace noonbench::traces
