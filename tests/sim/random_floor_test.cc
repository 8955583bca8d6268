// Promise: no kind is ever over its stock. Random command sequences; after each command the oracle of tests/support (which
// shares no code with the ledger) looks at every instant that could matter, and replaying the events gives the same floor.
//   How many: RC_PARAMS="max_success=100000" (set by CTest)

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdio>

#include "tests/support/floor/random_commands.h"

namespace squeezeout::testing {
namespace {

struct Ran {
  long sequences = 0, commands = 0, granted = 0, displaced = 0;
};

void run(const std::vector<std::uint16_t>& tape, Ran& ran) {
  RandomCommands commands{tape};
  Bench bench{at("2026-11-26T09:00:00Z")};
  constexpr int kCommands = 40;
  for (int i = 0; i < kCommands; ++i) {
    bench.wait(commands.pause());
    const auto answer = bench.press(commands.next(bench.floor(), bench.now()));
    ++ran.commands;
    ran.granted += answer.has_value();
    RC_ASSERT(over_stock(bench.floor()) == "");
    for (const auto& [id, g] : bench.floor().glue_ups) {
      // Settled: nobody's clamps are on past what the ledger says.
      if (running(g)) RC_ASSERT(g.times.release_end > bench.now());
      ran.displaced += g.progress == Progress::displaced;
    }
  }
  Floor replayed;
  for (const Event& e : bench.events()) squeezeout::apply(replayed, e);
  RC_ASSERT(floor_hash(replayed) == floor_hash(bench.floor()));
  RC_ASSERT(replayed.before == bench.floor().before);
  RC_ASSERT(replayed.live_count == bench.floor().live_count);
  for (const auto& [kind, stock] : bench.floor().stock)
    RC_ASSERT(stock.at == bench.floor().gear.stock_since(kind));
  ++ran.sequences;
}

TEST(RandomFloor, NeverOverStockAndReplayEqualsLive) {
  Ran ran;
  const bool ok = rc::check([&ran] {
    const auto tape = *rc::gen::resize(100, rc::gen::container<std::vector<std::uint16_t>>(
                                                280, rc::gen::inRange<std::uint16_t>(0, 0xFFFF)));
    run(tape, ran);
  });
  EXPECT_TRUE(ok);
  std::printf(
      "%ld sequences, %ld commands (%ld granted), %ld times displaced, 0 instants over stock\n",
      ran.sequences, ran.commands, ran.granted, ran.displaced);
  // The run means something only when much was granted and much had to give way.
  EXPECT_GT(ran.granted, ran.commands / 4);
  EXPECT_GT(ran.displaced, ran.sequences / 10);
}

// The oracle itself: a floor that is over stock by hand is seen.
TEST(RandomFloor, TheOracleSeesAPlantedDoubleBooking) {
  Bench bench{at("2026-11-26T09:00:00Z")};
  const GlueUpId id = bench.reserve(kBridge, kAda);
  ASSERT_EQ(over_stock(bench.floor()), "");
  GlueUp twin = bench.glue_up(id);
  twin.id = GlueUpId{id.value + 1};
  bench.floor().glue_ups[twin.id] = twin;  // past the ledger
  EXPECT_NE(over_stock(bench.floor()), "");
}

}  // namespace
}  // namespace squeezeout::testing
