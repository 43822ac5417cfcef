// SPDX-License-Identifier: MIT
#include "outputs.hpp"

#include "report.hpp"
#include "summary.hpp"

#include "traces/csv.hpp"
#include "traces/file.hpp"
#include "traces/netcdf.hpp"
#include "traces/vcd.hpp"

namespace noonbench::harness {
namespace {

template <typename Write>
void write_file(const std::filesystem::path& path, Write write) {
    traces::WholeFile file(path);
    write(file.stream());
    file.commit();
}

}  // namespace

void write_outputs(const RunResult& result, std::span<const Verdict> verdicts,
                   const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    write_file(folder / "trace.csv", [&](std::ostream& out) { write_csv(out, result.trace); });
    write_file(folder / "events.csv",
               [&](std::ostream& out) { write_events_csv(out, result.events); });
    traces::write_whole(folder / "summary.json", summary_json(result, verdicts));
    traces::write_whole(folder / "report.html", report_html(result, verdicts));
    // A file that an earlier run left here and this one does not renew would tell an old story.
    if (!result.scenario.record.vcd) std::filesystem::remove(folder / "trace.vcd");
    if (!result.scenario.record.netcdf) std::filesystem::remove(folder / "trace.nc");
    if (result.scenario.record.vcd) {
        write_file(folder / "trace.vcd", [&](std::ostream& out) { write_vcd(out, result.trace); });
    }
    if (result.scenario.record.netcdf) {
        traces::write_netcdf(folder / "trace.nc", result.trace, result.scenario.title);
    }
}

}  // namespace noonbench::harness
