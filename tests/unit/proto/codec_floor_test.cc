// A floor goes through its bytes: what apply() keeps from the records is the same afterwards, and bytes that would break the
// ledger are refused before it sees them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "common/floor/apply.h"
#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/same.h"

namespace squeezeout {
namespace {

using testing::at;
using ::testing::HasSubstr;

// A working day: glue-ups in every progress, one undone, broken gear, stock and climate set.
Floor busy_floor() {
  testing::Bench bench(at("2026-11-26T08:30:00Z"));
  const auto take = [&](Body body) { CHECK(bench.press(std::move(body)).has_value()); };
  const GlueUpId done =
      bench.reserve(testing::kBridge, testing::kAda, bench.now(), testing::kBuild14, 0);
  const GlueUpId clamped = bench.reserve(testing::kBend, testing::kBen, bench.now());
  const GlueUpId cancelled = bench.reserve(testing::kBend, testing::kCyd);
  const GlueUpId spoiled = bench.reserve(testing::kBinding, testing::kCyd);
  bench.wait(Minutes{5});
  take(Start{done});
  take(Start{clamped});
  take(Cancel{cancelled});
  take(Start{spoiled, Override::knowingly});
  bench.wait(Minutes{3});
  take(ClampsOn{done, bench.now()});
  take(ClampsOn{clamped, bench.now()});
  take(Spoiled{spoiled, bench.now(), "ran dry"});
  bench.wait(Minutes{70});
  take(ClampsOff{done, bench.now()});
  bench.wait(std::chrono::hours{3});
  take(Scraped{done, bench.now()});
  bench.reserve(testing::kBinding, testing::kAda, {}, testing::kBuild14, 1);
  bench.reserve(testing::kLining, testing::kBen);
  take(GearBroken{testing::kShort, 2, "jaw split"});
  take(SetStock{testing::kCaul, 3});
  take(ClimateReading{{18.5}, {41}});
  take(SetForecast{
      {{bench.now() + Minutes{60}, {12}, {60}}, {bench.now() + Minutes{600}, {9}, {70}}}});
  take(PutLot{{.sheet = testing::kResin, .label = "opened in May", .stored = Stored::warm}});
  Floor floor = bench.floor();
  const Pot pot{{1},         testing::kCement,         {}, testing::kBench1,
                bench.now(), bench.now() + Minutes{20}};
  squeezeout::apply(floor, PotMixed{pot});
  return floor;
}

std::map<Holder, std::vector<Claim>> claims(const Floor& floor) {
  std::map<Holder, std::vector<Claim>> all;
  floor.gear.each([&](Holder holder, const std::vector<Claim>& its) { all[holder] = its; });
  return all;
}

void expect_same(const Floor& back, const Floor& floor) {
  EXPECT_EQ(back.shop, floor.shop);
  EXPECT_EQ(back.glue_ups, floor.glue_ups);
  EXPECT_EQ(back.before, floor.before);
  EXPECT_EQ(back.outages, floor.outages);
  EXPECT_EQ(back.stock, floor.stock);
  EXPECT_EQ(back.climate, floor.climate);
  EXPECT_EQ(back.readings, floor.readings);
  EXPECT_EQ(back.forecast, floor.forecast);
  EXPECT_EQ(back.lots, floor.lots);
  EXPECT_EQ(back.pots, floor.pots);
  EXPECT_EQ(back.assembly, floor.assembly);
  EXPECT_EQ(back.fumes, floor.fumes);
  EXPECT_EQ(back.last_lot, floor.last_lot);
  EXPECT_EQ(back.last_pot, floor.last_pot);
  EXPECT_EQ(back.last_glue_up, floor.last_glue_up);
  EXPECT_EQ(back.last_outage, floor.last_outage);
  EXPECT_EQ(claims(back), claims(floor));
  EXPECT_EQ(back.due, floor.due);
  for (const auto& [build, steps] : floor.chain)
    for (const auto& [step, g] : steps) EXPECT_EQ(back.chain.at(build).at(step), g);
  EXPECT_EQ(floor_hash(back), floor_hash(floor));
  for (const GearKind& kind : floor.shop->gear)
    EXPECT_EQ(back.gear.stock(kind.id), floor.gear.stock(kind.id));
}

TEST(CodecFloor, ThereAndBack) {
  const Floor floor = busy_floor();
  ASSERT_GE(floor.glue_ups.size(), 6u);
  ASSERT_FALSE(floor.before.empty());
  ASSERT_FALSE(floor.outages.empty());
  ASSERT_FALSE(floor.readings.empty());
  ASSERT_EQ(floor.forecast.size(), 2u);
  ASSERT_EQ(floor.lots.size() + floor.pots.size(), 2u);
  ASSERT_FALSE(floor.assembly.empty());
  ASSERT_FALSE(floor.fumes.empty());
  const std::string bytes = encode_floor(floor);
  const auto back = decode_floor(bytes);
  ASSERT_TRUE(back) << back.error().what;
  expect_same(*back, floor);
  EXPECT_EQ(encode_floor(*back), bytes);
}

TEST(CodecFloor, AnEmptyFloor) {
  const auto back = decode_floor(encode_floor(Floor{}));
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_FALSE(back->shop);
  EXPECT_EQ(floor_hash(*back), floor_hash(Floor{}));
}

TEST(CodecFloor, SnapshotWithoutCopyIsTheSame) {
  const Floor floor = busy_floor();
  const Instant since = at("2026-11-26T08:00:00Z");
  EXPECT_EQ(encode_snapshot(9, floor, since), encode(ServerFrame{Snapshot{9, floor, since}}));
  const auto back = decode_server_frame(encode_snapshot(9, floor, since));
  ASSERT_TRUE(back) << back.error().what;
  const auto& snapshot = std::get<Snapshot>(*back);
  EXPECT_EQ(snapshot.revision, 9u);
  EXPECT_EQ(snapshot.since, since);
  expect_same(snapshot.floor, floor);
}

// What ended before the cut-off stays behind, but for the steps of builds, from which the next step is found.
TEST(CodecFloor, SnapshotLeavesOutWhatEndedLongAgo) {
  const Floor floor = busy_floor();
  const Instant since = at("2026-12-10T08:00:00Z");
  const auto back = decode_server_frame(encode_snapshot(9, floor, since));
  ASSERT_TRUE(back) << back.error().what;
  const Floor& mirror = std::get<Snapshot>(*back).floor;
  int left_out = 0;
  for (const auto& [id, g] : floor.glue_ups) {
    const bool step_of_build = g.build && g.progress == Progress::done;
    EXPECT_EQ(mirror.glue_up(id) != nullptr, !g.ended_at || step_of_build) << id.value;
    left_out += mirror.glue_up(id) ? 0 : 1;
  }
  EXPECT_EQ(left_out, 2) << "the cancelled and the spoiled one";
  EXPECT_EQ(mirror.chain.at(testing::kBuild14), floor.chain.at(testing::kBuild14));
  EXPECT_EQ(mirror.last_glue_up, floor.last_glue_up);
  EXPECT_EQ(floor_hash(mirror, since), floor_hash(floor, since));
}

// ---- bytes that tell of a floor that cannot be ----

std::string refused(const Floor& floor) {
  const auto back = decode_floor(encode_floor(floor));
  return back ? "taken" : back.error().what;
}

GlueUp& reserved(Floor& floor) {
  for (auto& [id, g] : floor.glue_ups)
    if (g.progress == Progress::reserved) return g;
  CHECK(!"none is reserved");
}

TEST(CodecFloor, RefusesClaimsOverStock) {
  Floor floor = busy_floor();
  reserved(floor).held[0].count = 17;
  EXPECT_THAT(refused(floor), HasSubstr("holds 17 of kind"));
}

TEST(CodecFloor, RefusesTwoGlueUpsThatHoldTheSamePiece) {
  Floor floor = busy_floor();
  GlueUp twin = reserved(floor);
  twin.id = {99};
  twin.build = {};
  twin.held = {{testing::kDeckA, 1}};
  twin.times.stage_begin = at("2026-12-20T09:00:00Z");  // long after all others
  twin.times.release_end = at("2026-12-20T11:00:00Z");
  GlueUp other = twin;
  other.id = {100};
  floor.last_glue_up = 100;
  floor.glue_ups[twin.id] = twin;
  EXPECT_EQ(refused(floor), "taken");
  floor.glue_ups[other.id] = other;
  EXPECT_THAT(refused(floor), HasSubstr("holds 1 of kind 4, of which 0 are free"));
}

TEST(CodecFloor, RefusesOutagesOverStock) {
  Floor floor = busy_floor();
  floor.outages.begin()->second.count = 11;
  EXPECT_THAT(refused(floor), HasSubstr("outage[0]: holds 11 of kind 2, of which 10 are free"));
}

TEST(CodecFloor, RefusesAKindHeldTwice) {
  Floor floor = busy_floor();
  GlueUp& g = reserved(floor);
  g.held = {{testing::kDeep, 1}, {testing::kDeep, 1}};
  EXPECT_THAT(refused(floor), HasSubstr("holds kind 1 twice"));
}

TEST(CodecFloor, RefusesClaimsThatNeverEnd) {
  Floor floor = busy_floor();
  reserved(floor).times.release_end = at("2036-01-01T00:00:00Z");
  EXPECT_THAT(refused(floor), HasSubstr("more than 366 days"));
}

TEST(CodecFloor, RefusesGlueUpsWithoutAShop) {
  Floor floor = busy_floor();
  floor.shop.reset();
  EXPECT_THAT(refused(floor), HasSubstr("shop: is missing"));
}

TEST(CodecFloor, RefusesReferencesToNothing) {
  const auto with = [](auto change) {
    Floor floor = busy_floor();
    change(reserved(floor));
    return refused(floor);
  };
  EXPECT_THAT(with([](GlueUp& g) { g.recipe = {77}; }),
              HasSubstr(".recipe: is 77, and the shop has none"));
  EXPECT_THAT(with([](GlueUp& g) { g.recipe = {}; }),
              HasSubstr(".recipe: is 0, and the shop has none"));
  EXPECT_THAT(with([](GlueUp& g) { g.builder = {77}; }), HasSubstr(".builder: is 77"));
  EXPECT_THAT(with([](GlueUp& g) { g.bench = {77}; }), HasSubstr(".bench: is 77"));
  EXPECT_THAT(with([](GlueUp& g) { g.sheet = {77}; }), HasSubstr(".sheet: is 77"));
  EXPECT_THAT(with([](GlueUp& g) { g.build = {77}; }), HasSubstr(".build: is 77"));
  EXPECT_THAT(with([](GlueUp& g) {
                g.held = {{{77}, 1}};
              }),
              HasSubstr("holds kind 77, which the shop does not have"));
}

TEST(CodecFloor, RefusesAKindWithoutItsStock) {
  Floor floor = busy_floor();
  floor.stock.erase(testing::kCaul);
  EXPECT_EQ(refused(floor), "stock: leaves out kind 3; say how many there are");
}

TEST(CodecFloor, RefusesIdsBeyondTheLast) {
  Floor floor = busy_floor();
  floor.last_glue_up = 2;
  EXPECT_THAT(refused(floor), HasSubstr("last_glue_up: is less than a glue-up's id"));
}

// Forecasts become Weather, which stops the program on instants that do not rise.
TEST(CodecFloor, RefusesAirOutOfOrder) {
  Floor floor = busy_floor();
  floor.forecast[1].at = floor.forecast[0].at;
  EXPECT_EQ(refused(floor),
            "forecast[1].at: is not later than the point before; let instants rise");
  floor = busy_floor();
  floor.readings.push_back(floor.readings.back());
  EXPECT_THAT(refused(floor), HasSubstr("at: is not later than the point before"));
  floor = busy_floor();
  floor.forecast.resize(kMaxAirPoints + 1);
  EXPECT_EQ(refused(floor), "forecast: comes 2001 times; use 2000 at most");
}

TEST(CodecFloor, RefusesLotsOfNoGlueAndBeyondTheLast) {
  Floor floor = busy_floor();
  floor.lots.begin()->second.sheet = {77};
  EXPECT_THAT(refused(floor), HasSubstr("lot[0].sheet: is 77, and the shop has none"));
  floor = busy_floor();
  floor.last_lot = 0;
  EXPECT_THAT(refused(floor), HasSubstr("last_lot: is less than a lot's id"));
  floor = busy_floor();
  floor.last_pot = 0;
  EXPECT_THAT(refused(floor), HasSubstr("last_pot: is less than a pot's id"));
}

// A mirror does not hold the glue-ups that ended long ago, but knows the times that were learned from them.
TEST(CodecFloor, AssemblyTimesTravelWithoutTheirGlueUps) {
  Floor floor = busy_floor();
  const std::pair key{testing::kBend, testing::kAda};
  floor.assembly[key] = {{{1'000}, Minutes{7}}, {{1'001}, Minutes{8}}};
  const auto back = decode_floor(encode_floor(floor));
  ASSERT_TRUE(back) << back.error().what;
  EXPECT_EQ(back->assembly, floor.assembly);
}

}  // namespace
}  // namespace squeezeout
