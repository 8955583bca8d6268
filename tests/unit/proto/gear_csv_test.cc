#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "proto/shop_file.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout {
namespace {

using ::testing::HasSubstr;

constexpr const char* kHeader =
    "key,name,class,count,units,style,opening_mm,throat_mm,length_mm,force_newton,screw,size,"
    "outline,hot,pad_mm,torque_newton_metre,rod_width_mm,rod_thickness_mm,rod_stiffness_gpa,"
    "rod_strength_mpa\r\n";

TEST(GearCsv, WritesARowAGear) {
  const std::vector<GearKind> gear = {{.id = {1},
                                       .key = "deep",
                                       .name = "Clamp, deep",
                                       .gear_class = GearClass::clamp,
                                       .tag = "",
                                       .style = "screw",
                                       .stock = 6,
                                       .opening = {160},
                                       .throat = {12.5},
                                       .length = {},
                                       .force = {900},
                                       .pad = {20},
                                       .screw = "Tr12x3",
                                       .torque = {6.5},
                                       .size = "5\"",
                                       .outline = "",
                                       .hot = false},
                                      {.id = {2},
                                       .key = "form/om",
                                       .name = "Form om",
                                       .gear_class = GearClass::form,
                                       .tag = "om",
                                       .style = "",
                                       .stock = 1,
                                       .opening = {},
                                       .throat = {},
                                       .length = {},
                                       .force = {},
                                       .screw = "",
                                       .size = "",
                                       .outline = "om",
                                       .hot = true},
                                      {.id = {3},
                                       .key = "bar",
                                       .name = "Go-bar",
                                       .gear_class = GearClass::go_bar,
                                       .stock = 30,
                                       .length = {700},
                                       .rod_width = {12},
                                       .rod_thickness = {5},
                                       .rod_stiffness = {13.5},
                                       .rod_strength = {100}}};
  const std::string table = write_gear_csv(gear);
  EXPECT_EQ(table,
            kHeader + std::string(
                          "deep,\"Clamp, "
                          "deep\",clamp,6,,screw,160,12.5,,900,Tr12x3,\"5\"\"\",,no,20,6.5,,,,\r\n"
                          "form,Form,form,,om,,,,,,,,om,yes,,,,,,\r\n"
                          "bar,Go-bar,go-bar,30,,,,,700,,,,,no,,,12,5,13.5,100\r\n"));
  EXPECT_EQ(read_gear_csv("gear.csv", table).value(), gear);
}

TEST(GearCsv, RoundTripOfTheSmallShop) {
  const auto gear = testing::small_shop().gear;
  EXPECT_EQ(read_gear_csv("gear.csv", write_gear_csv(gear)).value(), gear);
}

TEST(GearCsv, ColumnsComeInAnyOrder) {
  const auto gear = read_gear_csv("gear.csv", "class,units,name,key\ndeck,A;B,Go-bar deck,deck\n");
  ASSERT_TRUE(gear) << to_text(gear.error()[0]);
  ASSERT_EQ(gear->size(), 2u);
  EXPECT_EQ((*gear)[1].key, "deck/B");
  EXPECT_EQ((*gear)[1].gear_class, GearClass::deck);
}

struct Row {
  const char* name;
  std::string table;
  int line;
  const char* field;
  const char* what;
  const char* mend;
};
class GearCsvMistakes : public ::testing::TestWithParam<Row> {};

TEST_P(GearCsvMistakes, NamesLineFieldAndMend) {
  const Row& c = GetParam();
  const auto gear = read_gear_csv("gear.csv", c.table);
  ASSERT_FALSE(gear);
  const FileMistake& m = gear.error()[0];
  EXPECT_EQ(m.line, c.line) << to_text(m);
  EXPECT_EQ(m.field, c.field) << to_text(m);
  EXPECT_THAT(m.what, HasSubstr(c.what));
  EXPECT_THAT(m.mend, HasSubstr(c.mend));
}

INSTANTIATE_TEST_SUITE_P(
    All, GearCsvMistakes,
    ::testing::Values(Row{"Empty", "", 0, "", "the table is empty", "key,name,class"},
                      Row{"UnknownColumn", "key,name,class,cuont\n", 1, "",
                          "no column is called \"cuont\"", "use one of: count"},
                      Row{"DoubledColumn", "key,name,class,key\n", 1, "",
                          "the column \"key\" comes twice", "keep one"},
                      Row{"UnknownClass", "key,name,class,count\na,A,clmap,1\n", 2, "gear[0].class",
                          "\"clmap\" is no class", "use one of: clamp"},
                      Row{"NoNumber", "key,name,class,count\na,A,clamp,1\nb,B,clamp,2x\n", 3,
                          "gear[1].count", "\"2x\" is no number", "a whole number"},
                      Row{"Negative", "key,name,class,count,throat_mm\na,A,clamp,1,-3\n", 2,
                          "gear[0].throat_mm", "is -3", "use 0 to 10000"},
                      Row{"BrokenName",
                          "key,name,class,count\na,\"A\nwide\",clamp,1\na,B,clamp,2\n", 2,
                          "gear[0].name", "holds U+000A", "leave out"},
                      Row{"NoCount", "key,name,class,count\na,A,clamp,\n", 2, "gear[0].count",
                          "both left out", "name each"},
                      Row{"NeitherYesNorNo", "key,name,class,count,hot\na,A,form,1,warm\n", 2,
                          "gear[0].hot", "\"warm\"", "yes or no"},
                      Row{"RodWithoutThickness",
                          "key,name,class,count,length_mm,rod_width_mm,rod_stiffness_gpa\n"
                          "a,A,go-bar,1,700,12,13.5\n",
                          2, "gear[0].rod.thickness_mm", "is missing", "how thick"},
                      Row{"Ragged", "key,name,class,count\na,A,clamp,1\nb,B,clamp\n", 3, "",
                          "the row has 3 cells, the first row 4", "as many"}),
    [](const auto& param) { return param.param.name; });

TEST(GearCsv, AMistakeAfterABrokenLineIsStillOnItsOwnLine) {
  const auto gear = read_gear_csv(
      "gear.csv", "key,name,class,count,size\na,A,clamp,1,\"two\nlines\"\nb,B,clmap,1,\n");
  ASSERT_FALSE(gear);
  ASSERT_EQ(gear.error().size(), 2u);
  EXPECT_EQ(gear.error()[1].line, 4);
  EXPECT_EQ(gear.error()[1].field, "gear[1].class");
}

TEST(GearCsv, RefusesAMegabyteOfColumnsAtOnce) {
  std::string header = "key";
  while (header.size() < 1'000'000) header += ",key";
  const auto read = read_gear_csv("gear.csv", header + "\r\n");
  ASSERT_FALSE(read);
  ASSERT_EQ(read.error().size(), 1U);
  EXPECT_THAT(to_text(read.error().front()), HasSubstr("columns, and no more than 20 are known"));
}

}  // namespace
}  // namespace squeezeout
