// The day sheet as text and as a table, of a day that was really run.

#include "client/words/day_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "client/words/columns.h"
#include "tests/unit/client/small_shop.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using namespace std::chrono_literals;
using ::testing::HasSubstr;

struct DayWords : ::testing::Test {
  PlayedFloor played;
  // One bridge from reserved to clamps off, its clamps on a minute late; one more reserved for tomorrow.
  void SetUp() override {
    const GlueUpId g = played.reserve(kBridge, kIda);
    played.now = at("2026-11-26T09:10:00Z");
    ASSERT_FALSE(played.press(Start{g}));
    played.now = at("2026-11-26T09:15:00Z");
    ASSERT_FALSE(played.press(ClampsOn{g, played.now}));
    played.now = at("2026-11-26T10:05:00Z");
    ASSERT_FALSE(played.press(ClampsOff{g, played.now}));
    const Instant tomorrow = at("2026-11-27T08:30:00Z");
    ASSERT_FALSE(played.press(Reserve{.recipe = kBridge,
                                      .build = {},
                                      .step = 0,
                                      .builder = kOla,
                                      .bench = {},
                                      .sheet = {},
                                      .after = played.now,
                                      .start = tomorrow}));
    played.now += 1min;
  }
  DaySheet sheet() const {
    using namespace std::chrono;
    return day_sheet(played.floor, year{2026} / November / 26, played.now);
  }
  Context here() const { return {played.floor, played.now}; }
};

TEST_F(DayWords, TextSaysTheDay) {
  const std::string text = day_text(here(), sheet());
  EXPECT_THAT(text, HasSubstr("Day sheet  Thu 26 Nov 2026  Small shop  as of 10:06"));
  EXPECT_THAT(text, HasSubstr("Open 2 h 06 so far"));
  EXPECT_THAT(text, HasSubstr("Started 1, finished "));
  EXPECT_THAT(text, HasSubstr("Bridge"));
  EXPECT_THAT(text, HasSubstr("4 min > 5 min"));
  EXPECT_THAT(text, HasSubstr("40 min > 50 min"));
  EXPECT_THAT(text, HasSubstr("4 of 6"));
  EXPECT_THAT(text, HasSubstr("first tomorrow"));
  EXPECT_THAT(text, HasSubstr("Fri 8:30"));
  EXPECT_THAT(text, HasSubstr("start, 4 deep clamps"));
}

TEST_F(DayWords, NoLineIsTooWide) {
  Shop wide = small_shop();
  wide.builders[0].name = std::string(60, 'w');
  wide.recipes[0].name =
      "Brücke mit einem sehr langen Namen, der nirgends in eine Spalte passt, auch hier nicht";
  wide.gear[0].name = std::string(80, 'g');
  wide.name = std::string(120, 's');
  ASSERT_FALSE(played.press(LoadShop{wide}));
  std::istringstream lines(day_text(here(), sheet()));
  int count = 0;
  for (std::string line; std::getline(lines, line); ++count)
    EXPECT_LE(width(line), kDayColumns) << line;
  EXPECT_GT(count, 10);
}

TEST_F(DayWords, AnEmptyDayIsSaidSo) {
  using namespace std::chrono;
  const std::string text =
      day_text(here(), day_sheet(played.floor, year{2026} / November / 28, played.now));
  EXPECT_THAT(text, HasSubstr("Closed\n"));
  EXPECT_THAT(text, HasSubstr("Nothing was glued."));
}

TEST_F(DayWords, CellsAreForASpreadsheet) {
  const Cells cells = day_cells(here(), sheet());
  ASSERT_EQ(cells.size(), 2U);
  std::map<std::string, std::string> row;
  ASSERT_EQ(cells[0].size(), cells[1].size());
  for (std::size_t i = 0; i < cells[0].size(); ++i) row[cells[0][i]] = cells[1][i];
  EXPECT_EQ(row["date"], "2026-11-26");
  EXPECT_EQ(row["recipe"], "bridge");
  EXPECT_EQ(row["builder"], "Ida");
  EXPECT_EQ(row["progress"], "waiting");
  EXPECT_EQ(row["clamped_at"], "2026-11-26T09:15:00+00:00");
  EXPECT_EQ(row["ended_at"], "");
  EXPECT_EQ(row["open_actual_seconds"], "300");
  EXPECT_EQ(row["dwell_planned_seconds"], "2400");
  EXPECT_EQ(row["dwell_actual_seconds"], "3000");
}

TEST_F(DayWords, GearHasItsOwnTable) {
  const Cells cells = day_gear_cells(here(), sheet());
  ASSERT_GE(cells.size(), 2U);
  for (const auto& row : cells) EXPECT_EQ(row.size(), cells[0].size());
  EXPECT_EQ(cells[1][1], "deep-clamp");
  EXPECT_EQ(cells[1][3], "6");
  EXPECT_EQ(cells[1][4], "15600") << "4 clamps from 9:00 to 10:05";
}

}  // namespace
}  // namespace squeezeout::words
