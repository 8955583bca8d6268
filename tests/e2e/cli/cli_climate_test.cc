// The air from the command line: read, logged, forecast; what it changes; and the solvent in it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

struct CliClimate : ::testing::Test {
  CliShop shop{{"--shop", small_shop_file(), "--clock", "2026-03-02T16:00:00Z"}};

  // "2026-03-02T18:00" and celsius of each point.
  std::vector<std::pair<std::string, double>> forecast() {
    std::vector<std::pair<std::string, double>> out;
    const json climate = shop.json({"climate"});
    for (const json& p : climate["forecast"])
      out.emplace_back(p["at"].get<std::string>().substr(0, 16), p["celsius"]);
    return out;
  }
};
using Points = std::vector<std::pair<std::string, double>>;

TEST_F(CliClimate, WhatIsReadIsShown) {
  const json before = shop.json({"climate"});
  EXPECT_TRUE(before["read"]["at"].is_null()) << "nothing read yet";
  EXPECT_EQ(shop.run({"climate", "read", "-3.5", "40"}).out, "Climate -3.5 °C, 40 % taken.\n");
  EXPECT_EQ(shop.run({"climate", "read", "19.5", "48"}).exit_code, 0);
  const json now = shop.json({"climate", "show"});
  EXPECT_EQ(now["read"]["celsius"], 19.5);
  EXPECT_EQ(now["read"]["humidity_percent"], 48);
  EXPECT_THAT(shop.run({"climate"}).out, HasSubstr("read 16:00: 19.5 °C, 48 %\n"));
  EXPECT_EQ(shop.json({"climate", "read", "99", "48"}, 1)["done"], false);
  EXPECT_EQ(shop.run({"climate", "read", "19.5"}).exit_code, 2);
}

TEST_F(CliClimate, ANightFallsAndRises) {
  ASSERT_EQ(shop.run({"climate", "read", "21", "46"}).exit_code, 0);
  ASSERT_EQ(shop.run({"climate", "forecast", "--night", "13", "--to", "7:00"}).exit_code, 0);
  EXPECT_EQ(forecast(), (Points{{"2026-03-02T16:00", 21},
                                {"2026-03-02T18:00", 21},
                                {"2026-03-03T00:30", 13},
                                {"2026-03-03T07:00", 13},
                                {"2026-03-03T09:00", 21}}));
  EXPECT_THAT(shop.run({"climate"}).out, HasSubstr("Tue 7:00  13 °C      46 %"));
  ASSERT_EQ(shop.run({"climate", "forecast", "--none"}).out, "The forecast is taken away.\n");
  EXPECT_EQ(forecast(), Points{});
  EXPECT_THAT(shop.run({"climate"}).out, HasSubstr("no forecast"));
}

TEST(CliClimateAtNight, ItFallsFromNow) {
  CliShop shop({"--shop", small_shop_file(), "--clock", "2026-03-02T23:00:00Z"});
  ASSERT_EQ(shop.run({"climate", "read", "18", "46"}).exit_code, 0);
  ASSERT_EQ(shop.run({"climate", "forecast", "--night", "-2", "--humidity", "70"}).exit_code, 0);
  const json points = shop.json({"climate"})["forecast"];
  ASSERT_EQ(points.size(), 4U);
  EXPECT_EQ(points[0]["at"].get<std::string>().substr(0, 14), "2026-03-02T23:");
  EXPECT_EQ(points[1]["celsius"], -2);
  EXPECT_EQ(points[1]["humidity_percent"], 70);
  EXPECT_EQ(points[1]["at"].get<std::string>().substr(0, 16), "2026-03-03T03:00");
  EXPECT_EQ(points[2]["at"], "2026-03-03T07:00:00+00:00");
  EXPECT_EQ(points[3]["celsius"], 18);
}

TEST_F(CliClimate, TablesOfALogger) {
  std::string csv = "time,battery,celsius,humidity_percent\r\n";
  for (int i = 0; i < 120; ++i)  // a minute apart
    csv += "2026-03-02 " + std::to_string(13 + i / 60) + ":" + (i % 60 < 10 ? "0" : "") +
           std::to_string(i % 60) + ",3.1," + std::to_string(15 + i / 60) + ",50\r\n";
  const auto log = shop.write("log.csv", csv);
  const Ran taken = shop.run({"climate", "import", log.string()});
  EXPECT_EQ(taken.exit_code, 0) << taken.err;
  EXPECT_EQ(taken.out,
            "Not looked at: the column \"battery\".\n"
            "Of 120 readings: the last two days, five minutes apart.\n"
            "25 readings of the air taken.\n");
  EXPECT_EQ(shop.json({"climate"})["read"]["celsius"], 16);

  const auto old = shop.write("old.csv", "time,celsius,humidity_percent\n2026-02-02 9:00,15,50\n");
  EXPECT_EQ(shop.json({"climate", "import", old.string()}, 2)["done"], false);
  const auto late =
      shop.write("late.csv", "time,celsius,humidity_percent\n2026-03-02 19:00,15,50\n");
  EXPECT_EQ(shop.json({"climate", "import", late.string()}, 1)["refusal"]["what"], "at");
  const auto bad =
      shop.write("bad.csv", "time,celsius,humidity_percent\n2026-03-02 15:00,warm,50\n");
  const Ran no = shop.run({"climate", "import", bad.string()});
  EXPECT_EQ(no.exit_code, 2);
  EXPECT_THAT(no.err, HasSubstr(bad.string() + ":2"));

  const auto week = shop.write("week.csv",
                               "time,celsius,humidity_percent\n2026-03-02 20:00,14,50\n"
                               "2026-03-03 08:00,12,55\n");
  EXPECT_EQ(shop.run({"climate", "forecast", week.string()}).out,
            "Forecast taken, till Tue 8:00.\n");
  EXPECT_EQ(forecast(), (Points{{"2026-03-02T20:00", 14}, {"2026-03-03T08:00", 12}}));
}

TEST_F(CliClimate, AForecastIsOneThingOrAnother) {
  EXPECT_THAT(shop.run({"climate", "forecast"}).err, HasSubstr("Say --night 13"));
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {"climate", "forecast", "--night", "13", "--none"},
           {"climate", "forecast", "x.csv", "--night", "13"},
           {"climate", "forecast", "--from", "18:00"},
           {"climate", "forecast", "--night", "13", "--to", "noon"},
           {"climate", "rain"}})
    EXPECT_EQ(shop.run(arguments).exit_code, 2) << arguments.back();
}

TEST_F(CliClimate, AColdNightMakesALongDwellLongerAndSaysWhy) {
  ASSERT_EQ(shop.run({"climate", "read", "21", "46"}).exit_code, 0);
  const json reserved =
      shop.json({"reserve", "bridge", "--builder", "ida", "--at", "2026-03-03 2:00"});
  ASSERT_EQ(shop.run({"climate", "forecast", "--night", "9"}).exit_code, 0);
  // Below fish glue's 10 C it is moved to where it is warm again.
  const json changed = shop.json({"climate"})["changed"];
  ASSERT_EQ(changed.size(), 1U);
  EXPECT_EQ(changed[0]["glue_up"], reserved["glue_up"]);
  EXPECT_EQ(changed[0]["weather"]["moved_from"], "2026-03-03T02:00:00+00:00");
  EXPECT_GE(changed[0]["times"]["stage_begin"].get<std::string>(), "2026-03-03T07");
  const std::string shown = shop.run({"climate"}).out;
  EXPECT_THAT(shown, HasSubstr("what the weather changed\n"));
  EXPECT_THAT(shown, HasSubstr("moved Tue 2:00 -> 7:"));
  EXPECT_THAT(shop.run({"show", "1"}).out, HasSubstr("weather   moved Tue 2:00"));
}

TEST(CliAir, SumsTheSolventOfTheDay) {
  CliShop demo({"--demo", "--clock", "2026-03-05T14:12:00Z"});
  EXPECT_EQ(demo.json({"air", "--date", "2026-03-07"})["uses"].size(), 0U);
  const std::size_t before = demo.json({"air"})["uses"].size();
  ASSERT_EQ(demo.run({"reserve", "binding-plastic-1", "--builder", "ren"}).exit_code, 0);
  const json air = demo.json({"air"});
  ASSERT_EQ(air["uses"].size(), before + 1);
  EXPECT_EQ(air["uses"].back()["solvent"], "butanone (MEK)");
  EXPECT_EQ(air["sums"]["greatest"], "butanone");
  EXPECT_GT(air["sums"]["peak_ppm"], 0);
  EXPECT_GT(air["sums"]["share_of_limit"], 0);
  EXPECT_LT(air["sums"]["averages"][0]["average_ppm"], air["sums"]["peak_ppm"]);
  const std::string text = demo.run({"air"}).out;
  EXPECT_THAT(text, HasSubstr("limits of NIOSH"));
  EXPECT_THAT(text, HasSubstr("Local codes and the data sheet decide.\n"));
}

}  // namespace
}  // namespace squeezeout::test
