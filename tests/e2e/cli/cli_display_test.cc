// A shop that reads 12 hours, inches and Fahrenheit: people are told so, scripts are told SI.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "tests/e2e/cli/command_line.h"

namespace squeezeout::test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string small_shop_text() {
  std::ifstream in{"tests/support/server/small_shop.textproto"};
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

struct CliDisplay : ::testing::Test {
  CliShop shop{{"--clock", "2026-11-26T15:40:00Z"}};

  Ran load(const std::string& display) {
    const auto file = shop.write("shop.textproto", small_shop_text() + display);
    return shop.run({"load", file.string()});
  }
};

TEST_F(CliDisplay, TheShopSaysHowItsFiguresAreRead) {
  ASSERT_EQ(load("display { clock: CLOCK_12_HOURS lengths: LENGTHS_INCH "
                 "degrees: DEGREES_FAHRENHEIT }\n")
                .exit_code,
            0);
  EXPECT_EQ(shop.run({"climate", "read", "20", "40"}).out, "Climate 68 °F, 40 % taken.\n");
  const std::string told = shop.run({"climate"}).out;
  EXPECT_THAT(told, HasSubstr("3:40 pm"));
  EXPECT_THAT(told, Not(HasSubstr("15:40")));
  EXPECT_EQ(shop.json({"climate"})["read"]["celsius"], 20) << "scripts are told SI";

  ASSERT_EQ(load("").exit_code, 0);
  EXPECT_THAT(shop.run({"climate"}).out, HasSubstr("15:40"));
  EXPECT_THAT(shop.run({"climate"}).out, HasSubstr("20 °C"));
}

TEST_F(CliDisplay, WhatNobodyReadsIsRefusedWithItsLine) {
  const Ran no = load("display {\n  clock: CLOCK_13_HOURS\n}\n");
  EXPECT_NE(no.exit_code, 0);
  EXPECT_THAT(no.err, HasSubstr("\"CLOCK_13_HOURS\" is none of its values"));
  EXPECT_THAT(no.err, HasSubstr("CLOCK_12_HOURS"));
}

TEST_F(CliDisplay, TwelveHoursAreTypedAsTheyAreShown) {
  ASSERT_EQ(load("display { clock: CLOCK_12_HOURS }\n").exit_code, 0);
  const auto joint = shop.json({"joint", "bridge", "--at", "4:30 pm"});
  EXPECT_EQ(joint["at"], "2026-11-26T16:30:00+00:00");
  const Ran no = shop.run({"joint", "bridge", "--at", "13:30 pm"});
  EXPECT_EQ(no.exit_code, 2);
  EXPECT_THAT(no.err, HasSubstr("from 12:00 am to 11:59 pm"));
}

}  // namespace
}  // namespace squeezeout::test
