#pragma once
// A general-purpose solver's answer to the same problem: written as a MiniZinc model from the comments of problem.h alone, with
// the plainest constraint for each rule, and solved by Gecode.
//   Refuses  nullopt from ask_peer: the peer ran out of time, or cannot run

#include <filesystem>
#include <string>

#include "common/schedule/problem.h"

namespace squeezeout::schedule::testing {

// The model's text. CHECK: starts from 0, a horizon below 40, so that the cost fits into the peer's whole numbers.
enum class Order {  // in which the peer searches; neither is good at all problems
  by_task,          // modes, then starts, then the rest
  by_trouble,       // whatever failed most, with restarts
};
[[nodiscard]] std::string minizinc_of(const Problem& problem, Order order);

struct PeerAnswer {
  std::optional<Cost> best;  // none: no schedule exists
};

[[nodiscard]] std::optional<std::string>
peer_version();  // nullopt: there is no minizinc with Gecode here
// Asks in both orders, for longer each time.
[[nodiscard]] std::optional<PeerAnswer> ask_peer(const Problem& problem,
                                                 const std::filesystem::path& scratch);

}  // namespace squeezeout::schedule::testing
