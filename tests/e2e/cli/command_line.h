#pragma once
// The real command line, run as a program against a real server.

#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/server/server_process.h"

namespace squeezeout::test {

struct Ran {
  int exit_code = -1;
  std::string out, err;
};

// Runs `squeezeout`, the program beside this test, to its end. `folder` is where its own files go.
[[nodiscard]] Ran run_squeezeout(const std::filesystem::path& folder,
                                 const std::vector<std::string>& arguments);

// A server, and the command line pointed at it.
class CliShop {
 public:
  explicit CliShop(const std::vector<std::string>& server_arguments)
      : server_((scratch_.path() / "data").string(), server_arguments) {}

  Ran run(std::vector<std::string> arguments);
  // Runs with --json, expects the exit code, and reads the one line that it prints.
  nlohmann::json json(std::vector<std::string> arguments, int exit_code = 0);
  // The same until `done` says yes of it, for at most 20 s.
  nlohmann::json json_until(const std::vector<std::string>& arguments,
                            const std::function<bool(const nlohmann::json&)>& done);

  ServerProcess& server() { return server_; }
  std::filesystem::path write(const std::string& name, const std::string& text) const;
  const std::filesystem::path& folder() const { return scratch_.path(); }

 private:
  ScratchFolder scratch_;
  ServerProcess server_;
};

}  // namespace squeezeout::test
