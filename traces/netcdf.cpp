// SPDX-License-Identifier: MIT
#include "netcdf.hpp"

#include "file.hpp"
#include "fixed.hpp"

#include <netcdf.h>

#include <array>
#include <stdexcept>
#include <utility>
#include <vector>

namespace noonbench::traces {
namespace {

constexpr signed char no_flag = -127;  // the classic format's own fill value of a byte is -127

void check(int status, const std::filesystem::path& file) {
    if (status == NC_NOERR) return;
    if (status > 0) throw FileError(file, "write", status);  // the system's own error numbers
    throw std::runtime_error(file.string() + ": netCDF: " + nc_strerror(status));
}

/// An open file of the library, closed whatever happens.
class Dataset {
  public:
    Dataset(const std::filesystem::path& path, std::filesystem::path shown)
        : shown_(std::move(shown)) {
        done(nc_create(path.c_str(), NC_CLOBBER | NC_64BIT_OFFSET, &id_));
        open_ = true;
    }
    Dataset(const Dataset&) = delete;
    Dataset& operator=(const Dataset&) = delete;
    ~Dataset() {
        if (open_) nc_abort(id_);
    }

    void done(int status) const { check(status, shown_); }
    [[nodiscard]] int id() const { return id_; }

    [[nodiscard]] int dimension(const char* name, std::size_t size) const {
        int dimension_id = 0;
        done(nc_def_dim(id_, name, size, &dimension_id));
        return dimension_id;
    }
    [[nodiscard]] int variable(const std::string& name, nc_type type, int dimension_id) const {
        int variable_id = 0;
        done(nc_def_var(id_, name.c_str(), type, 1, &dimension_id, &variable_id));
        return variable_id;
    }
    void text(int variable_id, const char* name, const std::string& value) const {
        if (value.empty()) return;
        done(nc_put_att_text(id_, variable_id, name, value.size(), value.data()));
    }
    void close() {
        open_ = false;
        done(nc_close(id_));
    }

  private:
    std::filesystem::path shown_;
    int id_ = 0;
    bool open_ = false;
};

const char* word_of(Visibility visible) {
    switch (visible) {
        case Visibility::customers_log:
            return "customers_log";
        case Visibility::read_on_site:
            return "read_on_site";
        case Visibility::bench_only:
            break;
    }
    return "bench_only";
}

void describe_flags(const Dataset& data, int variable_id, const Signal& signal) {
    const std::vector<std::string> off_on{"off", "on"};
    const auto& words = signal.kind == SignalKind::on_off ? off_on : signal.choices;
    std::vector<signed char> values;
    std::string meanings;
    for (const auto& word : words) {
        values.push_back(static_cast<signed char>(values.size()));
        meanings += (meanings.empty() ? "" : " ") + word;
    }
    data.done(nc_put_att_schar(data.id(), variable_id, "flag_values", NC_BYTE, values.size(),
                               values.data()));
    data.text(variable_id, "flag_meanings", meanings);
    data.done(nc_put_att_schar(data.id(), variable_id, "_FillValue", NC_BYTE, 1, &no_flag));
}

int define(const Dataset& data, const Signal& signal, int time_dimension) {
    const bool is_number = signal.kind == SignalKind::number;
    const int id = data.variable(signal.name, is_number ? NC_DOUBLE : NC_BYTE, time_dimension);
    data.text(id, "long_name", signal.meaning.empty() ? signal.name : signal.meaning);
    if (is_number) {
        const double fill = NC_FILL_DOUBLE;
        data.text(id, "units", udunits_of(signal.unit));
        data.done(nc_put_att_double(data.id(), id, "_FillValue", NC_DOUBLE, 1, &fill));
    } else {
        describe_flags(data, id, signal);
    }
    data.text(id, "visible", word_of(signal.visible));
    return id;
}

int define_time(const Dataset& data, int time_dimension) {
    const int id = data.variable("time", NC_DOUBLE, time_dimension);
    data.text(id, "standard_name", "time");
    data.text(id, "long_name", "local standard time");
    data.text(id, "units", "seconds since 2000-01-01 00:00:00");
    data.text(id, "calendar", "proleptic_gregorian");
    data.text(id, "axis", "T");
    return id;
}

void put_number(const Dataset& data, int variable_id, const Table& table, std::size_t column) {
    std::vector<double> values(table.row_count());
    for (std::size_t row = 0; row < values.size(); ++row) {
        const bool missing = table.raw(row, column) == Table::no_value;
        values[row] = missing ? NC_FILL_DOUBLE : table.value(row, column);
    }
    data.done(nc_put_var_double(data.id(), variable_id, values.data()));
}

void put_flags(const Dataset& data, int variable_id, const Table& table, std::size_t column) {
    std::vector<signed char> values(table.row_count());
    for (std::size_t row = 0; row < values.size(); ++row) {
        const std::int32_t raw = table.raw(row, column);
        values[row] = raw == Table::no_value ? no_flag : static_cast<signed char>(raw);
    }
    data.done(nc_put_var_schar(data.id(), variable_id, values.data()));
}

void put_all(const Dataset& data, int time, const std::vector<int>& ids, const Table& table) {
    const std::vector<double> times(table.times_s().begin(), table.times_s().end());
    data.done(nc_put_var_double(data.id(), time, times.data()));
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (table.signals()[i].kind == SignalKind::number) {
            put_number(data, ids[i], table, i);
        } else {
            put_flags(data, ids[i], table, i);
        }
    }
}

}  // namespace

std::string udunits_of(const std::string& unit) {
    constexpr std::array<std::pair<const char*, const char*>, 4> spelled{
        {{"", "1"}, {"kWh", "kW.h"}, {"Wh", "W.h"}, {"kWh/m2", "kW.h/m2"}}};
    for (const auto& [shown, written] : spelled) {
        if (unit == shown) return written;
    }
    return unit;
}

void write_netcdf(const std::filesystem::path& target, const Table& table,
                  const std::string& title) {
    if (table.row_count() == 0) {
        // A dimension of length 0 would be the unlimited one in the classic format.
        throw std::runtime_error(target.string() + ": a trace without rows has no netCDF form");
    }
    WholeFile file(target);
    {
        Dataset data(file.temporary(), target);
        data.text(NC_GLOBAL, "Conventions", "CF-1.8");
        data.text(NC_GLOBAL, "title", title);
        data.text(NC_GLOBAL, "source", "noonbench");
        const int rows = data.dimension("time", table.row_count());
        const int time = define_time(data, rows);
        std::vector<int> ids;
        for (const auto& signal : table.signals()) ids.push_back(define(data, signal, rows));
        data.done(nc_enddef(data.id()));
        put_all(data, time, ids, table);
        data.close();
    }
    file.commit();
}

}  // namespace noonbench::traces
