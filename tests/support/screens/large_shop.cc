#include "tests/support/screens/large_shop.h"

#include <fmt/format.h>

#include <set>

#include "common/floor/ask.h"

namespace squeezeout::testing {
namespace {

constexpr unsigned kRecipes = kLargeKinds / 2, kBuilders = 24, kBenches = 12, kBuilds = 40;
constexpr int kStillOn = 2, kNotYetWorked = 3;  // every so manieth stays as it is
constexpr Seconds kNoticed = Minutes{180};      // clamps on past their time for longer are seen to

GearNeed of_style(GearClass c, int count, unsigned kind) {
  GearNeed need{.gear_class = c, .count = count};
  need.style = fmt::format("style {}", kind);
  return need;
}

// What is pressed next of it, and when; nullopt: nothing more.
struct Next {
  Instant at{};
  Body body;
};
std::optional<Next> next_of(const GlueUp& g, Instant now) {
  switch (g.progress) {
    case Progress::reserved:
      return Next{g.times.open_begin, Start{g.id}};
    case Progress::open:
      return Next{g.times.clamped_begin, ClampsOn{g.id, g.times.clamped_begin}};
    case Progress::clamped:
      if (static_cast<int>(g.id.value) % kStillOn == 0 && now - off_from(g) < kNoticed)
        return std::nullopt;
      return Next{g.times.release_begin + Minutes{1},
                  ClampsOff{g.id, g.times.release_begin + Minutes{1}}};
    case Progress::waiting:
      if (static_cast<int>(g.id.value) % kNotYetWorked == 0) return std::nullopt;
      return Next{g.times.ready_at, Scraped{g.id, g.times.ready_at}};
    default:
      return std::nullopt;
  }
}

void carry_out(Bench& bench, Instant until) {
  std::set<GlueUpId> stuck;  // the floor refused: another stands in its way
  for (;;) {
    std::optional<Next> first;
    GlueUpId who;
    for (const auto& [id, g] : bench.floor().glue_ups) {
      if (stuck.contains(id)) continue;
      const auto next = next_of(g, until);
      if (next && next->at <= until && (!first || next->at < first->at)) first = next, who = id;
    }
    if (!first) return;
    bench.set(std::max(bench.now(), first->at));
    if (!bench.press(first->body)) stuck.insert(who);
  }
}

}  // namespace

Shop large_shop() {
  Shop s = small_shop();
  s.gear.clear(), s.recipes.clear(), s.builders.clear(), s.benches.clear(), s.builds.clear();
  for (unsigned i = 1; i <= kLargeKinds; ++i) {
    const bool counted = i % 2 == 1;
    GearKind kind{.id = GearKindId{i},
                  .key = fmt::format("k{}", i),
                  .name = counted ? fmt::format("Clamp no. {}", i) : fmt::format("Form no. {}", i),
                  .gear_class = counted ? GearClass::clamp : GearClass::caul,
                  .stock = counted ? 8 : 1};
    kind.style = fmt::format("style {}", i);
    s.gear.push_back(std::move(kind));
  }
  for (unsigned i = 1; i <= kRecipes; ++i) {
    Recipe r{.id = RecipeId{i},
             .key = fmt::format("r{}", i),
             .name = fmt::format("Joint {}", i),
             .glues = {kResin},
             .stage = Minutes{5},
             .assembly = Minutes{4},
             .release = Minutes{5},
             .needs = {of_style(GearClass::clamp, 2 + static_cast<int>(i % 3), 2 * i - 1),
                       of_style(GearClass::caul, 1, 2 * i)},
             .finish = "scrape",
             .usual = true};
    s.recipes.push_back(std::move(r));
  }
  for (unsigned i = 1; i <= kBenches; ++i)
    s.benches.push_back({BenchId{i}, fmt::format("{}", i), fmt::format("Bench {}", i)});
  for (unsigned i = 1; i <= kBuilders; ++i)
    s.builders.push_back({BuilderId{i}, fmt::format("b{}", i),
                          fmt::format("{}a Builder", static_cast<char>('A' + i - 1)),
                          BenchId{(i - 1) / 2 + 1}, std::nullopt});
  for (unsigned i = 1; i <= kBuilds; ++i) {
    Build b{.id = BuildId{i},
            .key = fmt::format("{}", i),
            .name = fmt::format("No. {}", i),
            .builder = BuilderId{i % kBuilders + 1}};
    for (unsigned step = 0; step < 12; ++step)
      b.steps.push_back(RecipeId{(i + step * 7) % kRecipes + 1});
    s.builds.push_back(std::move(b));
  }
  return s;
}

Floor large_floor(Instant now, int glue_ups) {
  using std::chrono::hours;
  Bench bench(now - hours{48}, large_shop());
  const auto span = Seconds{hours{24 * 9}} / std::max(1, glue_ups);
  for (int i = 0; i < glue_ups; ++i) {
    const auto n = static_cast<unsigned>(i);
    const BuildId build{n % kBuilds + 1};
    const auto next = next_step(bench.floor(), build);
    Reserve wish{.recipe = RecipeId{n % kRecipes + 1}, .builder = BuilderId{n * 5 % kBuilders + 1}};
    if (next && n % 2 == 0) wish.recipe = next->recipe, wish.build = build, wish.step = next->step;
    wish.after = bench.now() + span * i;
    CHECK(bench.press(wish).has_value());
  }
  carry_out(bench, now);
  bench.set(std::max(bench.now(), now));
  bench.tick();
  return std::move(bench.floor());
}

}  // namespace squeezeout::testing
