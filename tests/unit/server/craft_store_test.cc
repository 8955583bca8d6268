// What the craft keeps on the floor (readings, forecast, bottles, mixes, learned times, weather notes) outlives a restart: from the
// journal alone, and from a snapshot.

#include <gtest/gtest.h>

#include "common/floor/apply.h"
#include "server/committer.h"
#include "server/store/sqlite/open.h"
#include "tests/support/floor/small_shop.h"
#include "tests/support/server/server_process.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout {
namespace {

using testing::kAda, testing::kBen, testing::kBinding, testing::kBridge, testing::kResin;
using namespace std::chrono_literals;

std::unique_ptr<Store> open(const test::ScratchFolder& folder) {
  return std::move(open_sqlite_store((folder.path() / "data").string())).value();
}

// A shop and a clock: a press is one batch.
class Server {
 public:
  explicit Server(Store& store) : committer_(store, store.load().value()) {
    commands_ = committer_.revision() * 100;  // ids that were not used before the restart
  }
  std::optional<Refusal> press(Instant at, Body body) {
    const Ask ask{1, test::test_device(1), {test::command_id(++commands_), std::move(body)}};
    const auto output = committer_.commit({&ask, 1}, at);
    CHECK(output.has_value());
    return std::get<Answer>(decode_server_frame(*output->replies.at(0).frame).value()).refusal;
  }
  Committer& committer() { return committer_; }
  const Floor& floor() const { return committer_.floor(); }

 private:
  Committer committer_;
  std::uint64_t commands_ = 0;
};

const Instant kFour = testing::at("2026-11-26T16:00:00Z");

// One that was clamped, one that is promised for tomorrow at 8:00 and follows a cold night, bottles, a mix.
void live(Server& s) {
  const auto done = [&](Instant at, Body body) {
    const auto no = s.press(at, std::move(body));
    EXPECT_FALSE(no) << no->index();
  };
  done(kFour - 3h, LoadShop{testing::small_shop()});
  done(kFour - 2h, ReadClimate{{{kFour - 4h, {20}, {45}}, {kFour - 3h, {20.5}, {46}}}});
  done(kFour - 2h, ClimateReading{{21}, {47}});
  done(kFour - 2h, PutLot{{.sheet = kResin, .label = "A 12", .made = kFour - 24h * 90}});
  done(kFour - 2h, PutLot{{.sheet = kResin, .label = "A 11", .stored = Stored::warm}});
  done(kFour - 2h, PutLot{{.id = LotId{2}, .sheet = kResin, .label = "A 11", .used_up = true}});
  done(kFour - 1h, MixPot{kResin, LotId{1}, testing::kBench1});
  Reserve now{.recipe = kBridge, .builder = kAda, .after = kFour - 1h};
  now.lot = LotId{1};
  done(kFour - 1h, now);
  done(kFour - 55min, Start{GlueUpId{1}});
  done(kFour - 52min, ClampsOn{GlueUpId{1}, kFour - 52min});
  Reserve odd{.recipe = kBinding, .builder = kBen, .sheet = kResin, .after = kFour};
  odd.start = testing::at("2026-11-27T08:00:00Z");
  odd.reason = "a trial";
  done(kFour, odd);
  done(kFour, SetForecast{{{kFour, {21}, {47}},
                           {kFour + 8h, {12}, {47}},
                           {kFour + 17h, {12}, {47}},
                           {kFour + 20h, {21}, {47}}}});
}

void expect_craft(const Floor& f) {
  EXPECT_EQ(f.readings.size(), 3u);
  EXPECT_EQ(f.forecast.size(), 4u);
  EXPECT_EQ(f.lots.size(), 2u);
  EXPECT_TRUE(f.lots.at(LotId{2}).used_up);
  EXPECT_EQ(f.pots.at(PotId{1}).lot, LotId{1});
  const auto& learned = f.assembly.at({kBridge, kAda});
  EXPECT_EQ(learned.at(GlueUpId{1}), 3min);
  EXPECT_EQ(f.glue_ups.at(GlueUpId{1}).lot, LotId{1});
  EXPECT_EQ(f.glue_ups.at(GlueUpId{2}).reason, "a trial");
  EXPECT_TRUE(f.glue_ups.at(GlueUpId{2}).weather) << "it follows the cold night";
}

void expect_goes_on_alike(Server& a, Server& b) {
  EXPECT_EQ(floor_hash(a.floor()), floor_hash(b.floor()));
  for (Server* s : {&a, &b}) {
    EXPECT_FALSE(s->press(kFour + 5min, MixPot{kResin, LotId{1}, {}}));
    EXPECT_FALSE(s->press(kFour + 6min, SetForecast{}));
    EXPECT_FALSE(
        s->press(kFour + 7min, Reserve{.recipe = kBridge, .builder = kAda, .after = kFour}));
    EXPECT_EQ(s->floor().last_pot, 2u);
  }
  EXPECT_EQ(floor_hash(a.floor()), floor_hash(b.floor()));
}

TEST(CraftStore, OutlivesARestartFromTheJournal) {
  const test::ScratchFolder here, there;
  {
    const auto store = open(here);
    Server s(*store);
    live(s);
    expect_craft(s.floor());
    store->close();
  }
  const auto twin_store = open(there);
  Server twin(*twin_store);
  live(twin);
  const auto store = open(here);
  Server again(*store);
  expect_craft(again.floor());
  expect_goes_on_alike(again, twin);
}

TEST(CraftStore, OutlivesARestartFromASnapshot) {
  const test::ScratchFolder here, there;
  {
    const auto store = open(here);
    Server s(*store);
    live(s);
    ASSERT_TRUE(s.committer().keep_snapshot().has_value());
    store->close();
  }
  {
    const auto store = open(here);
    const Loaded loaded = store->load().value();
    EXPECT_EQ(loaded.snapshot, loaded.revision) << "nothing is replayed";
    store->close();
  }
  const auto twin_store = open(there);
  Server twin(*twin_store);
  live(twin);
  const auto store = open(here);
  Server again(*store);
  expect_craft(again.floor());
  expect_goes_on_alike(again, twin);
}

}  // namespace
}  // namespace squeezeout
