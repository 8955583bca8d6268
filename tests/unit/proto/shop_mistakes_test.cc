// Each kind of mistake that a shop file can hold: what is told of it, and on which line.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "proto/shop_file.h"
#include "tests/unit/proto/shop_texts.h"

namespace squeezeout {
namespace {

using testing::kCraftText;
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
  const std::string* right = &kShopText;
};

std::size_t find_line(const std::string& text, const std::string& line, int nth) {
  std::size_t at = text.starts_with(line + "\n") ? 0 : text.find("\n" + line + "\n") + 1;
  for (; nth > 1; --nth) at = text.find("\n" + line + "\n", at) + 1;
  return at;
}

class ShopMistakes : public ::testing::TestWithParam<Mistaken> {};

TEST_P(ShopMistakes, NamesLineFieldAndMend) {
  const Mistaken& c = GetParam();
  const std::string& right = *c.right;
  ASSERT_TRUE(read_shop_file("right", right));
  const std::size_t at = find_line(right, c.line, c.nth);
  ASSERT_EQ(right.substr(at, c.line.size()), c.line);
  std::string text = right;
  text.replace(at, c.line.size(), c.becomes);
  const int line = 1 + static_cast<int>(std::count(
                           right.begin(), right.begin() + static_cast<std::ptrdiff_t>(at), '\n'));

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
    {"FloorBelowColdestPoint", "  floor_celsius: 10", "  floor_celsius: 5", -8,
     "adhesive[0].dwell[0].celsius", "is 10, above floor_celsius (5)",
     "give a point at the floor, dwell { celsius: 5 minutes: 60 }, or raise the floor: "
     "floor_celsius: 10"},
    {"WarmthTakesLonger", "    minutes: 45", "    minutes: 61", 0, "adhesive[0].dwell[1].minutes",
     "is 61, longer than at 10 C (60)", "a warmer joint never takes longer"},
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

// The same in the file with what the craft needs.
Mistaken craft(const char* name, const char* line, const char* becomes, int off, const char* field,
               const char* what, const char* mend, int nth = 1) {
  return {name, line, becomes, off, field, what, mend, nth, &kCraftText};
}

const Mistaken kCraftMistakes[] = {
    // of writing
    craft("UnknownTrait", "    trait: TRAIT_PALE", "    trait: TRAIT_PLAE", 0, "trait",
          "\"TRAIT_PLAE\" is none of its values", "use one of: TRAIT_PALE"),
    craft("UnknownLimits", "  limits: LIMITS_OSHA", "  limits: OSHAA", 0, "limits",
          "\"OSHAA\" is none of its values", "LIMITS_OSHA"),
    craft("UnknownClock", "  clock: CLOCK_12_HOURS", "  clock: CLOCK_13_HOURS", 0, "clock",
          "\"CLOCK_13_HOURS\" is none of its values", "use one of: CLOCK_12_HOURS, CLOCK_24_HOURS"),
    craft("UnknownLengths", "  lengths: LENGTHS_INCH", "  lengths: LENGTHS_FOOT", 0, "lengths",
          "\"LENGTHS_FOOT\" is none of its values", "use one of: LENGTHS_"),
    craft("UnknownDegrees", "  degrees: DEGREES_FAHRENHEIT", "  degrees: DEGREES_KELVIN", 0,
          "degrees", "\"DEGREES_KELVIN\" is none of its values", "use one of: DEGREES_"),
    craft("NumberOfNoDegrees", "  degrees: DEGREES_FAHRENHEIT", "  degrees: 3", 0,
          "display.degrees", "is 3", "use 1 to 2"),
    craft("UnknownFigure", "  clock: CLOCK_12_HOURS", "  clok: CLOCK_12_HOURS", 0, "clok",
          "Display has no such field", "use one of: clock"),
    craft("UnknownJointField", "    under_mm: 10", "    udner_mm: 10", 0, "udner_mm",
          "Joint has no such field", "use one of: under_mm"),
    craft("NoFormOfAFace", "    thickness_mm: 2.5", "    thickness_mm: \"thin\"", 0, "thickness_mm",
          "\"thin\" stands where a number belongs", "write a number"),
    // the air
    craft("DailyTimesFall", "  at: \"18:00\"", "  at: \"06:30\"", 0, "daily[1].at",
          "is \"06:30\", not after \"06:30\" before it", "in order"),
    craft("DailyAtMidnightsEnd", "  at: \"18:00\"", "  at: \"24:00\"", 0, "daily[1].at",
          "\"24:00\" is no time of day", "up to \"23:59\""),
    craft("DailyWithoutWarmth", "  celsius: 20", "", -2, "daily[1].celsius", "is missing",
          "celsius: 18"),
    craft("DailyWithoutHumidity", "  humidity_percent: 45", "", -3, "daily[1].humidity_percent",
          "is missing", "humidity_percent: 45"),
    craft("DailyTooHot", "  celsius: 20", "  celsius: 120", 0, "daily[1].celsius", "is 120",
          "use -40 to 100"),
    craft("ServiceTooHumid", "  humidity_percent: 40", "  humidity_percent: 140", 0,
          "service.humidity_percent", "is 140", "use 0 to 100"),
    craft("ServiceIsNoNumber", "  celsius: 21", "  celsius: nan", 0, "service.celsius", "is nan",
          "use -40 to 100"),
    craft("RoomIsABox", "  volume_m3: 180", "  volume_m3: 2", 0, "room.volume_m3",
          "which is no room", "how much air"),
    craft("RoomIsNegative", "  volume_m3: 180", "  volume_m3: -180", 0, "room.volume_m3", "is -180",
          "use 0 to 1000000"),
    craft("NoAir", "  air_m3_per_minute: 6", "", -2, "room.air_m3_per_minute", "is 0",
          "run the fan"),
    // gear
    craft("TorqueWithoutScrew", "  screw: \"Tr12x3\"", "", 2, "gear[0].torque_newton_metre",
          "without a screw", "Tr12x3"),
    craft("UnknownThread", "  screw: \"Tr12x3\"", "  screw: \"fine\"", 0, "gear[0].screw",
          "\"fine\" is no thread", "\"M8\""),
    craft("PadIsNoNumber", "  pad_mm: 25", "  pad_mm: nan", 0, "gear[0].pad_mm", "is nan",
          "use 0 to 10000"),
    craft("TorqueOfAGiant", "  torque_newton_metre: 6", "  torque_newton_metre: 6000", 0,
          "gear[0].torque_newton_metre", "is 6000", "use 0 to 1000"),
    craft("RodWithoutThickness", "    thickness_mm: 5", "", -2, "gear[1].rod.thickness_mm",
          "is missing", "how thick"),
    craft("RodWithoutStiffness", "    stiffness_gpa: 13.5", "", -3, "gear[1].rod.stiffness_gpa",
          "is missing", "how stiff"),
    craft("RodWithoutLength", "  length_mm: 700", "", -5, "gear[1].length_mm", "is missing",
          "before it is sprung"),
    craft("RodOfADeck", "  opening_mm: 665", "  rod {\n    width_mm: 12\n  }", 0, "gear[2].rod",
          "no go-bar", "leave it out"),
    craft("RodNegative", "    width_mm: 12", "    width_mm: -12", 0, "gear[1].rod.width_mm",
          "is -12", "use 0 to 10000"),
    // glue
    craft("ClosedLongerThanOpen", "  closed_minutes: 4", "  closed_minutes: 14", 0,
          "adhesive[0].closed_minutes", "is 14, more than open_minutes (10)", "make it shorter"),
    craft("ShelfNegative", "  shelf_days: 365", "  shelf_days: -1", 0, "adhesive[0].shelf_days",
          "is -1", "use 0 to 36500"),
    craft("WaterGlueThatReacts", "  shelf_days: 365", "  activation_kj_per_mol: 55", 0,
          "adhesive[0].activation_kj_per_mol", "aliphatic resin does not set by reaction",
          "several temperatures"),
    craft("ReactionOutOfRange", "  activation_kj_per_mol: 55", "  activation_kj_per_mol: 550", 0,
          "adhesive[1].activation_kj_per_mol", "is 550", "use 0 to 200"),
    craft("ReactionWithTwoPoints", "    minutes: 720",
          "    minutes: 720\n  }\n  dwell {\n    "
          "celsius: 30\n    minutes: 360",
          2, "adhesive[1].dwell[1]", "is one point too many", "leave out activation_kj_per_mol"),
    craft("WorkingLifeOverAYear", "  working_life_minutes: 120", "  working_life_minutes: 1e6", 0,
          "adhesive[1].working_life_minutes", "is 1000000", "use 0 to 527040"),
    craft("FullCureIsNoNumber", "  full_cure_hours: 72", "  full_cure_hours: nan", 0,
          "adhesive[1].full_cure_hours", "is nan", "use 0 to 8784"),
    craft("UnknownSolvent", "    name: \"butanone\"", "    name: \"butanon\"", 0,
          "adhesive[2].solvent.name", "no solvent is called \"butanon\"", "use one of: butanone"),
    craft("RefusedSolvent", "    name: \"butanone\"", "    name: \"dichloromethane\"", 0,
          "adhesive[2].solvent.name", "dichloromethane is refused: no more than 2 ppm",
          "a cement without it"),
    craft("SolventWithoutName", "    name: \"butanone\"", "", -1, "adhesive[2].solvent.name",
          "is missing", "use one of: acetone"),
    craft("SolventWithoutGrams", "    grams_per_use: 6", "", -2,
          "adhesive[2].solvent.grams_per_use", "is missing", "grams_per_use: 5"),
    // recipes
    craft("FaceLeftOut", "    b {\n      material: \"red-spruce\"\n    }", "", -7,
          "recipe[0].joint.b", "is left out", "what is glued to what"),
    craft("FaceWithoutMaterial", "      material: \"sitka-spruce\"", "", -2,
          "recipe[0].joint.a.material", "is missing", "sitka-spruce"),
    craft("UnknownMaterial", "      material: \"red-spruce\"", "      material: \"red-spurce\"", 0,
          "recipe[0].joint.b.material", "no material is called \"red-spurce\"",
          "use one of: red-spruce"),
    craft("JointWithoutWidth", "    width_mm: 7", "", -2, "recipe[0].joint.width_mm", "is missing",
          "width_mm: 30"),
    craft("PressureIsNoNumber", "    least_pressure_mpa: 0.1", "    least_pressure_mpa: nan", 0,
          "recipe[0].joint.least_pressure_mpa", "is nan", "use 0.01 to 5"),
    craft("NoPressure", "    least_pressure_mpa: 0.1", "    least_pressure_mpa: 0", 0,
          "recipe[0].joint.least_pressure_mpa", "is 0", "use 0.01 to 5"),
    craft("NoGlueSpread", "    spread_g_per_m2: 120", "    spread_g_per_m2: 0", 0,
          "recipe[0].joint.spread_g_per_m2", "is 0", "use 1 to 2000"),
    craft("NegativeGap", "    gap_mm: 0.1", "    gap_mm: -0.1", 0, "recipe[0].joint.gap_mm",
          "is -0.1", "use 0 to 10000"),
    craft("TraitTwice", "    trait: TRAIT_PALE", "    trait: TRAIT_BRACING", 0,
          "recipe[0].joint.trait[1]", "comes twice", "keep one"),
    craft("TraitThatIsNone", "    trait: TRAIT_PALE", "    trait: TRAIT_UNSPECIFIED", 0,
          "recipe[0].joint.trait[1]", "is 0", "use 1 to 6"),
    craft("CountOfADeckIsNotWorkedOut", "    count: 1", "", -2, "recipe[0].need[1].count",
          "is missing", "count: 1"),
    craft("CountCannotBeWorkedOut", "  opening_mm: 665", "  opening_mm: 710", 59,
          "recipe[0].need[0].count", "\"bar\" does not tell it", "or say how many"),
    craft("WorkedOutMoreThanOwned", "    length_mm: 300", "    length_mm: 3000", -8,
          "recipe[0].need[0]", "(worked out from the joint), but the shop owns 30", "add gear"),
    craft("HeatWithoutHotForm", "  hot: true", "", 103, "recipe[1].heat", "no need is met by a hot",
          "hot: true"),
    craft("HeatAndDwell", "  release_minutes: 5", "  release_minutes: 5\n  dwell_minutes: 60", 1,
          "recipe[1].dwell_minutes", "is given beside heat", "leave it out", 2),
    craft("HeatWithoutHold", "    hold_minutes: 15", "", -1, "recipe[1].heat.hold_minutes",
          "is missing", "hold_minutes: 15"),
    craft("FormIsCold", "    form_celsius: 150", "    form_celsius: 15", 0,
          "recipe[1].heat.form_celsius", "is 15, which bends no wood", "form_celsius: 150"),
    craft("FormTooHot", "    form_celsius: 150", "    form_celsius: 450", 0,
          "recipe[1].heat.form_celsius", "is 450", "use 0 to 300"),
    craft("CoolNegative", "    cool_minutes: 45", "    cool_minutes: -45", 0,
          "recipe[1].heat.cool_minutes", "is -45", "use 0 to 527040"),
    // builds
    craft("WoodOfNoPart", "    part: \"sides\"", "    part: \"sidse\"", 0, "build[0].wood[1].part",
          "no step of this build has a part \"sidse\"", "use one of: sides"),
    craft("WoodOfUnknownMaterial", "    material: \"koa\"", "    material: \"kao\"", 0,
          "build[0].wood[1].material", "no material is called \"kao\"", "koa"),
    craft("WoodTwice", "    part: \"sides\"", "    part: \"top\"", 0, "build[0].wood[1].part",
          "\"top\" comes twice", "keep one"),
    craft("WoodWithoutMaterial", "    material: \"koa\"", "", -2, "build[0].wood[1].material",
          "is missing", "made of"),
};

INSTANTIATE_TEST_SUITE_P(Craft, ShopMistakes, ::testing::ValuesIn(kCraftMistakes),
                         [](const auto& param) { return param.param.name; });

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

TEST(ShopFile, ACountMayBeFixedBesideAJoint) {
  // A count that the recipe gives itself is not worked out, so nothing has to be known of the gear.
  const auto read = read_shop_file("f", replaced(kCraftText, "    class: GEAR_CLASS_GO_BAR\n",
                                                 "    class: GEAR_CLASS_GO_BAR\n    count: 12\n"));
  ASSERT_TRUE(read) << to_text(read.error()[0]);
  EXPECT_EQ(read->recipes[0].needs[0].count, 12);
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

TEST(ShopMistakesOfLength, AMegabyteInOneLineIsRefusedInWords) {
  const std::string much(1'000'000, 'a');
  for (const std::string& text :
       {much, much + ": 1", "name: " + much, "name: \"" + much, "zone: " + much + " name: 1",
        std::string(1'000'000, ' ') + "name: 1", std::string(1'000'000, '7'), "name: 1" + much}) {
    const auto read = read_shop_file("shop.textproto", text);
    ASSERT_FALSE(read);
    EXPECT_LT(to_text(read.error().front()).size(), 1'000U) << text.substr(0, 20);
  }
}

}  // namespace
}  // namespace squeezeout
