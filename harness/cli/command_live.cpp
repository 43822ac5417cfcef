// SPDX-License-Identifier: MIT
// noonbench live
#include "command.hpp"

#include "harness/live/server.hpp"

#include <fmt/format.h>
#include <boost/system/system_error.hpp>

#include <iostream>
#include <memory>
#include <string>

namespace noonbench::cli {
namespace {

struct LiveOptions {
    std::string shelf = "scenarios";
    std::uint16_t port = 8070;
};

int serve_live(const LiveOptions& options) {
    const harness::Shelf shelf(options.shelf);
    harness::ServerWishes wishes;
    wishes.port = options.port;
    try {
        harness::serve(shelf, wishes, [](std::uint16_t port) {
            std::cout << fmt::format("The bench is open at http://127.0.0.1:{}/\n", port)
                      << "For this computer only. End it with Ctrl+C." << std::endl;
        });
    } catch (const boost::system::system_error& error) {
        std::cerr << fmt::format(
            "noonbench live: port {} cannot be had ({}); another one: --port NUMBER\n",
            options.port, error.code().message());
        return exit_machine_failed;
    }
    return exit_done;
}

}  // namespace

void add_live(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<LiveOptions>();
    CLI::App* live = app.add_subcommand("live", "Open the bench in a browser");
    live->add_option("--port", options->port, "where to listen; 0: any that is free")
        ->capture_default_str();
    live->add_option("--shelf", options->shelf, "folder of scenarios")->capture_default_str();
    live->footer("Example:  noonbench live");
    live->callback([options, &exit_code] { exit_code = serve_live(*options); });
}

}  // namespace noonbench::cli
