#include "tests/bench/floor/busy_floor.h"

#include <algorithm>
#include <random>

#include "common/floor/decide.h"
#include "proto/shop_file.h"
#include "server/demo/week.h"

namespace squeezeout::bench {
namespace {

constexpr int kSoonest = 2, kLatest = 9;  // days until a build is due

Shop shop_of(const Busy& busy, std::mt19937& dice, Instant now) {
  Shop shop = read_shop_file("demo shop", demo_shop_text()).value();
  const std::vector<Builder> six = shop.builders;
  for (unsigned i = 1; i < busy.times; ++i)
    for (Builder b : six) {
      b.id = BuilderId{static_cast<std::uint32_t>(shop.builders.size() + 1)};
      b.key += std::to_string(i);
      shop.builders.push_back(std::move(b));
    }
  for (GearKind& kind : shop.gear) kind.stock *= static_cast<int>(busy.times);
  const RecipeId hide = std::find_if(shop.recipes.begin(), shop.recipes.end(), [](const Recipe& r) {
                          return r.key == "bridge-hide";
                        })->id;
  const std::vector<Build> few = std::move(shop.builds);
  shop.builds.clear();
  for (unsigned i = 0; i < busy.builds; ++i) {
    Build b = few[i % few.size()];
    b.id = BuildId{i + 1};
    b.key += "-" + std::to_string(i);
    b.builder = shop.builders[i % shop.builders.size()].id;
    // Hide glue skins before a bridge is clamped at 21 C: nobody reserves it.
    std::erase_if(b.steps, [&](RecipeId id) { return id == hide; });
    const auto last = b.steps.size() - busy.steps;
    b.done_before = static_cast<int>(dice() % (last + 1));
    b.steps.resize(static_cast<std::size_t>(b.done_before) + busy.steps);
    b.due = now + std::chrono::days{kSoonest + static_cast<int>(dice() % (kLatest - kSoonest + 1))};
    shop.builds.push_back(std::move(b));
  }
  return shop;
}

}  // namespace

Floor busy_floor(const Busy& busy, Instant now) {
  std::mt19937 dice{busy.seed};
  Floor floor;
  const auto press = [&](Body body) { CHECK(step(floor, {{}, {}, now, std::move(body)}).answer); };
  press(LoadShop{shop_of(busy, dice, now)});
  press(ClimateReading{{21}, {46}});
  std::vector<BuildId> asking;
  for (const Build& b : floor.shop->builds) asking.insert(asking.end(), busy.steps, b.id);
  std::shuffle(asking.begin(), asking.end(), dice);
  for (const BuildId id : asking) {
    const Build& b = *floor.build(id);
    const auto chain = floor.chain.find(id);
    Reserve wanted;
    wanted.build = id;
    wanted.step =
        b.done_before + static_cast<int>(chain == floor.chain.end() ? 0 : chain->second.size());
    wanted.recipe = b.steps[static_cast<std::size_t>(wanted.step)];
    wanted.builder = b.builder;
    wanted.after = now;
    press(wanted);
  }
  return floor;
}

}  // namespace squeezeout::bench
