#include "tests/bench/server/big_store.h"

#include "common/floor/apply.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"
#include "server/demo/week.h"
#include "server/store/sqlite/open.h"
#include "tests/support/server/ws_client.h"

namespace squeezeout::bench {
namespace {

// Half an hour apart, around the clock, for almost a year and a half.
GlueUp glue_up(const Shop& shop, int n, Instant begin) {
  GlueUp g;
  g.id = GlueUpId{static_cast<std::uint32_t>(n + 1)};
  const Recipe& recipe = shop.recipes[static_cast<std::size_t>(n) % shop.recipes.size()];
  g.recipe = recipe.id;
  const Builder& builder = shop.builders[static_cast<std::size_t>(n) % shop.builders.size()];
  g.builder = builder.id;
  g.bench = builder.bench;
  g.sheet = shop.sheets.front().id;
  g.demand.stage = g.demand.assembly = g.demand.release = Minutes{5};
  g.demand.dwell = Minutes{45};
  g.demand.needs = recipe.needs;
  const Instant t = begin + Minutes{30} * n;
  g.times = {
      t, t + Minutes{5}, t + Minutes{10}, t + Minutes{55}, t + Minutes{60}, t + Minutes{300}};
  g.promised = g.times;
  g.reserved_at = t - Minutes{90};
  for (const GearKind& kind : shop.gear) {
    if (kind.stock >= 10 && g.held.size() < 4) g.held.push_back({kind.id, 2});
  }
  CHECK(g.held.size() == 4);
  return g;
}

}  // namespace

void make_big_store(const std::filesystem::path& data, SnapshotOnDisk snapshot) {
  const Instant begin = *parse_rfc3339("2025-06-02T00:00:00Z");
  auto store = open_sqlite_store(data.string());
  CHECK(store.has_value());
  Floor floor;
  Batch batch;
  std::uint64_t revision = 0;
  const auto flush = [&] {
    CHECK((*store)->append(batch).has_value());
    batch = {};
  };
  const auto enter = [&](Instant at, Event event) {
    Entry entry;
    entry.revision = ++revision;
    entry.at = at;
    entry.command = test::command_id(revision);
    entry.device = test::test_device(1);
    squeezeout::apply(floor, event);
    entry.events.push_back(std::move(event));
    const Answer answer{*entry.command, revision, std::nullopt, {}};
    batch.answers.push_back(
        {*entry.command, at, std::make_shared<const std::string>(encode(ServerFrame{answer}))});
    batch.entries.push_back(std::move(entry));
    if (batch.entries.size() == 1'000) flush();
  };

  auto shop = read_shop_file("demo shop", demo_shop_text());
  CHECK(shop.has_value());
  const Instant opened = begin - std::chrono::hours{24};
  enter(opened, ShopLoaded{*shop});
  for (const GearKind& k : shop->gear) enter(opened, StockSet{k.id, k.stock, opened});
  for (int n = 0; n < kGlueUps; ++n) {
    GlueUp g = glue_up(*shop, n, begin);
    enter(g.reserved_at, GlueUpChanged{Change::reserved, g});
    g.progress = Progress::open;
    g.started_at = g.times.open_begin;
    enter(*g.started_at, GlueUpChanged{Change::started, g});
    g.progress = Progress::clamped;
    g.clamped_at = g.times.clamped_begin;
    enter(*g.clamped_at, GlueUpChanged{Change::clamps_on, g});
    g.progress = Progress::done;
    g.off_at = g.ended_at = g.times.release_end;
    enter(*g.off_at, GlueUpChanged{Change::clamps_off, g});
  }
  flush();
  CHECK(floor.gear.size() == 4 * static_cast<std::size_t>(kGlueUps));
  // At the time of the last claims nothing is archived yet that a bench would miss.
  if (snapshot == SnapshotOnDisk::at_the_end)
    CHECK((*store)->keep_snapshot(floor, begin).has_value());
  (*store)->close();
}

}  // namespace squeezeout::bench
