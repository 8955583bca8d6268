#include "tests/support/floor/random_commands.h"

#include "common/floor/ask.h"

namespace squeezeout::testing {

GlueUpId RandomCommands::some_glue_up(const Floor& floor) {
  // Of late ones mostly, so that chains of presses on the same one come about.
  const auto last = static_cast<int>(floor.last_glue_up);
  return GlueUpId{
      static_cast<std::uint32_t>(std::max(0, last - number(8)) + (number(50) == 0 ? 1 : 0))};
}

PotId RandomCommands::some_pot(const Floor& floor) {
  return number(4) == 0 ? PotId{floor.last_pot} : PotId{};
}

Seconds RandomCommands::pause() {
  switch (number(12)) {
    case 0:
      return number(40) == 0 ? std::chrono::hours{24 * number(500)}
                             : std::chrono::hours{number(30)};
    case 1:
    case 2:
      return Seconds{0};
    default:
      return Seconds{number(2400)};
  }
}

Body RandomCommands::next(const Floor& floor, Instant now) {
  const GlueUpId g = some_glue_up(floor);
  const Override over = number(3) == 0 ? Override::knowingly : Override::no;
  const Instant back = now - Seconds{number(6) == 0 ? number(5000) : 0};
  // Half of the time the press that naturally comes next on that glue-up.
  if (const GlueUp* known = floor.glue_up(g); known && number(2) == 0) {
    if (known->progress == Progress::reserved) return Start{g, over, some_pot(floor)};
    if (known->progress == Progress::open) return ClampsOn{g, std::max(back, *known->started_at)};
    if (known->progress == Progress::clamped) return ClampsOff{g, now, over};
    if (known->progress == Progress::waiting) return Scraped{g, now, over};
  }
  switch (number(31)) {
    case 29: {
      AdoptPlan plan;
      for (int i = 1 + number(3); i > 0; --i) {
        const GlueUpId moved = some_glue_up(floor);
        const bool earlier = number(3) == 0;
        plan.moves.push_back(
            {moved, earlier ? now - Seconds{number(150)} : now + Minutes{number(900)}, {}});
      }
      return plan;
    }
    case 30:
      return UndoPlan{PlanId{floor.last_plan - static_cast<std::uint32_t>(number(3) == 0)}};
    case 25: {  // a night of its own, or none
      SetForecast f;
      Instant when = now;
      for (int i = number(5); i > 0; --i) {
        when += Minutes{1 + number(500)};
        f.points.push_back({when, {static_cast<double>(9 + number(20))}, {50}});
      }
      return f;
    }
    case 26: {
      ReadClimate read;
      Instant when = now - Minutes{600 + number(600)};
      for (int i = number(4); i > 0; --i, when += Minutes{1 + number(100)})
        read.readings.push_back({when, {static_cast<double>(12 + number(16))}, {45}});
      return read;
    }
    case 27: {
      Lot lot{.sheet = number(2) == 0 ? kResin : kCement, .label = "bottle"};
      lot.id = LotId{static_cast<std::uint32_t>(number(3))};
      if (number(2) == 0) lot.expires = now + Minutes{number(3000)};
      lot.used_up = number(4) == 0;
      return PutLot{lot};
    }
    case 28:
      return MixPot{number(2) == 0 ? kResin : kCement, LotId{static_cast<std::uint32_t>(number(2))},
                    kBench1};
    case 24: {  // the steward edits the shop file
      Shop s = small_shop();
      s.gear[static_cast<std::size_t>(number(3))].stock += number(5) - 2;
      s.recipes[static_cast<std::size_t>(number(4))].dwell = Minutes{30 + number(2000)};
      return LoadShop{s};
    }
    case 0:
    case 1:
    case 2:
    case 3:
    case 4:
    case 5: {
      Reserve r{.recipe = RecipeId{static_cast<std::uint32_t>(1 + number(4))},
                .builder = BuilderId{static_cast<std::uint32_t>(1 + number(3))},
                .after = now};
      if (number(3) == 0) {
        if (const auto step = next_step(floor, kBuild14)) {
          r.build = step->build, r.step = step->step, r.recipe = step->recipe;
        }
      }
      if (number(3) == 0) r.start = now + Minutes{number(600)};
      if (number(8) == 0) r.hours = Override::knowingly;
      if (r.recipe == kLining && number(2) == 0) r.sheet = kCement;
      return r;
    }
    case 6:
      return Move{g, number(6) == 0 ? now - Seconds{number(150)} : now + Minutes{number(900)},
                  number(6) == 0 ? Override::knowingly : Override::no};
    case 7:
      return Cancel{g};
    case 8:
    case 9:
    case 10:
      return Start{g, over};
    case 11:
    case 12:
    case 13:
      return ClampsOn{g, back};
    case 14:
    case 15:
      return ClampsOff{g, back, over};
    case 16:
      return Scraped{g, back, over};
    case 17:
      return Late{g, number(5) == 0 ? std::chrono::hours{24} : Minutes{1 + number(90)}};
    case 18:
      return Spoiled{g, back, ""};
    case 19:
      return Undo{g};
    case 20:
      return GearBroken{GearKindId{static_cast<std::uint32_t>(1 + number(5))}, 1 + number(3),
                        "bent"};
    case 21:
      return GearMended{GearKindId{static_cast<std::uint32_t>(1 + number(5))}, 1 + number(2)};
    case 22:
      if (number(3) == 0)
        return ClimateReading{{static_cast<double>(8 + number(20))},
                              {static_cast<double>(number(100))}};
      return SetStock{GearKindId{static_cast<std::uint32_t>(1 + number(5))}, number(12)};
    default:
      return Tick{};
  }
}

}  // namespace squeezeout::testing
