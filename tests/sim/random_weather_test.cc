// Promise: a new forecast moves exactly what it must. On random floors: what has started keeps its start, what keeps its start
// fits there, and what was moved could not have stayed.
//   How many: RC_PARAMS="max_success=..." (set by CTest)

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdio>

#include "common/floor/ask.h"
#include "common/floor/weather.h"
#include "tests/support/floor/random_commands.h"

namespace squeezeout::testing {
namespace {

struct Ran {
  long floors = 0, longer = 0, moved = 0, back = 0, snagged = 0;
};

// Whether a glue-up could be at `start`, on the floor as it now is.
bool fits_at(const Floor& floor, const GlueUp& g, Instant start, Instant now) {
  auto query = query_again(floor, g, now, now);
  return query && quote_at(floor, *query, g.sheet, start, start).has_value();
}

// What is planned in the weather that is known, or runs, has at least the dwell that it asks for.
void follows(const Floor& floor, Instant now) {
  const auto climate = std::make_shared<Climate>(weather_of(floor, now));
  for (const auto& [id, g] : floor.glue_ups) {
    if (!g.sheet || !(g.progress == Progress::reserved || running(g))) continue;
    const Curing curing{*floor.recipe(g.recipe), *floor.sheet(g.sheet), climate};
    const PhaseTimes& t = g.times;
    if (running(g)) {
      RC_ASSERT(curing.running(t.open_begin, t.clamped_begin).dwell <= g.demand.dwell);
    } else if (t.open_begin < floor.forecast.back().at) {
      const auto lengths = curing.at(t.open_begin, t.clamped_begin);
      RC_ASSERT(lengths.has_value());
      RC_ASSERT(lengths->dwell <= g.demand.dwell);
    }
  }
}

void run(const std::vector<std::uint16_t>& tape, Ran& ran) {
  RandomCommands commands{tape};
  Bench bench{at("2026-11-26T09:00:00Z")};
  for (int i = 0; i < 30; ++i) {
    bench.wait(std::min<Seconds>(commands.pause(), Minutes{20}));
    (void)bench.press(commands.next(bench.floor(), bench.now()));
  }
  // A queue for the only caul and the few clamps: one that grows is in the way of the next.
  for (std::uint32_t i = 0; i < 12; ++i) {
    (void)bench.press(Reserve{.recipe = i % 3 == 0 ? kLining : kBridge,
                              .builder = BuilderId{1 + (i + tape.front()) % 3},
                              .after = bench.now()});
  }
  bench.tick();
  const auto before = bench.floor().glue_ups;
  SetForecast cold;
  Instant when = bench.now() + Minutes{1};
  for (const double celsius : {19.0, 12.5, 12.5, 20.0}) {
    cold.points.push_back({when, {celsius}, {50}});
    when += std::chrono::hours{2 + static_cast<int>(tape.back() % 4)};
  }
  RC_ASSERT(bench.press(cold).has_value());
  const Floor& floor = bench.floor();
  ++ran.floors;
  for (const auto& [id, was] : before) {
    const GlueUp& is = floor.glue_ups.at(id);
    if (is == was) continue;
    // Without a note it is back in its own place: who pushed it out was pushed out as well.
    if (!is.weather && is.progress != Progress::displaced)
      RC_ASSERT(is.times.stage_begin == was.times.stage_begin &&
                is.demand.dwell == was.demand.dwell);
    if (running(was)) {
      RC_ASSERT(is.times.stage_begin == was.times.stage_begin);
      RC_ASSERT(is.progress == was.progress);
      ++ran.longer;
      continue;
    }
    if (was.progress ==
        Progress::displaced) {  // put out by the weather before: it found a place again
      RC_ASSERT(is.progress == Progress::reserved);
      ++ran.back;
      continue;
    }
    RC_ASSERT(was.progress == Progress::reserved);
    const Instant start = was.times.stage_begin;
    if (is.progress == Progress::reserved && is.times.stage_begin == start) {
      ++ran.longer;
      continue;
    }
    RC_ASSERT(!fits_at(floor, is, start, bench.now()));
    if (is.progress == Progress::reserved) {
      RC_ASSERT(is.times.stage_begin > start);
      RC_ASSERT(is.weather->moved_from == start);
      ++ran.moved;
    } else {
      ++ran.snagged;
    }
  }
  follows(floor, bench.now());
  RC_ASSERT(over_stock(floor) == "");
  // And goes on to follow: a reading, a press taken back.
  bench.wait(Minutes{20});
  (void)bench.press(ClimateReading{{14.0 + tape.front() % 8}, {50}});
  follows(bench.floor(), bench.now());
  (void)bench.press(Undo{GlueUpId{1 + tape.front() % (bench.floor().last_glue_up + 1)}});
  follows(bench.floor(), bench.now());
  RC_ASSERT(over_stock(bench.floor()) == "");
}

TEST(RandomWeather, MovesExactlyWhatItMust) {
  Ran ran;
  const bool ok = rc::check([&ran] {
    const auto tape = *rc::gen::resize(100, rc::gen::container<std::vector<std::uint16_t>>(
                                                220, rc::gen::inRange<std::uint16_t>(0, 0xFFFF)));
    run(tape, ran);
  });
  EXPECT_TRUE(ok);
  std::printf("%ld floors: %ld longer in place, %ld moved, %ld back, %ld without a place\n",
              ran.floors, ran.longer, ran.moved, ran.back, ran.snagged);
  EXPECT_GT(ran.longer, ran.floors / 10);
  EXPECT_GT(ran.moved, ran.floors / 50);
}

}  // namespace
}  // namespace squeezeout::testing
