#pragma once
// Random but plausible commands for a small shop, from a tape of dice. Most are legal; some are wild; some starts lie back.
//   Shape   the tape is what a property test generates and shrinks; past its end every throw is 0

#include <cstdint>
#include <vector>

#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {

class RandomCommands {
 public:
  explicit RandomCommands(std::vector<std::uint16_t> tape) : tape_(std::move(tape)) {}
  Body next(const Floor& floor, Instant now);
  Seconds pause();  // how long until the next one: mostly minutes, sometimes a night

 private:
  int number(int below) { return next_ < tape_.size() ? tape_[next_++] % below : 0; }
  GlueUpId some_glue_up(const Floor& floor);
  PotId some_pot(const Floor& floor);
  std::vector<std::uint16_t> tape_;
  std::size_t next_ = 0;
};

}  // namespace squeezeout::testing
