// What the weather did, as a builder reads it.

#include <set>

#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;

TEST_F(Words, WhatTheWeatherDid) {
  const GlueUpId by = played.reserve(kBraces, kOla);
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  const Context c = here();
  EXPECT_EQ(weather(c, g), "") << "nothing";
  g.weather = WeatherNote{30min, 60min, {13.2}, {}, {}};
  EXPECT_EQ(weather(c, g), "dwell 30 -> 60 min: 13 °C");
  EXPECT_EQ(weather_short(c, g), "dwell 30 -> 60 min");
  g.weather = WeatherNote{150min, 24h, {13.2}, {}, {}};
  EXPECT_EQ(weather(c, g), "dwell 2 h 30 -> 24 h: 13 °C");

  // Another stays clamped longer, or is itself only later.
  g.weather = WeatherNote{30min, 30min, {12.6}, c.now - 30min, by};
  g.times.stage_begin = c.now;
  const std::string moved = "moved 8:30 -> 9:00";
  EXPECT_EQ(weather(c, g), moved + ": Ola Nord's glue-up is later (top braces), 13 °C");
  GlueUp& other = played.floor.glue_ups.at(by);
  other.weather = WeatherNote{30min, 60min, {13}, {}, {}};
  EXPECT_EQ(weather(c, g), moved + ": Ola Nord's glue-up stays clamped longer (top braces), 13 °C");
  EXPECT_EQ(weather_short(c, g), moved);

  // A day is said once.
  g.weather = WeatherNote{30min, 30min, {9}, c.now + 24h, {}};
  g.times.stage_begin = c.now + 25h;
  EXPECT_EQ(weather_short(c, g), "moved Fri 9:00 -> 10:00");
  g.times.stage_begin = c.now + 4 * 24h;
  EXPECT_EQ(weather_short(c, g), "moved Fri 9:00 -> Mon 9:00");
  g.times.stage_begin = c.now;

  // Its own weather: too cold for the glue, or so warm that it would skin.
  g.weather = WeatherNote{30min, 45min, {9}, c.now - 30min, {}};
  EXPECT_EQ(weather(c, g),
            moved + ", dwell 30 -> 45 min: too cold before for aliphatic resin, 9 °C");
  g.weather = WeatherNote{30min, 30min, {31}, c.now - 30min, {}};
  EXPECT_EQ(weather(c, g), moved + ": aliphatic resin would skin too soon before, 31 °C");
}

TEST_F(Words, ClampsThatAreOnBelowTheFloorAreWorthATest) {
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  g.weather = WeatherNote{30min, 60min, {9.96}, {}, {}};
  EXPECT_EQ(weather(here(), g), "dwell 30 -> 60 min: 10 °C") << "it will be moved";
  const std::string told =
      "9.9 °C, below its floor of 10 °C: the film may not form, test it before you trust it";
  for (const Progress p : {Progress::open, Progress::clamped, Progress::waiting}) {
    g.progress = p;
    EXPECT_EQ(weather(here(), g), "dwell 30 -> 60 min: " + told);
  }
  g.weather->dwell = g.weather->dwell_before;  // a recipe that asks for longer anyway
  EXPECT_EQ(weather(here(), g), told);
  played.floor.shop->sheets.at(1).chemistry = Chemistry::epoxy_slow;
  EXPECT_EQ(weather(here(), g),
            "9.9 °C, below its floor of 10 °C: it may not set, test it before you trust it");
  g.weather->coldest = {10};
  EXPECT_EQ(weather(here(), g), "");
}

TEST_F(Words, WhatTheWeatherTookAway) {
  GlueUp g = glue_up(played.reserve(kBridge, kIda));
  g.progress = Progress::displaced;
  g.weather = WeatherNote{30min, 30min, {8.5}, {}, {}};
  g.snag = Snag::too_cold;
  EXPECT_EQ(snag(here(), g),
            "lost its place: too cold for aliphatic resin, the wood would be at 8.5 °C");
  EXPECT_EQ(weather(here(), g), snag(here(), g));
  g.snag = Snag::weather;
  EXPECT_EQ(snag(here(), g),
            "lost its place: aliphatic resin would skin before the clamps are on, the wood would "
            "be at 8.5 °C");
}

TEST_F(Words, DegreesAndDates) {
  EXPECT_EQ(degrees(here(), {13}), "13 °C");
  EXPECT_EQ(degrees(here(), {13.04}), "13 °C");
  EXPECT_EQ(degrees(here(), {-0.01}), "0 °C");
  EXPECT_EQ(degrees_below(here(), {9.96}), "9.9 °C");
  EXPECT_EQ(date(here(), at("2026-11-03T10:00:00Z")), "Tue 3 Nov");
  EXPECT_EQ(date(here(), at("2025-11-03T10:00:00Z")), "Mon 3 Nov 2025");
  EXPECT_EQ(exact(59s), "59 s");
  EXPECT_EQ(exact(4min), "4 min");
  EXPECT_EQ(exact(3min + 5s), "3 m 05 s");
  EXPECT_EQ(exact(12min + 20s), "12 min");
}

}  // namespace
}  // namespace squeezeout::words
