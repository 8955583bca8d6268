#include "proto/shop_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "common/time/rfc3339.h"
#include "tests/support/floor/small_shop.h"
#include "tests/unit/proto/shop_texts.h"

namespace squeezeout {
namespace {

using testing::kCraftText;
using testing::kShopText;

Shop read(const std::string& text) {
  const auto shop = read_shop_file("test", text);
  if (!shop)
    for (const FileMistake& m : shop.error()) ADD_FAILURE() << to_text(m);
  return shop ? *shop : Shop{};
}

TEST(ShopFile, ReadsEveryPart) {
  const Shop shop = read(kShopText);
  EXPECT_EQ(shop.name, "Test loft");
  EXPECT_EQ(shop.zone, "Europe/Dublin");
  EXPECT_TRUE(shop.hours.weekday[0].empty());  // Sunday
  EXPECT_THAT(shop.hours.weekday[5],
              ::testing::ElementsAre(DaySpan{8 * 60, 17 * 60 + 30}));  // Friday
  ASSERT_EQ(shop.hours.exceptions.size(), 1u);
  EXPECT_THAT(shop.hours.exceptions.begin()->second,
              ::testing::ElementsAre(DaySpan{9 * 60, 12 * 60}));
  ASSERT_EQ(shop.builders.size(), 1u);
  EXPECT_EQ(shop.builders[0].bench, shop.benches[0].id);
  EXPECT_FALSE(shop.builders[0].hours);
  ASSERT_EQ(shop.sheets.size(), 1u);
  EXPECT_EQ(shop.sheets[0].open, Minutes{5});
  EXPECT_EQ(shop.sheets[0].wait, std::chrono::hours{4});
  EXPECT_EQ(shop.sheets[0].dwell[1].dwell, Minutes{45});
  ASSERT_EQ(shop.recipes.size(), 2u);
  EXPECT_THAT(shop.recipes[0].glues, ::testing::ElementsAre(shop.sheets[0].id));
  EXPECT_FALSE(shop.recipes[0].dwell);
  EXPECT_EQ(shop.recipes[1].dwell, Minutes{60});
  ASSERT_EQ(shop.builds.size(), 1u);
  EXPECT_THAT(shop.builds[0].steps, ::testing::ElementsAre(shop.recipes[1].id, shop.recipes[0].id));
  EXPECT_EQ(shop.builds[0].done_before, 1);
}

TEST(ShopFile, UnitsBecomeKindsOfTheirOwn) {
  const Shop shop = read(kShopText);
  ASSERT_EQ(shop.gear.size(), 4u);
  EXPECT_EQ(shop.gear[2].key, "deck/A");
  EXPECT_EQ(shop.gear[3].key, "deck/B");
  EXPECT_EQ(shop.gear[3].name, "Go-bar deck B");
  EXPECT_EQ(shop.gear[3].tag, "B");
  EXPECT_EQ(shop.gear[3].stock, 1);
  EXPECT_EQ(shop.gear[3].id, GearKindId{4});
}

TEST(ShopFile, ADueDateIsTheEndOfThatDayInTheShop) {
  EXPECT_EQ(read(kShopText).builds[0].due, parse_rfc3339("2026-12-19T00:00:00Z"));
  std::string text = kShopText;
  const std::string date = "\"2026-12-18\"";
  text.replace(text.find(date), date.size(),
               "\"2026-07-03\"");  // Irish summer time is an hour ahead
  EXPECT_EQ(read(text).builds[0].due, parse_rfc3339("2026-07-03T23:00:00Z"));
  text.replace(text.find("\"2026-07-03\""), date.size(), "\"2026-07-03T12:30:00+02:00\"");
  EXPECT_EQ(read(text).builds[0].due, parse_rfc3339("2026-07-03T10:30:00Z"));
}

TEST(ShopFile, ReadsWhatTheCraftNeeds) {
  const Shop shop = read(kCraftText);
  EXPECT_EQ(shop.daily, (std::vector<DailyAir>{{6 * 60 + 30, {14}, {50}}, {18 * 60, {20}, {45}}}));
  EXPECT_EQ(shop.service, (ServiceAir{{21}, {40}}));
  EXPECT_EQ(shop.room, (Room{180, 6, LimitSet::osha}));
  ASSERT_EQ(shop.gear.size(), 4u);
  EXPECT_EQ(shop.gear[0].pad, Millimetre{25});
  EXPECT_EQ(shop.gear[0].torque, NewtonMetre{6});
  EXPECT_EQ(shop.gear[1].rod_width, Millimetre{12});
  EXPECT_EQ(shop.gear[1].rod_thickness, Millimetre{5});
  EXPECT_EQ(shop.gear[1].rod_stiffness, Gigapascal{13.5});
  EXPECT_EQ(shop.gear[1].rod_strength, Megapascal{100});
  ASSERT_EQ(shop.sheets.size(), 3u);
  EXPECT_EQ(shop.sheets[0].closed, Minutes{4});
  EXPECT_EQ(shop.sheets[0].shelf_days, 365);
  EXPECT_EQ(shop.sheets[1].working_life, Minutes{120});
  EXPECT_EQ(shop.sheets[1].activation_kj, 55);
  EXPECT_EQ(shop.sheets[1].full_cure, std::chrono::hours{72});
  EXPECT_EQ(shop.sheets[2].solvent, (Solvent{"butanone", 6}));
  ASSERT_EQ(shop.recipes.size(), 2u);
  const Joint brace{.length = {300},
                    .width = {7},
                    .a = {"top", "sitka-spruce"},
                    .b = {"", "red-spruce"},
                    .thickness = {2.5},
                    .under = {10},
                    .gap = {0.1},
                    .plate = {400},
                    .radius = {},
                    .least_pressure = {0.1},
                    .spread_g_m2 = 120,
                    .traits = {Trait::bracing, Trait::pale}};
  EXPECT_EQ(shop.recipes[0].joint, brace);
  EXPECT_EQ(shop.recipes[0].needs[0].count, 0) << "worked out";
  EXPECT_EQ(shop.recipes[1].joint.radius, Millimetre{60});
  EXPECT_EQ(shop.recipes[1].joint.least_pressure, Joint{}.least_pressure);
  EXPECT_EQ(shop.recipes[1].heat, (Heat{Minutes{15}, Minutes{45}, {150}}));
  EXPECT_FALSE(shop.recipes[1].dwell);
  EXPECT_EQ(shop.builds[0].woods, (Woods{{"sides", "koa"}, {"top", "western-redcedar"}}));
}

TEST(ShopFile, ReadsAndWritesHowFiguresAreWritten) {
  using Clock = Display::Clock;
  using Lengths = Display::Lengths;
  using Degrees = Display::Degrees;
  EXPECT_EQ(read(kShopText).display, (Display{Clock::hours_24, Lengths::mm, Degrees::celsius}));
  EXPECT_EQ(read(kCraftText).display,
            (Display{Clock::hours_12, Lengths::inch, Degrees::fahrenheit}));
  const Shop warm = read(kShopText + "display { degrees: DEGREES_FAHRENHEIT }\n");
  EXPECT_EQ(warm.display, (Display{Clock::hours_24, Lengths::mm, Degrees::fahrenheit}));
  EXPECT_THAT(write_shop_file(warm),
              ::testing::HasSubstr("\n\ndisplay {\n  degrees: DEGREES_FAHRENHEIT\n}\n"));
  EXPECT_EQ(read(write_shop_file(warm)), warm);
  EXPECT_THAT(write_shop_file(read(kShopText)), ::testing::Not(::testing::HasSubstr("display")));
}

TEST(ShopFile, WhatIsLeftOutOfTheAirIsUsual) {
  const Shop shop = read(kShopText +
                         "service { celsius: 18 }\nroom { volume_m3: 90 "
                         "air_m3_per_minute: 2 }\n");
  EXPECT_EQ(shop.service, (ServiceAir{{18}, ServiceAir{}.humidity}));
  EXPECT_EQ(shop.room.limits, LimitSet::niosh);
  EXPECT_EQ(read(kShopText).service, ServiceAir{});
  EXPECT_EQ(read(write_shop_file(shop)), shop);
  EXPECT_THAT(write_shop_file(shop), ::testing::Not(::testing::HasSubstr("limits")));
}

TEST(ShopFile, WritesWhatItReadsOfTheCraft) {
  const Shop shop = read(kCraftText);
  const std::string text = write_shop_file(shop);
  EXPECT_EQ(read(text), shop);
  EXPECT_EQ(write_shop_file(read(text)), text);
  EXPECT_THAT(text, ::testing::HasSubstr("\n\ndaily {\n  at: \"06:30\"\n"));
  EXPECT_THAT(text, ::testing::HasSubstr("    trait: TRAIT_BRACING\n    trait: TRAIT_PALE\n"));
  EXPECT_EQ(text.find("least_pressure_mpa"), text.rfind("least_pressure_mpa")) << "what is usual";
}

TEST(ShopFile, WritesWhatItReads) {
  const Shop shop = read(kShopText);
  EXPECT_EQ(read(write_shop_file(shop)), shop);
}

TEST(ShopFile, WritesOneFieldALineWithoutIdsAndDefaults) {
  const std::string text = write_shop_file(read(kShopText));
  EXPECT_THAT(text,
              ::testing::HasSubstr(
                  "\n\ngear {\n  key: \"deck\"\n  name: \"Go-bar deck\"\n  class: GEAR_CLASS_DECK\n"
                  "  unit: \"A\"\n  unit: \"B\"\n}\n"));
  EXPECT_THAT(text, ::testing::HasSubstr("  dwell {\n    celsius: 10\n    minutes: 60\n  }\n"));
  EXPECT_THAT(text, ::testing::HasSubstr("  due: \"2026-12-18\"\n"));
  EXPECT_THAT(text, ::testing::Not(::testing::HasSubstr("id:")));
  EXPECT_THAT(text, ::testing::Not(::testing::HasSubstr("climate")));
}

// What a file can say beyond the plain case.
TEST(ShopFile, RoundTripOfAFullShop) {
  Shop shop = testing::small_shop("Australia/Lord_Howe");
  shop.climate_celsius = {0};
  shop.climate_humidity = {0};
  shop.hours.weekday[0] = {{600, 720}, {720, 1440}};
  shop.hours
      .exceptions[Date{std::chrono::year{2026}, std::chrono::month{12}, std::chrono::day{25}}] = {};
  shop.builders[0].hours = shop.hours;
  shop.builders[0].hours->exceptions.clear();
  shop.builders[1].hours =
      WeekHours{shop.hours.weekday, {{std::chrono::year{2027} / 1 / 4, {{60, 61}}}}};
  shop.sheets[0].open = Seconds{7};
  shop.sheets[0].dwell[0].dwell = Seconds{3661};
  shop.sheets[0].wait = Seconds{601};
  shop.recipes[0].stage = Seconds{1};
  for (Recipe& recipe : shop.recipes) recipe.assembly = Seconds{5};
  shop.recipes[0].wait = Seconds{0};
  shop.recipes[0].caution = "Größe \"10\" – vorsichtig";
  shop.gear[0].stock = 0;  // out of use; the recipe that needs it would not pass the check
  shop.recipes[0].needs.clear();
  shop.gear[2].hot = true;
  shop.gear[3].outline = "parlour";  // deck A is no longer like deck B
  shop.builds[0].due = parse_rfc3339("2026-12-01T08:00:00Z");
  shop.daily = {{0, {-3.5}, {0}}, {1439, {0}, {100}}};
  shop.service = {{0}, {45}};
  shop.room = {5, 0.01, LimitSet::osha};
  shop.sheets[0].closed = Seconds{3};
  shop.sheets[0].working_life = Seconds{61};
  shop.sheets[0].full_cure = Seconds{90'001};
  shop.sheets[0].shelf_days = 1;
  shop.sheets[0].solvent = {"acetone", 0.5};
  EXPECT_EQ(read(write_shop_file(shop)), shop);
}

TEST(ShopFile, ASingleUnitMayStandByItself) {
  Shop shop = read(kShopText);
  shop.gear[2].name = "The old deck";  // no longer "Go-bar deck A"
  shop.gear[3].stock = 0;
  const std::string text = write_shop_file(shop);
  EXPECT_THAT(text, ::testing::HasSubstr("key: \"deck/A\"\n  name: \"The old deck\""));
  EXPECT_EQ(read(text), shop);
}

// Letters changed, lines dropped and doubled: read, or refused with mistakes that can be told. Never a crash.
TEST(ShopFile, DamagedTextIsReadOrRefused) {
  std::mt19937_64 random(1126);
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::string_view letters = "{}<>:;,#\"\\ \n\t-.0a\xff";
  int taken = 0, refused = 0;
  for (int n = 0; n < 1000; ++n) {
    std::string text = n % 2 == 0 ? kShopText : kCraftText;
    for (std::size_t damage = 1 + below(3); damage > 0; --damage) {
      const std::size_t at = below(text.size());
      const std::size_t line = text.find('\n', at);
      if (const std::size_t kind = below(3); kind == 0 || line == std::string::npos)
        text[at] = letters[below(letters.size())];
      else if (kind == 1)
        text.erase(at, line - at);
      else
        text.insert(line, text.substr(at, line - at));
    }
    const auto shop = read_shop_file("damaged", text);
    ++(shop ? taken : refused);
    if (shop) {
      EXPECT_EQ(read(write_shop_file(*shop)), *shop);
      continue;
    }
    ASSERT_FALSE(shop.error().empty());
    for (const FileMistake& m : shop.error()) EXPECT_FALSE(m.what.empty() || m.mend.empty());
  }
  EXPECT_GT(taken, 0);
  EXPECT_GT(refused, 0);
}

}  // namespace
}  // namespace squeezeout
