// SPDX-License-Identifier: MIT
// noonbench live
#include "command.hpp"

#include "harness/live/class_file.hpp"
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
    bool lan = false;
    std::string class_file = "out/class.sqlite";
};

void say_opened(const LiveOptions& options, const harness::ServerOpened& opened) {
    std::cout << fmt::format("The bench is open at http://127.0.0.1:{}/\n", opened.port);
    if (!options.lan) {
        std::cout << "For this computer only.\n";
    } else if (opened.addresses.empty()) {
        std::cout << "This computer has no address on a network yet; others cannot reach it.\n";
    } else {
        std::cout << "Others on this network open one of:\n";
        for (const std::string& address : opened.addresses) {
            std::cout << fmt::format("  {}\n", address);
        }
    }
    std::cout << fmt::format("The trainer's page: http://127.0.0.1:{}/#trainer\n", opened.port)
              << fmt::format("The class secret: {}\n", opened.secret);
    if (options.lan) {
        std::cout << "Caution: anyone on this network who knows the class word can join, and "
                     "nothing is encrypted, so use --lan on a network that you trust.\n";
    }
    std::cout << "End it with Ctrl+C." << std::endl;
}

int serve_live(const LiveOptions& options) {
    const harness::Shelf shelf(options.shelf);
    harness::ClassFile class_file(options.class_file);
    harness::ServerWishes wishes;
    wishes.port = options.port;
    wishes.lan = options.lan;
    try {
        harness::Server server(shelf, wishes, &class_file);
        say_opened(options, server.opened());
        server.run();
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
    live->add_flag("--lan", options->lan,
                   "for a class: listen on all addresses of this computer; visitors join with "
                   "the class word (on a network that you trust)");
    live->add_option("--class-file", options->class_file,
                     "where a class outlives the program; made when one is opened")
        ->capture_default_str();
    live->footer("Example:  noonbench live");
    live->callback([options, &exit_code] { exit_code = serve_live(*options); });
}

}  // namespace noonbench::cli
