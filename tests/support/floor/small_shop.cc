#include "tests/support/floor/small_shop.h"

#include <set>

#include "common/time/rfc3339.h"

namespace squeezeout::testing {

Instant at(std::string_view text) {
  const auto t = parse_rfc3339(text);
  CHECK(t.has_value());
  return *t;
}

Shop small_shop(std::string zone) {
  Shop s;
  s.name = "Test bench";
  s.zone = std::move(zone);
  for (unsigned d = 1; d <= 5; ++d) s.hours.weekday[d] = {{8 * 60, 17 * 60}};
  s.benches = {{kBench1, "1", "Bench 1"}, {kBench2, "2", "Bench 2"}};
  s.builders = {{kAda, "ada", "Ada", kBench1, {}},
                {kBen, "ben", "Ben", kBench2, {}},
                {kCyd, "cyd", "Cyd", kBench2, {}}};

  GearKind deep{.id = kDeep, .key = "deep", .name = "Deep clamp", .stock = 6};
  deep.throat = {120};
  GearKind shallow{.id = kShort, .key = "short", .name = "Short clamp", .stock = 10};
  shallow.throat = {50};
  GearKind caul{
      .id = kCaul, .key = "caul", .name = "Bridge caul", .gear_class = GearClass::caul, .stock = 1};
  GearKind deck_a{.id = kDeckA,
                  .key = "deck/A",
                  .name = "Deck A",
                  .gear_class = GearClass::deck,
                  .tag = "A",
                  .stock = 1};
  GearKind deck_b{.id = kDeckB,
                  .key = "deck/B",
                  .name = "Deck B",
                  .gear_class = GearClass::deck,
                  .tag = "B",
                  .stock = 1};
  s.gear = {deep, shallow, caul, deck_a, deck_b};

  s.sheets = {{.id = kResin,
               .key = "resin",
               .name = "Resin",
               .chemistry = Chemistry::aliphatic,
               .open = Minutes{5},
               .dwell = {{{10}, Minutes{120}}, {{20}, Minutes{60}}},
               .wait = std::chrono::hours{3},
               .floor = {10},
               .caution = "",
               .source = "invented"},
              {.id = kCement,
               .key = "cement",
               .name = "Cement",
               .chemistry = Chemistry::solvent_cement,
               .open = Minutes{20},
               .dwell = {{{10}, Minutes{120}}},
               .wait = std::chrono::hours{24},
               .floor = {10},
               .caution = "",
               .source = "invented"}};

  const auto clamps = [](int count, double throat_mm) {
    GearNeed n{.gear_class = GearClass::clamp, .count = count};
    n.throat = {throat_mm};
    return n;
  };
  const auto one = [](GearClass c) { return GearNeed{.gear_class = c, .count = 1}; };
  const auto recipe = [](RecipeId id, std::string key, std::vector<SheetId> glues,
                         std::vector<GearNeed> needs, std::string finish) {
    return Recipe{.id = id,
                  .key = key,
                  .name = key,
                  .glues = std::move(glues),
                  .stage = Minutes{5},
                  .assembly = Minutes{4},
                  .release = Minutes{5},
                  .dwell = {},
                  .wait = {},
                  .needs = std::move(needs),
                  .finish = std::move(finish),
                  .caution = "",
                  .usual = true};
  };
  s.recipes = {
      recipe(kBridge, "bridge", {kResin}, {clamps(3, 100), one(GearClass::caul)}, "string up"),
      recipe(kBinding, "binding", {kCement}, {clamps(4, 0)}, "scrape"),
      recipe(kLining, "lining", {kResin, kCement}, {clamps(8, 0)}, ""),
      recipe(kBend, "bend", {}, {one(GearClass::deck)}, "")};
  s.recipes[3].dwell = Minutes{90};
  s.recipes[3].wait = Seconds{0};
  s.builds = {{kBuild14, "14", "No. 14", kAda, {kBridge, kBinding, kLining}, 0, {}}};
  return s;
}

Bench::Bench(Instant now, Shop shop) : now_(now) {
  const auto loaded = press(LoadShop{std::move(shop)});
  CHECK(loaded.has_value());
}

Result<std::vector<Event>, Refusal> Bench::press(Body body) {
  Stamped command{{}, {}, now_, std::move(body)};
  ++commands_;
  for (std::size_t i = 0; i < 8; ++i)
    command.id.bytes[i] = static_cast<std::uint8_t>(commands_ >> (8 * i));
  Step s = step(floor_, command);
  events_.insert(events_.end(), s.settled.begin(), s.settled.end());
  if (s.answer) events_.insert(events_.end(), s.answer->begin(), s.answer->end());
  return std::move(s.answer);
}

GlueUpId Bench::reserve(RecipeId recipe, BuilderId builder, std::optional<Instant> start,
                        BuildId build, int step_of_build) {
  const auto answer = press(Reserve{.recipe = recipe,
                                    .build = build,
                                    .step = step_of_build,
                                    .builder = builder,
                                    .bench = {},
                                    .sheet = {},
                                    .after = now_,
                                    .start = start});
  CHECK(answer.has_value());
  return GlueUpId{floor_.last_glue_up};
}

std::string over_stock(const Floor& floor) {
  struct Taken {
    std::uint32_t kind;
    int count;
    long begin, end;
    std::uint32_t who;
  };
  std::vector<Taken> all;
  for (const auto& [id, g] : floor.glue_ups) {
    // The record says in so many words when it holds gear; claims_of() is not asked.
    if (g.progress == Progress::cancelled || g.progress == Progress::displaced) continue;
    long end = g.times.release_end.time_since_epoch().count();
    if (g.progress == Progress::spoiled) end = g.ended_at->time_since_epoch().count();
    if (g.off_at) end = g.off_at->time_since_epoch().count();
    for (const Held& h : g.held) {
      all.push_back(
          {h.kind.value, h.count, g.times.stage_begin.time_since_epoch().count(), end, id.value});
    }
  }
  for (const auto& [id, o] : floor.outages) {
    all.push_back({o.kind.value, o.count, o.span.begin.time_since_epoch().count(),
                   o.span.end.time_since_epoch().count(), 1'000'000 + id.value});
  }
  for (const auto& [kind, stock] : floor.stock) {
    // A sum of half-open spans has its maxima at begins of spans (or where the stock was set).
    std::set<long> instants{stock.at.time_since_epoch().count()};
    for (const Taken& t : all) {
      if (t.kind == kind.value) instants.insert(t.begin);
    }
    for (const long i : instants) {
      if (i < stock.at.time_since_epoch().count()) continue;
      int taken = 0;
      std::string who;
      for (const Taken& t : all) {
        if (t.kind != kind.value || t.begin > i || i >= t.end) continue;
        taken += t.count;
        who += " #" + std::to_string(t.who) + "x" + std::to_string(t.count);
      }
      if (taken > stock.count) {
        return "kind " + std::to_string(kind.value) + " at " + std::to_string(i) + ": " +
               std::to_string(taken) + " of " + std::to_string(stock.count) + " taken by" + who;
      }
    }
  }
  return {};
}

}  // namespace squeezeout::testing
