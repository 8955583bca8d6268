#include "tests/unit/proto/make.h"

namespace squeezeout::testing {

std::string Make::text() {
  static const char* const kTexts[] = {"",          "a",          "Bridge", "Größe 10 \"mm\"",
                                       "日本 – ok", "x\\n, y; z", "😀"};
  if (between(0, 9) == 0) return std::string(200, 'm');
  return kTexts[between(0, std::size(kTexts) - 1)];
}

Instant Make::instant() {
  return Instant{
      Seconds{coin() ? between(0, 4'000'000'000) : between(-253'402'300'799, 253'402'300'799)}};
}

Instant Make::any_instant() {
  const Instant choices[] = {Instant::min(), Instant::max(), Instant{}, instant()};
  return choices[between(0, 3)];
}

WeekHours Make::hours() {
  WeekHours hours;
  const auto day = [&] {
    std::vector<DaySpan> spans;
    for (int at = static_cast<int>(between(0, 900)); at < 1440 && spans.size() < 3;) {
      const int end = std::min(1440, at + 1 + static_cast<int>(between(0, 300)));
      spans.push_back({at, end});
      at = end + static_cast<int>(between(0, 200));
    }
    return spans;
  };
  for (auto& weekday : hours.weekday)
    if (coin()) weekday = day();
  if (hours.weekday[1] == hours.weekday[6]) hours.weekday[1] = {{0, 1440}};  // some day is open
  for (std::int64_t n = between(0, 3); n > 0; --n) {
    const Date date{std::chrono::sys_days{std::chrono::days{between(18'000, 30'000)}}};
    hours.exceptions[date] = coin() ? day() : std::vector<DaySpan>{};
  }
  return hours;
}

GearNeed Make::need() {
  return {.gear_class = one_of<GearClass>(kGearClasses),
          .count = count(),
          .opening = {real(0, 1000)},
          .throat = {real(0, 1000)},
          .length = {real(0, 1000)},
          .force = {real(0, 5000)},
          .style = text(),
          .outline = text()};
}

GearKind Make::gear(std::uint32_t id) {
  const bool tagged = coin(), torque = coin(), rod = coin();
  const std::string tag = tagged ? std::string(1, static_cast<char>('A' + between(0, 25))) : "";
  const std::string key = "gear " + std::to_string(id);
  return {.id = {id},
          .key = tagged ? key + "/" + tag : key,
          .name = tagged ? "Gear " + tag : "Gear",
          .gear_class = rod ? GearClass::go_bar : one_of<GearClass>(kGearClasses),
          .tag = tag,
          .style = text(),
          .stock = static_cast<int>(tagged ? between(0, 1) : between(0, 10'000)),
          .opening = {real(0, 1000)},
          .throat = {real(0, 1000)},
          .length = {real(0, 1000)},
          .force = {real(0, 5000)},
          .pad = {real(0, 100)},
          .screw = torque ? "Tr12x3" : text(),
          .torque = {torque ? real(0.1, 20) : 0},
          .rod_width = {rod ? real(1, 50) : 0},
          .rod_thickness = {rod ? real(1, 20) : 0},
          .rod_stiffness = {rod ? real(1, 50) : 0},
          .rod_strength = {rod ? real(0, 500) : 0},
          .size = text(),
          .outline = text(),
          .hot = coin()};
}

AdhesiveSheet Make::sheet(std::uint32_t id) {
  AdhesiveSheet sheet{.id = {id},
                      .key = "key " + std::to_string(id),
                      .name = "Glue",
                      .chemistry = one_of<Chemistry>(kChemistries),
                      .open = Seconds{between(1, 1'000'000)},
                      .closed = length(),
                      .working_life = length(),
                      .dwell = {},
                      .activation_kj = real(0, 200),
                      .wait = length(),
                      .full_cure = length(),
                      .floor = celsius(),
                      .shelf_days = count(0),
                      .solvent = {},
                      .caution = text(),
                      .source = text()};
  if (coin()) sheet.solvent = {text(), real(0, 1000)};
  for (std::int64_t n = between(1, 4), celsius = -10; n > 0; --n)
    sheet.dwell.push_back(
        {{static_cast<double>(celsius += between(1, 20))}, Seconds{between(1, kMaxClaim.count())}});
  return sheet;
}

Joint Make::joint() {
  Joint joint{.length = {real(0, 1000)},
              .width = {real(0, 1000)},
              .a = face(),
              .b = face(),
              .thickness = {real(0, 100)},
              .under = {real(0, 100)},
              .gap = {real(0, 2)},
              .plate = {real(0, 500)},
              .radius = {real(0, 500)},
              .least_pressure = {real(0.01, 5)},
              .spread_g_m2 = real(1, 2000),
              .traits = {}};
  for (int trait = 0; trait < kTraits; ++trait)
    if (coin()) joint.traits.insert(joint.traits.begin(), static_cast<Trait>(trait));
  return joint;
}

Recipe Make::recipe(std::uint32_t id, std::uint32_t sheets) {
  Recipe recipe{.id = {id},
                .key = "key " + std::to_string(id),
                .name = "Recipe",
                .glues = some<SheetId>(
                    [&] { return SheetId{static_cast<std::uint32_t>(between(1, sheets))}; }),
                .stage = length(),
                .assembly = length(),
                .release = length(),
                .dwell = {},
                .wait = {},
                .needs = some<GearNeed>([&] { return need(); }),
                .joint = {},
                .heat = {},
                .finish = text(),
                .caution = text(),
                .usual = coin()};
  if (coin()) recipe.joint = joint();
  if (coin()) recipe.heat = {length(), length(), {real(0, 300)}};
  if ((recipe.glues.empty() && !recipe.heat) || coin()) recipe.dwell = length();
  if (coin()) recipe.wait = length();
  if (recipe.joint.described() && coin()) {
    recipe.needs.push_back(need());
    recipe.needs.back().gear_class = coin() ? GearClass::clamp : GearClass::go_bar;
    recipe.needs.back().count = 0;  // worked out
  }
  return recipe;
}

Shop Make::shop() {
  Shop shop{.name = "Shop",
            .zone = coin() ? "Europe/Dublin" : "Australia/Lord_Howe",
            .display = {one_of<Display::Clock>(2), one_of<Display::Lengths>(2),
                        one_of<Display::Degrees>(2)},
            .hours = hours(),
            .climate_celsius = {real(-40, 100)},
            .climate_humidity = {real(0, 100)},
            .daily = {},
            .service = {celsius(), percent()},
            .room = {real(0, 1000), real(0, 100), one_of<LimitSet>(2)},
            .benches = {},
            .builders = {},
            .gear = {},
            .sheets = {},
            .recipes = {},
            .builds = {}};
  for (int minute = static_cast<int>(between(0, 1000)); minute < 24 * 60 && coin();
       minute += static_cast<int>(between(1, 300)))
    shop.daily.push_back({minute, celsius(), percent()});
  const auto ids = [&] { return static_cast<std::uint32_t>(between(1, 4)); };
  const auto key = [](std::uint32_t id) { return "key " + std::to_string(id); };
  const std::uint32_t benches = ids(), builders = ids(), kinds = ids(), sheets = ids(),
                      recipes = ids(), builds = ids();
  for (std::uint32_t id = 1; id <= benches; ++id)
    shop.benches.push_back({{id}, key(id), "Bench", coin()});
  for (std::uint32_t id = 1; id <= builders; ++id) {
    Builder builder{
        {id}, key(id), "Builder", {static_cast<std::uint32_t>(between(0, benches))}, {}};
    if (coin()) builder.hours = hours();
    shop.builders.push_back(builder);
  }
  for (std::uint32_t id = 1; id <= kinds; ++id) shop.gear.push_back(gear(id));
  for (std::uint32_t id = 1; id <= sheets; ++id) {
    shop.sheets.push_back(sheet(id));
  }
  for (std::uint32_t id = 1; id <= recipes; ++id) {
    shop.recipes.push_back(recipe(id, sheets));
  }
  for (std::uint32_t id = 1; id <= builds; ++id) {
    Build build{.id = {id},
                .key = key(id),
                .name = "Build",
                .builder = {static_cast<std::uint32_t>(between(0, builders))},
                .steps = some<RecipeId>(
                    [&] { return RecipeId{static_cast<std::uint32_t>(between(1, recipes))}; }, 5),
                .done_before = 0,
                .due = {},
                .woods = {}};
    build.done_before = static_cast<int>(between(0, static_cast<std::int64_t>(build.steps.size())));
    if (coin()) build.due = Instant{Seconds{between(0, 4'000'000'000)}};
    if (coin()) build.woods = {{"back", "rosewood"}, {"top", "Größe"}};
    shop.builds.push_back(build);
  }
  return shop;
}

PhaseTimes Make::times() {
  return {instant(), instant(), instant(), instant(), instant(), instant()};
}

std::vector<AirPoint> Make::air() {
  std::vector<AirPoint> points;
  Instant at{Seconds{between(-1'000'000'000, 4'000'000'000)}};
  for (std::int64_t n = between(0, 20); n > 0; --n)
    points.push_back({at += Seconds{between(1, 100'000)}, celsius(), percent()});
  return points;
}

Lot Make::lot(std::uint32_t id) {
  return {.id = {id},
          .sheet = this->id<SheetId>(),
          .label = text(),
          .made = maybe_instant(),
          .opened = maybe_instant(),
          .expires = maybe_instant(),
          .stored = one_of<Stored>(2),
          .used_up = coin()};
}

Pot Make::pot() {
  return {.id = {static_cast<std::uint32_t>(between(1, 999))},
          .sheet = id<SheetId>(),
          .lot = id<LotId>(),
          .bench = id<BenchId>(),
          .mixed_at = instant(),
          .until = instant()};
}

GlueUp Make::glue_up() {
  const auto note = [&] {
    return WeatherNote{length(), length(), celsius(), maybe_instant(), id<GlueUpId>()};
  };
  return {.id = {static_cast<std::uint32_t>(between(1, 1'000'000))},
          .recipe = id<RecipeId>(),
          .build = id<BuildId>(),
          .step = static_cast<int>(between(0, 255)),
          .builder = id<BuilderId>(),
          .bench = id<BenchId>(),
          .sheet = id<SheetId>(),
          .lot = id<LotId>(),
          .pot = id<PotId>(),
          .plan = id<PlanId>(),
          .progress = one_of<Progress>(kProgresses),
          .demand = {length(), length(), length(), length(), length(), length(), length(),
                     some<GearNeed>([&] { return need(); })},
          .held = some<Held>([&] {
            return Held{id<GearKindId>(), count()};
          }),
          .times = times(),
          .promised = times(),
          .reserved_at = instant(),
          .wanted_from = instant(),
          .pressed_at = instant(),
          .waited_for_gear = length(),
          .started_at = maybe_instant(),
          .clamped_at = maybe_instant(),
          .off_at = maybe_instant(),
          .ended_at = maybe_instant(),
          .off_early = coin(),
          .outside_hours = coin(),
          .overruns = static_cast<int>(between(0, 99)),
          .snag = one_of<Snag>(kSnags),
          .snag_by = id<GlueUpId>(),
          .note = text(),
          .reason = text(),
          .weather = coin() ? std::optional(note()) : std::nullopt};
}

Body Make::body(std::size_t i) {
  const auto over = [&] { return one_of<Override>(2); };
  const auto at = [&] { return coin() ? kAtServer : instant(); };
  const GlueUpId g = id<GlueUpId>();
  switch (i) {
    case 0:
      return LoadShop{shop()};
    case 1: {
      Reserve r{id<RecipeId>(),
                id<BuildId>(),
                static_cast<int>(between(0, 255)),
                id<BuilderId>(),
                id<BenchId>(),
                id<SheetId>(),
                instant(),
                {},
                over(),
                id<LotId>(),
                text(),
                id<PotId>()};
      if (coin()) r.start = instant();
      return r;
    }
    case 2:
      return Move{g, instant(), over()};
    case 3:
      return Cancel{g};
    case 4:
      return Start{g, over(), id<PotId>()};
    case 5:
      return ClampsOn{g, at()};
    case 6:
      return ClampsOff{g, at(), over()};
    case 7:
      return Scraped{g, at(), over()};
    case 8:
      return Late{g, length()};
    case 9:
      return Spoiled{g, at(), text()};
    case 10:
      return Undo{g};
    case 11:
      return GearBroken{id<GearKindId>(), count(), text()};
    case 12:
      return GearMended{id<GearKindId>(), count()};
    case 13:
      return SetStock{id<GearKindId>(), count(0)};
    case 14:
      return ClimateReading{celsius(), percent()};
    // 15 is Tick
    case 16:
      return ReadClimate{air()};
    case 17:
      return SetForecast{air()};
    case 18:
      return PutLot{lot(static_cast<std::uint32_t>(between(0, 999)))};
    case 19:
      return MixPot{id<SheetId>(), id<LotId>(), id<BenchId>()};
    case 20:
      return AdoptPlan{some<Adopted>([&] {
        return Adopted{id<GlueUpId>(), instant(), id<SheetId>()};
      })};
    case 21:
      return UndoPlan{id<PlanId>()};
  }
  CHECK(!"no such body");
}

Event Make::event(std::size_t i) {
  switch (i) {
    case 0:
      return ShopLoaded{shop()};
    case 1:
      return GlueUpChanged{one_of<Change>(kChanges), glue_up()};
    case 2:
      return OutageChanged{{{static_cast<std::uint32_t>(between(1, 999))},
                            id<GearKindId>(),
                            count(),
                            {instant(), instant()},
                            text()}};
    case 3:
      return StockSet{id<GearKindId>(), count(0), instant()};
    case 4:
      return ClimateRead{instant(), celsius(), percent()};
    case 5:
      return ForecastSet{instant(), air()};
    case 6:
      return LotChanged{lot(static_cast<std::uint32_t>(between(1, 999)))};
    case 7:
      return PotMixed{pot()};
    case 8: {
      PlanRecord plan{{static_cast<std::uint32_t>(between(1, 999))},
                      instant(),
                      some<GlueUpId>([&] { return id<GlueUpId>(); }),
                      coin()};
      plan.glue_ups.push_back(id<GlueUpId>());
      return PlanChanged{plan};
    }
  }
  CHECK(!"no such event");
}

HeldBy Make::held_by() {
  const std::uint32_t who = static_cast<std::uint32_t>(between(1, 999));
  return {coin() ? Holder::of(GlueUpId{who}) : Holder::of(OutageId{who}), count(), span()};
}

Fact Make::fact() {
  switch (between(0, 8)) {
    case 0:
      return GearShort{need(),   some<GearKindId>([&] { return id<GearKindId>(); }),
                       count(),  count(0),
                       count(0), some<HeldBy>([&] { return held_by(); })};
    case 1:
      return ShopClosed{any_instant()};
    case 2:
      return BuilderBusy{id<BuilderId>(), id<GlueUpId>(), any_instant()};
    case 3: {
      TooCold fact{id<SheetId>(), celsius(), celsius(), any_instant(), {}};
      if (coin()) fact.until = any_instant();
      return fact;
    }
    case 4:
      return SkinsFirst{id<SheetId>(), length(), length(), celsius()};
    case 5:
      return BesideHeat{id<GlueUpId>(), any_instant()};
    case 6:
      return PotGels{id<PotId>(), id<SheetId>(), any_instant()};
    case 7:
      return BenchBusy{id<BenchId>(), id<GlueUpId>(), any_instant()};
    default:
      return NotReadyYet{id<GlueUpId>(), any_instant()};
  }
}

Slot Make::slot() {
  return {times(), some<Held>([&] {
            return Held{id<GearKindId>(), count()};
          }),
          some<Hindrance>([&] { return hindrance(); })};
}

Unfit Make::unfit() {
  const SheetId sheet = id<SheetId>();
  switch (between(0, 4)) {
    case 0:
      return BelowFloor{sheet, {real(-40, 100)}, {real(-40, 100)}};
    case 1:
      return OpenTooShort{sheet, length(), length()};
    case 2:
      return Unsuited{sheet, some<Reason>([&] {
                        return Reason{one_of<Rule>(kRules), one_of<Verdict>(4)};
                      })};
    case 3:
      return StaleLot{sheet, id<LotId>(), any_instant()};
    default:
      return GlueNotInRecipe{sheet};
  }
}

Refusal Make::refusal(std::size_t i) {
  switch (i) {
    case 0:
      return NoSuch{one_of<Thing>(kThings), number32()};
    case 1: {
      DoesNotFit no{some<Hindrance>([&] { return hindrance(); }), {}};
      if (coin()) no.next = slot();
      return no;
    }
    case 2:
      return NotPossible{unfit()};
    case 3:
      return WrongProgress{id<GlueUpId>(), one_of<Progress>(kProgresses)};
    case 4:
      return TooEarly{id<GlueUpId>(), any_instant()};
    case 5:
      return BadTime{any_instant(), any_instant(), any_instant()};
    case 6:
      return BadCount{count() - 20'000, count(), count()};
    case 7:
      return AlreadyReserved{id<GlueUpId>()};
    case 8:
      return StepMissing{id<BuildId>(), static_cast<int>(between(0, 255))};
    case 9:
      return BelowClaims{id<GearKindId>(), count(0), some<HeldBy>([&] { return held_by(); })};
    case 10:
      return NothingToUndo{id<GlueUpId>()};
    case 11:
      return BadShop{some<Mistake>([&] { return Mistake{text(), text(), text()}; })};
    case 12:
      return TooMany{one_of<Thing>(kThings), count()};
    case 13:
      return PotSpent{id<PotId>(), any_instant()};
    case 14:
      return BadAir{one_of<BadAir::What>(3), any_instant(), real(-1e6, 1e6), real(-1e6, 1e6),
                    real(-1e6, 1e6),         any_instant(), any_instant()};
    case 15:
      return PlanStale{id<GlueUpId>(), some<Hindrance>([&] { return hindrance(); })};
  }
  CHECK(!"no such refusal");
}

Hello Make::hello() {
  Hello hello{number32(), id128<DeviceTag>(), {}, number64()};
  if (coin()) hello.store = id128<StoreTag>();
  return hello;
}

Welcome Make::welcome() {
  return {number32(), id128<StoreTag>(), number64(), between(0, 1LL << 60), real(0, 1000), text()};
}

Delta Make::delta() {
  Delta delta{number64(), instant(), {}, {}};
  if (coin()) delta.command = id128<CommandTag>();
  for (std::int64_t n = between(0, 6); n > 0; --n)
    delta.events.push_back(
        event(static_cast<std::size_t>(between(0, std::variant_size_v<Event> - 1))));
  return delta;
}

Answer Make::answer(std::size_t i) {
  return {id128<CommandTag>(), number64(), refusal(i), id<GlueUpId>()};
}

Error Make::error(int code) {
  Error error{static_cast<ErrorCode>(code), text(), {}};
  if (coin()) error.command = id128<CommandTag>();
  return error;
}

}  // namespace squeezeout::testing
