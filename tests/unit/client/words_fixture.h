#pragma once
// A played floor, and the words that it is said in. For the tests of words.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "client/words/words.h"
#include "tests/unit/client/small_shop.h"

namespace squeezeout::words {

using squeezeout::testing::PlayedFloor;

struct Words : ::testing::Test {
  PlayedFloor played;
  Context here() const { return {played.floor, played.now}; }
  const GlueUp& glue_up(GlueUpId id) const { return *played.floor.glue_up(id); }
  std::string phase_of(GlueUpId id) const { return phase(here(), glue_up(id)); }
  Told told(const Body& asked, const Refusal& r) const { return refusal(here(), asked, r); }
};

}  // namespace squeezeout::words
