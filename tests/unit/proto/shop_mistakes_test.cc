// Each kind of mistake that a shop file can hold: what is told of it, and on which line.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "proto/shop_file.h"
#include "tests/unit/proto/shop_texts.h"

namespace squeezeout {
namespace {

using testing::kShopText;

// A line of the right file, found by what stands on it, and what it is replaced by; `nth` when several read the same.
struct Mistaken {
  const char* name;
  std::string line;
  std::string becomes;
  int off;  // the mistake is told on the replaced line plus this
  const char* field;
  const char* what;  // part of it
  const char* mend;  // part of it
  int nth = 1;
};

std::size_t find_line(const std::string& text, const std::string& line, int nth) {
  std::size_t at = text.starts_with(line + "\n") ? 0 : text.find("\n" + line + "\n") + 1;
  for (; nth > 1; --nth) at = text.find("\n" + line + "\n", at) + 1;
  return at;
}

class ShopMistakes : public ::testing::TestWithParam<Mistaken> {};

TEST_P(ShopMistakes, NamesLineFieldAndMend) {
  const Mistaken& c = GetParam();
  ASSERT_TRUE(read_shop_file("right", kShopText));
  const std::size_t at = find_line(kShopText, c.line, c.nth);
  ASSERT_EQ(kShopText.substr(at, c.line.size()), c.line);
  std::string text = kShopText;
  text.replace(at, c.line.size(), c.becomes);
  const int line =
      1 + static_cast<int>(std::count(kShopText.begin(),
                                      kShopText.begin() + static_cast<std::ptrdiff_t>(at), '\n'));

  const auto read = read_shop_file("shop.textproto", text);

  ASSERT_FALSE(read);
  ASSERT_EQ(read.error().size(), 1u) << to_text(read.error()[0]) << "\n"
                                     << to_text(read.error().back());
  const FileMistake& m = read.error()[0];
  EXPECT_EQ(m.file, "shop.textproto");
  EXPECT_EQ(m.line, line + c.off) << to_text(m);
  EXPECT_GE(m.column, 1);
  EXPECT_EQ(m.field, c.field) << to_text(m);
  EXPECT_THAT(m.what, ::testing::HasSubstr(c.what));
  EXPECT_THAT(m.mend, ::testing::HasSubstr(c.mend));
}

const Mistaken kMistakes[] = {
    // of writing
    {"UnknownField", "  bench: \"b1\"", "  bnech: \"b1\"", 0, "bnech", "Builder has no such field",
     "use one of: bench, "},
    {"UnknownEnum", "  class: GEAR_CLASS_DECK", "  class: GEAR_CLASS_DEKC", 0, "class",
     "GEAR_CLASS_DEKC", "use one of: GEAR_CLASS_DECK"},
    {"EnumByItsLastWord", "  class: GEAR_CLASS_DECK", "  class: deck", 0, "class",
     "\"deck\" is none of its values", "use one of: GEAR_CLASS_DECK"},
    {"WrongType", "  count: 6", "  count: \"six\"", 0, "count",
     "\"six\" stands where a whole number belongs", "write a whole number"},
    {"NotText", "  name: \"Ada\"", "  name: Ada", 0, "name",
     "Ada stands where text in quotes belongs", "write text in quotes"},
    {"Twice", "  key: \"bridge\"", "  key: \"bridge\" key: \"again\"", 0, "key", "is given twice",
     "keep one"},
    {"TooManyBraces", "  name: \"Bench 1\"", "  name: \"Bench 1\" }", 1, "", "Expected identifier",
     "write it as protobuf text"},
    // of sense
    {"NoZone", "zone: \"Europe/Dublin\"", "zone: \"Europe/Dubbin\"", 0, "zone",
     "\"Europe/Dubbin\" is no time zone", "IANA"},
    {"BadDays", "  days: \"mon-fri\"", "  days: \"mon-fry\"", 0, "hours[0].days",
     "\"mon-fry\" names no days", "\"mon-fri\""},
    {"BadTimeOfDay", "  from: \"08:00\"", "  from: \"8am\"", 0, "hours[0].from",
     "\"8am\" is no time of day", "\"08:00\""},
    {"MinuteSixty", "  to: \"17:30\"", "  to: \"17:60\"", 0, "hours[0].to", "is no time of day",
     "\"24:00\""},
    {"EndsBeforeItBegins", "  to: \"17:30\"", "  to: \"08:00\"", 0, "hours[0].to",
     "not after from \"08:00\"", "later than `from`"},
    {"OverlappingHours", "  to: \"17:30\"",
     "  to: \"17:30\"\n}\nhours {\n  days: \"fri\"\n  from: \"17:00\"\n  to: \"18:00\"", 2,
     "hours[1]", "overlaps 08:00 to 17:30", "keep them apart"},
    {"NoSuchDate", "  date: \"2026-12-24\"", "  date: \"2026-02-30\"", 0, "exception[0].date",
     "\"2026-02-30\" is no date", "\"2026-12-24\""},
    {"ColderThanAnything", "climate_celsius: 20", "climate_celsius: -273", 0, "climate_celsius",
     "is -273", "use -40 to 100"},
    {"MissingKey", "  key: \"short\"", "  key: \"\"", 0, "gear[1].key", "is missing",
     "a key of its own"},
    {"MissingKeyOfUnits", "  key: \"deck\"", "", -1, "gear[2].key", "is missing",
     "a key of its own"},
    {"MissingName", "  name: \"Bend\"", "", -2, "recipe[1].name", "is missing",
     "a name that people say"},
    {"DoubledKey", "  key: \"short\"", "  key: \"deep\"", 0, "gear[1].key",
     "\"deep\" is already another gear's", "a key of its own"},
    {"UnknownBench", "  bench: \"b1\"", "  bench: \"b2\"", 0, "builder[0].bench",
     "no bench has the key \"b2\"", "use one of: b1"},
    {"UnknownGlue", "  glue: \"resin\"", "  glue: \"resni\"", 0, "recipe[0].glue[0]",
     "no adhesive has the key \"resni\"", "resin"},
    {"UnknownRecipe", "  step: \"bridge\"", "  step: \"brigde\"", 0, "build[0].step[1]",
     "no recipe has the key \"brigde\"", "use one of: bridge, bend"},
    {"ClassMissing", "  class: GEAR_CLASS_DECK", "", -3, "gear[2].class", "is missing",
     "GEAR_CLASS_CLAMP"},
    {"CountTooLarge", "  count: 6", "  count: 10001", 0, "gear[0].count", "is 10001",
     "use 0 to 10000"},
    {"CountNegative", "  count: 6", "  count: -6", 0, "gear[0].count", "is -6", "use 0 to 10000"},
    {"CountAndUnits", "  unit: \"B\"", "  count: 2", 0, "gear[2].count", "is given beside units",
     "leave out `count`"},
    {"NeitherCountNorUnits", "  count: 4", "", -4, "gear[1].count", "`unit` are both left out",
     "name each with `unit`"},
    {"DoubledUnit", "  unit: \"B\"", "  unit: \"A\"", 0, "gear[2].unit[1]",
     "\"deck/A\" is already another gear's", "of its own"},
    {"EmptyUnit", "  unit: \"B\"", "  unit: \"\"", 0, "gear[2].unit[1]", "is empty", "\"A\""},
    {"NegativeMillimetres", "  throat_mm: 220", "  throat_mm: -220", 0, "gear[0].throat_mm",
     "is -220", "use 0 to 10000"},
    {"NotANumber", "  throat_mm: 220", "  throat_mm: nan", 0, "gear[0].throat_mm", "is nan",
     "use 0 to 10000"},
    {"ControlCharacter", "  name: \"Ada\"", "  name: \"A\\tda\"", 0, "builder[0].name",
     "holds U+0009", "leave out"},
    {"DirectionMark", "  name: \"Ada\"", "  name: \"A\u202eda\"", 0, "builder[0].name",
     "holds U+202E", "leave out"},
    {"BrokenUtf8", "  name: \"Ada\"", "  name: \"A\\xff\"", 0, "builder[0].name",
     "is not valid UTF-8", "as UTF-8"},
    {"TextTooLong", "  name: \"Ada\"", "  name: \"" + std::string(201, 'a') + "\"", 0,
     "builder[0].name", "has 201 characters", "200 at most"},
    {"ChemistryMissing", "  chemistry: CHEMISTRY_ALIPHATIC", "", -3, "adhesive[0].chemistry",
     "is missing", "CHEMISTRY_PVA"},
    {"OpenTimeMissing", "  open_minutes: 5", "", -4, "adhesive[0].open_minutes", "is missing",
     "open_minutes: 5"},
    {"PointsDoNotRise", "    celsius: 20", "    celsius: 10", 0, "adhesive[0].dwell[1].celsius",
     "not above the point before", "rise"},
    {"DwellMissing", "    minutes: 45", "", -2, "adhesive[0].dwell[1].minutes", "is missing",
     "minutes: 45"},
    {"FloorAboveColdestPoint", "  floor_celsius: 10", "  floor_celsius: 12", 0,
     "adhesive[0].floor_celsius", "above the coldest dwell point (10)", "lower the floor"},
    {"NeitherGlueNorDwell", "  dwell_minutes: 60", "", -6, "recipe[1].dwell_minutes",
     "both left out", "without glue"},
    {"OutlastsItsGlue", "  assembly_minutes: 4", "  assembly_minutes: 6", 0,
     "recipe[0].assembly_minutes", "resin stays open for 5 min", "split the work"},
    {"NeedsNothing", "    count: 3", "    count: 0", 0, "recipe[0].need[0].count", "is missing",
     "count: 1"},
    {"NeedsMoreThanOwned", "    count: 3", "    count: 7", -2, "recipe[0].need[0]",
     "wants 7, but the shop owns 6 that would do", "add gear"},
    {"DoneBeyondTheChain", "  done_before: 1", "  done_before: 3", 0, "build[0].done_before",
     "is 3", "use 0 to 2"},
    {"BadDue", "  due: \"2026-12-18\"", "  due: \"18.12.2026\"", 0, "build[0].due",
     "\"18.12.2026\" is no date or time", "2026-12-18"},
};

INSTANTIATE_TEST_SUITE_P(All, ShopMistakes, ::testing::ValuesIn(kMistakes),
                         [](const auto& param) { return param.param.name; });

std::vector<std::string> fields(const std::vector<FileMistake>& mistakes) {
  std::vector<std::string> all;
  for (const FileMistake& m : mistakes) all.push_back(m.field);
  return all;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  CHECK(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

TEST(ShopFile, TellsAllMistakesOfWritingAtOnce) {
  std::string text = replaced(kShopText, "count: 6", "count: six");
  text = replaced(text, "stage_minutes: 10", "stage_minuts: 10");
  text = replaced(text, "CHEMISTRY_ALIPHATIC", "ALIPHATIC");
  const auto read = read_shop_file("f", text);
  ASSERT_FALSE(read);
  EXPECT_THAT(fields(read.error()), ::testing::ElementsAre("count", "chemistry", "stage_minuts"));
}

TEST(ShopFile, TellsAllMistakesOfSenseAtOnceInOrder) {
  std::string text = replaced(kShopText, "due: \"2026-12-18\"", "due: \"soon\"");
  text = replaced(text, "Europe/Dublin", "Dublin");
  text = replaced(text, "throat_mm: 220", "throat_mm: -1");
  const auto read = read_shop_file("f", text);
  ASSERT_FALSE(read);
  EXPECT_THAT(fields(read.error()),
              ::testing::ElementsAre("zone", "gear[0].throat_mm", "build[0].due"));
}

TEST(ShopFile, TellsWhatIsMissingOfAnEmptyFile) {
  const auto read = read_shop_file("empty.textproto", "");
  ASSERT_FALSE(read);
  EXPECT_THAT(fields(read.error()), ::testing::ElementsAre("name", "zone"));
  EXPECT_EQ(to_text(read.error()[0]),
            "empty.textproto: name: is missing. Mend: give it a name that people say");
}

TEST(ShopFile, NeedsOpeningHours) {
  const auto read = read_shop_file("f", "name: \"Loft\"\nzone: \"UTC\"\n");
  ASSERT_FALSE(read);
  EXPECT_THAT(fields(read.error()), ::testing::ElementsAre("hours"));
}

TEST(ShopFile, NeedsThatWantTheSamePiecesCannotBothBeMet) {
  // Six deep clamps in all: four and three of them are wanted.
  const auto read = read_shop_file(
      "f", replaced(kShopText, "    count: 1\n",
                    "    count: 1\n  }\n  need {\n    class: GEAR_CLASS_CLAMP\n    count: 4\n"
                    "    throat_mm: 200\n"));
  ASSERT_FALSE(read);
  EXPECT_THAT(fields(read.error()), ::testing::ElementsAre("recipe[0].need"));
}

}  // namespace
}  // namespace squeezeout
