#include "server/config.h"

#include <CLI/CLI.hpp>

#include "common/time/rfc3339.h"

namespace squeezeout {

std::variant<Config, Leave> read_arguments(int argc, char** argv) {
  Config config;
  std::string clock;
  CLI::App app{
      "squeezeout-server: owns the shop's gear and its promises; benches connect to it.\n"
      "It listens on this computer only (127.0.0.1).",
      "squeezeout-server"};
  app.set_version_flag("--version", SQUEEZEOUT_VERSION);
  app.add_option("--data", config.data, "Folder of the shop's data; made when missing")
      ->required()
      ->type_name("DIR");
  app.add_option("--port", config.port, "Port to listen on; 0: any free one")
      ->type_name("N")
      ->capture_default_str();
  app.add_option("--port-file", config.port_file, "Write the port here once the server listens")
      ->type_name("FILE");
  app.add_option("--shop", config.shop_file, "Shop file to load when the store has no shop yet")
      ->type_name("FILE");
  app.add_flag("--demo", config.demo,
               "Show an invented shop, with a running week when the store is empty");
  app.add_option("--clock", clock,
                 "Start the shop's clock at this time, such as 2026-11-26T14:12:00+01:00")
      ->type_name("RFC3339");
  app.add_option("--speed", config.speed,
                 "Let the shop's clock run N times as fast; with --demo or --clock")
      ->type_name("N")
      ->check(CLI::Range(0.01, 100'000.0));
  app.add_flag("--verify", config.verify, "Check the store, say what was found, and leave");
  app.add_flag("!--no-rate-limit", config.rate_limit,
               "Take any number of commands from one device (tests)");
  app.footer(
      "It ends well on SIGTERM or SIGINT. Exit codes: 0 well, 1 the computer would not, 2 a "
      "mistake in what was\n"
      "given, 3 the disk failed: start it again.");
  try {
    app.parse(argc, argv);
    if (!clock.empty()) {
      config.clock = parse_rfc3339(clock);
      if (!config.clock)
        throw CLI::ValidationError("--clock",
                                   clock + " is no time; write it as 2026-11-26T14:12:00+01:00");
    }
    if (config.demo && !config.shop_file.empty()) {
      throw CLI::ValidationError("--demo", "brings its own shop; leave out --demo or --shop");
    }
    if (config.speed != 1 && !config.clock && !config.demo) {
      throw CLI::ValidationError("--speed",
                                 "is for demos and tests; give --clock or --demo with it");
    }
  } catch (const CLI::ParseError& error) {
    return Leave{app.exit(error) == 0 ? 0 : 2};
  }
  return config;
}

}  // namespace squeezeout
