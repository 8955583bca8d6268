#pragma once
// One run of the command line: its options, its talk with the server, and what it prints.

#include <functional>
#include <memory>
#include <string>

#include "tools/cli/json.h"
#include "tools/cli/session.h"
#include "tools/cli/stop.h"

namespace squeezeout::cli {

class Tool {
 public:
  // Filled in by the arguments.
  std::string server = "127.0.0.1:7733";
  double wait_seconds = 5;
  bool json = false;
  std::function<void(Tool&)> verb;

  // Connects when first asked for.
  Session& session();

  // Prints the text for a person, or the JSON for a script. Text ends its own lines.
  void print(const std::string& text, const Json& for_scripts) const;
  // Something beside the answer, for a person only.
  void note(const std::string& text) const;
  // Sends the command, says what became of it, and stops with Exit::refused when it was refused.
  void ask(Body body);
  // Prints why the run ends.
  void print(const Stop& stop) const;

 private:
  std::unique_ptr<Session> session_;
};

}  // namespace squeezeout::cli
