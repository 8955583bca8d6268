#pragma once
// How a run of the command line ends before its work is done. Thrown by whoever finds out, caught in main alone.

#include <nlohmann/json.hpp>
#include <string>

#include "client/words/words.h"

namespace squeezeout::cli {

enum class Exit {
  done = 0,
  refused = 1,    // the floor said no
  wrong_use = 2,  // the arguments, or a file, are wrong
  lost = 3,       // no server, or the connection was lost
};

struct Stop {
  Exit code = Exit::done;
  words::Told told;
  nlohmann::ordered_json facts;  // of a refusal, for scripts
};

[[noreturn]] inline void wrong_use(std::string what, std::string why, std::string next) {
  throw Stop{Exit::wrong_use, {std::move(what), std::move(why), std::move(next)}, {}};
}

}  // namespace squeezeout::cli
