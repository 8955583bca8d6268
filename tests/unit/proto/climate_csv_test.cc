#include "proto/climate_csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/floor/small_shop.h"

namespace squeezeout {
namespace {

using testing::at;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const Zone& dublin() {
  static const Zone zone = Zone::find("Europe/Dublin").value();
  return zone;
}

ClimateTable read(std::string_view text) {
  auto table = read_climate_csv("air.csv", text, dublin());
  if (!table)
    for (const FileMistake& m : table.error()) ADD_FAILURE() << to_text(m);
  return table ? *table : ClimateTable{};
}

TEST(ClimateCsv, ReadsTimesOfEitherKind) {
  const ClimateTable table = read(
      "time,celsius,humidity_percent\r\n"
      "2026-11-25T16:00:00Z,18.5,44\r\n"
      "2026-11-25T17:10:00.25+01:00,18,45\r\n"
      "2026-11-25 16:20,17.5,46\r\n"
      "2026-11-25T16:30:05,-1,0\r\n");
  EXPECT_THAT(table.points, ElementsAre(AirPoint{at("2026-11-25T16:00:00Z"), {18.5}, {44}},
                                        AirPoint{at("2026-11-25T16:10:00Z"), {18}, {45}},
                                        AirPoint{at("2026-11-25T16:20:00Z"), {17.5}, {46}},
                                        AirPoint{at("2026-11-25T16:30:05Z"), {-1}, {0}}));
  EXPECT_EQ(table.merged, 0);
  EXPECT_THAT(table.left_out, IsEmpty());
}

TEST(ClimateCsv, TimesWithoutAnOffsetAreTheShops) {
  const ClimateTable table = read("time,celsius,humidity_percent\n2026-07-01 16:00,20,50\n");
  ASSERT_EQ(table.points.size(), 1u);
  EXPECT_EQ(table.points[0].at, at("2026-07-01T15:00:00Z")) << "an hour ahead in summer";
}

TEST(ClimateCsv, ColumnsAreFoundByNameAndOthersAreNamed) {
  const ClimateTable table = read(
      "\xEF\xBB\xBF No ,Humidity_Percent,TIME,celsius ,\"dew, point\",\xff\n"
      "1, 44 ,2026-11-25T16:00:00Z, 18.5,7,x\n");
  EXPECT_THAT(table.points, ElementsAre(AirPoint{at("2026-11-25T16:00:00Z"), {18.5}, {44}}));
  EXPECT_THAT(table.left_out, ElementsAre(" No ", "dew, point", "column 6"));
}

TEST(ClimateCsv, Fahrenheit) {
  const ClimateTable table = read(
      "time,fahrenheit,humidity_percent\n2026-11-25T16:00:00Z,68,44\n2026-11-25T17:00:00Z,-40,44\n"
      "2026-11-25T18:00:00Z,140,44\n");
  ASSERT_EQ(table.points.size(), 3u);
  EXPECT_EQ(table.points[0].air, Celsius{20});
  EXPECT_EQ(table.points[1].air, Celsius{-40});
  EXPECT_EQ(table.points[2].air, Celsius{60});
}

TEST(ClimateCsv, PointsAreSortedAndEqualInstantsMerged) {
  const ClimateTable table = read(
      "time,celsius,humidity_percent\n"
      "2026-11-25T18:00:00Z,14,50\n"
      "2026-11-25T16:00:00Z,18,44\n"
      "2026-11-25 18:00,15,51\n"
      "2026-11-25T17:00:00Z,16,47\n"
      "2026-11-25T19:00:00+01:00,13,52\n");
  EXPECT_THAT(table.points, ElementsAre(AirPoint{at("2026-11-25T16:00:00Z"), {18}, {44}},
                                        AirPoint{at("2026-11-25T17:00:00Z"), {16}, {47}},
                                        AirPoint{at("2026-11-25T18:00:00Z"), {13}, {52}}))
      << "the last row of an instant";
  EXPECT_EQ(table.merged, 2);
}

TEST(ClimateCsv, ATimeThatComesTwiceIsToldByItsOffset) {
  const ClimateTable table = read(
      "time,celsius,humidity_percent\n"
      "2026-10-25T01:30:00+01:00,14,50\n"
      "2026-10-25T01:30:00+00:00,13,50\n"
      "2026-10-25 02:00,12,50\n");
  EXPECT_THAT(table.points, ElementsAre(AirPoint{at("2026-10-25T00:30:00Z"), {14}, {50}},
                                        AirPoint{at("2026-10-25T01:30:00Z"), {13}, {50}},
                                        AirPoint{at("2026-10-25T02:00:00Z"), {12}, {50}}));
}

struct Wrong {
  const char* name;
  std::string table;
  int line;
  const char* field;
  const char* what;
  const char* mend;
};
class ClimateCsvMistakes : public ::testing::TestWithParam<Wrong> {};

TEST_P(ClimateCsvMistakes, NamesLineColumnAndMend) {
  const Wrong& c = GetParam();
  const auto table = read_climate_csv("air.csv", c.table, dublin());
  ASSERT_FALSE(table);
  ASSERT_EQ(table.error().size(), 1u) << to_text(table.error()[1]);
  const FileMistake& m = table.error()[0];
  EXPECT_EQ(m.file, "air.csv");
  EXPECT_EQ(m.line, c.line) << to_text(m);
  EXPECT_EQ(m.field, c.field) << to_text(m);
  EXPECT_THAT(m.what, HasSubstr(c.what));
  EXPECT_THAT(m.mend, HasSubstr(c.mend));
}

// A right row, and the wrong one on line 3.
std::string third(const std::string& row) {
  return "time,celsius,humidity_percent\n2026-11-25 16:00,20,50\n" + row + "\n";
}

INSTANTIATE_TEST_SUITE_P(
    All, ClimateCsvMistakes,
    ::testing::Values(
        Wrong{"Empty", "", 0, "", "the table is empty", "time,celsius,humidity_percent"},
        Wrong{"NoRows", "time,celsius,humidity_percent\n", 0, "", "has no row", "a row a reading"},
        Wrong{"NoTime", "when,celsius,humidity_percent\n1,2,3\n", 1, "",
              "no column is called \"time\"", "when it was read"},
        Wrong{"NoTemperature", "time,temp,humidity_percent\n1,2,3\n", 1, "",
              "no column is called \"celsius\"", "or \"fahrenheit\""},
        Wrong{"NoHumidity", "time,celsius,rh\n1,2,3\n", 1, "",
              "no column is called \"humidity_percent\"", "relative humidity"},
        Wrong{"ColumnTwice", "time,celsius,Time,humidity_percent\n1,2,3,4\n", 1, "",
              "the column \"time\" comes twice", "keep one"},
        Wrong{"BothScales", "time,celsius,fahrenheit,humidity_percent\n1,2,3,4\n", 1, "",
              "\"celsius\" and \"fahrenheit\"", "keep one"},
        Wrong{"DayFirst", third("25.11.2026 17:00,20,50"), 3, "time",
              "\"25.11.2026 17:00\" is no time", "2026-11-25 16:00"},
        Wrong{"NoSuchDay", third("2026-02-30 17:00,20,50"), 3, "time", "is no time", "2026-11-25"},
        Wrong{"HourTwentyFour", third("2026-11-25 24:00,20,50"), 3, "time", "is no time",
              "2026-11-25"},
        Wrong{"TimeLeftOut", third(",20,50"), 3, "time", "\"\" is no time", "by the shop's clock"},
        Wrong{"ClocksGoForward", third("2026-03-29 01:30,20,50"), 3, "time",
              "is no time in Europe/Dublin", "offset from UTC"},
        Wrong{"ClocksGoBack", third("2026-10-25 01:30,20,50"), 3, "time", "comes twice",
              "\"2026-10-25T01:30:00+01:00\" or \"2026-10-25T01:30:00+00:00\""},
        Wrong{"NoNumber", third("2026-11-25 17:00,warm,50"), 3, "celsius", "\"warm\" is no number",
              "21.5"},
        Wrong{"DecimalComma", third("2026-11-25 17:00,\"20,5\",50"), 3, "celsius",
              "\"20,5\" is no number", "21.5"},
        Wrong{"UnitInTheCell", third("2026-11-25 17:00,20,50%"), 3, "humidity_percent",
              "\"50%\" is no number", "21.5"},
        Wrong{"CellLeftOut", third("2026-11-25 17:00,20,"), 3, "humidity_percent", "is empty",
              "leave out the row"},
        Wrong{"NotANumber", third("2026-11-25 17:00,nan,50"), 3, "celsius", "is nan",
              "use -40 to 60"},
        Wrong{"TooHot", third("2026-11-25 17:00,60.5,50"), 3, "celsius", "is 60.5",
              "use -40 to 60"},
        Wrong{"TooHumid", third("2026-11-25 17:00,20,101"), 3, "humidity_percent", "is 101",
              "use 0 to 100"},
        Wrong{"FahrenheitTooHot", "time,fahrenheit,humidity_percent\n2026-11-25 16:00,141,50\n", 2,
              "fahrenheit", "is 141", "use -40 to 140"},
        Wrong{"Ragged", third("2026-11-25 17:00,20"), 3, "", "the row has 2 cells, the first row 3",
              "as many"},
        Wrong{"QuoteLeftOpen", third("2026-11-25 17:00,20,\"50"), 3, "", "a quote is not closed",
              "end the cell"}),
    [](const auto& param) { return param.param.name; });

TEST(ClimateCsv, TellsAllMistakesAtOnceButNoMoreThanAPersonReads) {
  const auto table = read_climate_csv(
      "air.csv", third("yesterday,hot,50\n2026-11-25 18:00,20,50\n2026-11-25 19:00,20,500"),
      dublin());
  ASSERT_FALSE(table);
  std::vector<std::string> fields;
  for (const FileMistake& m : table.error()) fields.push_back(m.field);
  EXPECT_THAT(fields, ElementsAre("time", "celsius", "humidity_percent"));
  EXPECT_EQ(table.error()[2].line, 5);

  std::string many = "time,celsius,humidity_percent\n";
  for (int i = 0; i < 10'000; ++i) many += "yesterday,20,50\n";
  const auto endless = read_climate_csv("air.csv", many, dublin());
  ASSERT_FALSE(endless);
  EXPECT_EQ(endless.error().size(), 100u);
}

}  // namespace
}  // namespace squeezeout
