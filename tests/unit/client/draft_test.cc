// A draft of a shop: its edits, Undo, what it lacks, what is copied into it, and its way through its file.

#include "client/draft/draft.h"

#include <gtest/gtest.h>

#include "client/draft/lacks.h"
#include "client/draft/starter.h"
#include "client/draft/trial.h"
#include "common/time/rfc3339.h"
#include "proto/shop_file.h"

namespace squeezeout::draft {
namespace {

using What = Edit::What;

Draft fresh() {
  Draft d;
  d.zones = std::make_shared<const std::vector<std::string>>(
      std::vector<std::string>{"Europe/Dublin", "UTC"});
  return begun(std::move(d), std::nullopt);
}

Draft with(Draft d, std::initializer_list<Edit> edits) {
  for (const Edit& e : edits) d = edited(std::move(d), e);
  return d;
}

bool lacking(const Shop& shop, Lack::What what) {
  for (const Lack& l : lacks(shop))
    if (l.what == what) return true;
  return false;
}

TEST(Draft, BeginsWhereTheMachineStands) {
  const Draft d = fresh();
  EXPECT_EQ(d.shop->zone, "Europe/Dublin");
  EXPECT_EQ(d.shop->benches.size(), 1U);
  EXPECT_TRUE(d.before.empty());
}

TEST(Draft, EveryEditIsUndoneByOneUndo) {
  const Draft begun = fresh();
  const std::vector<Edit> edits{{What::name, 0, 0, "A shop"},
                                {What::zone, 0, 0, "UTC"},
                                {What::open_from, 1, -1},
                                {What::open_to, 1, 1},
                                {What::open_or_closed, 6},
                                {What::midday_break, 1},
                                {What::as_day_before, 6},
                                {What::add_bench},
                                {What::name_bench, 0, 0, "By the window"},
                                {What::one_at_a_time, 0},
                                {What::add_builder},
                                {What::name_builder, 0, 0, "Ada"},
                                {What::gear_count, 0, 6, "deep"},
                                {What::gear_exactly, 0, 7, "deep"},
                                {What::glue, 0, 0, "aliphatic"},
                                {What::recipe, 0, 0, "bridge"},
                                {What::clock},
                                {What::lengths},
                                {What::degrees}};
  for (const Edit& edit : edits) {
    const Draft after = edited(begun, edit);
    EXPECT_NE(*after.shop, *begun.shop) << to_string(edit.what);
    EXPECT_EQ(*edited(after, {}).shop, *begun.shop) << to_string(edit.what);
  }
}

TEST(Draft, LettersInOneFieldAreOneEdit) {
  const Draft d = with(fresh(), {{What::name, 0, 0, "I"},
                                 {What::name, 0, 0, "Id"},
                                 {What::name, 0, 0, "Ida"},
                                 {What::name_bench, 0, 0, "B"}});
  EXPECT_EQ(d.before.size(), 2U);
  EXPECT_EQ(edited(edited(d, {}), {}).shop->name, "Our shop");
}

TEST(Draft, WhatDoesNotApplyChangesNothing) {
  const Draft d = fresh();
  for (const Edit& edit : std::initializer_list<Edit>{{What::name_bench, 9, 0, "x"},
                                                      {What::name_bench, -1, 0, "x"},
                                                      {What::remove_bench, 0},
                                                      {What::remove_builder, 0},
                                                      {What::zone, 0, 0, "Nowhere/At all"},
                                                      {What::open_to, 0, 1},
                                                      {What::open_from, 77, 1},
                                                      {What::gear_count, 0, -1, "deep"},
                                                      {What::gear_count, 0, 1, "no such thing"},
                                                      {What::gear_for_recipe, 0, 0, "none"},
                                                      {What::glue, 0, 0, "none"},
                                                      {What::recipe, 0, 0, "none"}}) {
    const Draft after = edited(d, edit);
    EXPECT_EQ(*after.shop, *d.shop) << to_string(edit.what) << " at " << edit.at;
    EXPECT_TRUE(after.before.empty());
  }
}

TEST(Draft, HoursStayHours) {
  Draft d = fresh();
  for (int i = 0; i < 60; ++i)
    d = with(std::move(d), {{What::open_from, 1, -1}, {What::open_to, 1, 1}});
  EXPECT_EQ(d.shop->hours.weekday[1], (std::vector<DaySpan>{{0, 24 * 60}}));
  for (int i = 0; i < 60; ++i) d = edited(std::move(d), {What::open_from, 1, 1});
  EXPECT_EQ(d.shop->hours.weekday[1].front().begin_minute, 24 * 60 - 30);
  d = with(fresh(), {{What::midday_break, 2}});
  EXPECT_EQ(d.shop->hours.weekday[2].size(), 2U);
  for (int i = 0; i < 60; ++i) d = edited(std::move(d), {What::open_to, 2, -1});
  EXPECT_GT(d.shop->hours.weekday[2][1].end_minute, d.shop->hours.weekday[2][1].begin_minute);
  d = with(std::move(d), {{What::as_day_before, 3}, {What::midday_break, 2}});
  EXPECT_EQ(d.shop->hours.weekday[3].size(), 2U);
  EXPECT_EQ(d.shop->hours.weekday[2].size(), 1U);
}

TEST(Draft, ABuilderOfABenchThatGoesStandsAtAnother) {
  Draft d = with(fresh(), {{What::add_bench}, {What::bench_of_builder, 0}});
  ASSERT_EQ(d.shop->builders[0].bench, d.shop->benches[1].id);
  d = edited(std::move(d), {What::remove_bench, 1});
  EXPECT_EQ(d.shop->builders[0].bench, d.shop->benches[0].id);
}

TEST(Draft, AKeyIsNeverGivenTwice) {
  Draft d = with(fresh(), {{What::add_bench}, {What::remove_bench, 0}, {What::add_bench}});
  EXPECT_NE(d.shop->benches[0].key, d.shop->benches[1].key);
  EXPECT_NE(d.shop->benches[0].id, d.shop->benches[1].id);
}

TEST(Draft, AKeyOfThoseWhoWentIsNotGivenToNewcomers) {
  Shop running = starter();
  running.benches = {{BenchId{1}, "bench-1", "Bench"}};
  running.builders = {{BuilderId{1}, "builder-1", "Ida", BenchId{1}, {}},
                      {BuilderId{2}, "builder-2", "Ben", BenchId{1}, {}}};
  const Draft d = with(begun({}, running), {{What::remove_builder, 0}, {What::add_builder}});
  EXPECT_EQ(d.shop->builders.back().key, "builder-3") << "builder-1 is Ida's on the floor";
  const Draft mine = with(fresh(), {{What::add_bench}, {What::remove_bench, 0}, {What::add_bench}});
  EXPECT_EQ(mine.shop->benches.back().key, "bench-3") << "Undo brings bench-1 back";
}

TEST(Draft, ADraftFromTheDiskLearnsWhatRuns) {
  Draft d;
  d.shop = std::make_shared<const Shop>(starter());
  d = begun(std::move(d), starter());
  ASSERT_TRUE(d.running);
  d = edited(std::move(d), {What::gear_exactly, 0, 0, "deep"});
  EXPECT_NE(keyed(d.shop->gear, "deep"), nullptr) << "its claims are on record";
}

TEST(Draft, OnlyABlankOneIsUntouched) {
  EXPECT_TRUE(untouched(fresh()));
  EXPECT_FALSE(untouched(edited(fresh(), {What::clock})));
  EXPECT_FALSE(untouched({}));
}

TEST(Draft, PutAwayIsTakenBackByUndo) {
  const Draft d = edited(fresh(), {What::name, 0, 0, "Ida's"});
  const Draft away = put_away(d);
  EXPECT_FALSE(away.shop);
  EXPECT_EQ(edited(begun(away, std::nullopt), {}).shop, d.shop);
}

TEST(Draft, AFieldThatIsLeftEndsItsEditAndItsName) {
  const Draft d = field_left(with(fresh(), {{What::name, 0, 0, "I"}, {What::name, 0, 0, "Ida  "}}));
  EXPECT_EQ(d.shop->name, "Ida");
  EXPECT_EQ(d.before.size(), 1U);
  EXPECT_EQ(edited(edited(d, {What::name, 0, 0, "Ben"}), {}).shop->name, "Ida");
}

TEST(Draft, ADayShorterThanHalfAnHourStaysADay) {
  Draft d = fresh();
  Shop shop = *d.shop;
  for (const DaySpan span : {DaySpan{0, 15}, DaySpan{24 * 60 - 15, 24 * 60}}) {
    shop.hours.weekday[1] = {span};
    d = replaced(std::move(d), shop);
    for (const auto& [what, by] : {std::pair{What::open_from, 1},
                                   {What::open_from, -1},
                                   {What::open_to, -1},
                                   {What::open_to, 1}}) {
      const DaySpan now = edited(d, {what, 1, by}).shop->hours.weekday[1].front();
      EXPECT_TRUE(0 <= now.begin_minute && now.begin_minute < now.end_minute &&
                  now.end_minute <= 24 * 60)
          << now.begin_minute << " to " << now.end_minute;
    }
  }
}

TEST(Draft, FiguresOfAShopsOwnAreNotErasedByACountOfNone) {
  Draft d = edited(fresh(), {What::gear_count, 0, 6, "deep"});
  Shop shop = *d.shop;
  shop.gear.front().opening = {300};
  d = with(replaced(std::move(d), shop),
           {{What::gear_exactly, 0, 0, "deep"}, {What::gear_exactly, 0, 8, "deep"}});
  ASSERT_EQ(d.shop->gear.size(), 1U);
  EXPECT_EQ(d.shop->gear.front().opening.value, 300);
  EXPECT_EQ(d.shop->gear.front().stock, 8);
}

TEST(Draft, HostileNamesAreNames) {
  const std::string long_name(500, 'w');
  Draft d = with(fresh(), {{What::name, 0, 0, "  \"Ida's\"\n\tshop\x7f}{"},
                           {What::name_bench, 0, 0, long_name},
                           {What::name_builder, 0, 0, "Ж\\n\" key: \"x"}});
  EXPECT_EQ(d.shop->name, "\"Ida's\"  shop }{");
  EXPECT_EQ(d.shop->benches[0].name.size(), kMostLetters);
  const auto read = read_shop_draft("draft", write_shop_file(*d.shop));
  ASSERT_TRUE(read);
  EXPECT_EQ(*read, *d.shop);
}

TEST(Draft, AHalfFilledDraftGoesThroughItsFile) {
  const Draft d = with(fresh(), {{What::name, 0, 0, ""},
                                 {What::recipe, 0, 0, "bridge"},
                                 {What::recipe, 0, 0, "close-top"},
                                 {What::gear_count, 0, 3, "spool"},
                                 {What::lengths}});
  ASSERT_FALSE(read_shop_file("draft", write_shop_file(*d.shop))) << "it still lacks gear";
  const auto read = read_shop_draft("draft", write_shop_file(*d.shop));
  ASSERT_TRUE(read);
  EXPECT_EQ(*read, *d.shop);
}

TEST(Draft, GearOfARunningShopStaysWithNone) {
  const Shop running = starter();
  Draft d = begun({}, running);
  d = edited(std::move(d), {What::gear_exactly, 0, 0, "deep"});
  ASSERT_NE(keyed(d.shop->gear, "deep"), nullptr) << "its claims are on record";
  EXPECT_EQ(keyed(d.shop->gear, "deep")->stock, 0);
  EXPECT_EQ(changes(running, *d.shop).changed, std::vector<std::string>{"Deep clamp"});
}

TEST(Draft, WhatItChangesIsToldByKeysWhateverItsIds) {
  Shop running = starter();  // as a floor keeps it after reloads: ids with gaps
  for (AdhesiveSheet& s : running.sheets) s.id.value += 40;
  for (Recipe& r : running.recipes)
    for (SheetId& s : r.glues) s.value += 40;
  const auto read = read_shop_draft("draft", write_shop_file(running));
  ASSERT_TRUE(read);
  EXPECT_NE(read->sheets, running.sheets);
  EXPECT_TRUE(changes(running, *read).none());
  const Draft d = with(begun({}, *read),
                       {{What::glue, 0, 0, "hide"}, {What::add_bench}, {What::name, 0, 0, "New"}});
  const Changes c = changes(running, *d.shop);
  EXPECT_EQ(c.added, std::vector<std::string>{"Bench 1"});
  EXPECT_EQ(c.removed, std::vector<std::string>{"Hot hide glue"});
  EXPECT_EQ(c.changed.back(), "New");
}

TEST(Draft, ARowKeepsItsPlaceWhenItIsTakenIn) {
  const auto keys = [](const Draft& d) {
    std::vector<std::string> out;
    for (const GearRow& row : gear_rows(*d.shop)) out.push_back(row.key);
    return out;
  };
  const Draft d = fresh(),
              more = with(d, {{What::gear_count, 0, 6, "bar"}, {What::gear_count, 0, 1, "deck"}});
  EXPECT_EQ(keys(more), keys(d));
  EXPECT_EQ(keys(d).size(), starter().gear.size());
}

TEST(Draft, CountsStayCounts) {
  Draft d = with(fresh(), {{What::gear_exactly, 0, 2'000'000'000, "deep"}});
  EXPECT_EQ(d.shop->gear.front().stock, kMostOfAKind);
  d = edited(std::move(d), {What::gear_count, 0, 1, "deep"});
  EXPECT_EQ(d.shop->gear.front().stock, kMostOfAKind);
  d = edited(std::move(d), {What::gear_exactly, 0, 0, "deep"});
  EXPECT_TRUE(d.shop->gear.empty());
}

TEST(Lacks, AFreshDraftLacksGearGluesAndRecipes) {
  const Draft d = fresh();
  EXPECT_TRUE(lacking(*d.shop, Lack::What::gear));
  EXPECT_TRUE(lacking(*d.shop, Lack::What::glues));
  EXPECT_TRUE(lacking(*d.shop, Lack::What::recipes));
  EXPECT_FALSE(lacking(*d.shop, Lack::What::name));
  EXPECT_FALSE(lacking(*d.shop, Lack::What::hours));
}

TEST(Lacks, WhatIsTakenAwayIsLacked) {
  Draft d = with(fresh(), {{What::name, 0, 0, ""}, {What::name_builder, 0, 0, ""}});
  for (int day = 1; day <= 5; ++day) d = edited(std::move(d), {What::open_or_closed, day});
  EXPECT_TRUE(lacking(*d.shop, Lack::What::name));
  EXPECT_TRUE(lacking(*d.shop, Lack::What::builders));
  EXPECT_TRUE(lacking(*d.shop, Lack::What::hours));
}

TEST(Lacks, ARecipeBringsItsGlueAndTellsItsGear) {
  const Draft d = edited(fresh(), {What::recipe, 0, 0, "bridge"});
  ASSERT_EQ(d.shop->sheets.size(), 1U);
  EXPECT_EQ(d.shop->sheets.front().key, "aliphatic");
  EXPECT_EQ(d.shop->recipes.front().glues, std::vector<SheetId>{d.shop->sheets.front().id});
  EXPECT_TRUE(lacking(*d.shop, Lack::What::recipe_gear));
  const Draft mended = edited(d, {What::gear_for_recipe, 0, 0, "bridge"});
  EXPECT_FALSE(lacking(*mended.shop, Lack::What::recipe_gear));
  const Draft without = edited(mended, {What::glue, 0, 0, "aliphatic"});
  EXPECT_TRUE(lacking(*without.shop, Lack::What::recipe_glue));
}

TEST(Lacks, TheGearOfEveryStarterRecipeCanBeAdded) {
  for (const Recipe& r : starter().recipes) {
    const Draft d =
        with(fresh(), {{What::recipe, 0, 0, r.key}, {What::gear_for_recipe, 0, 0, r.key}});
    EXPECT_TRUE(need_lacks(*d.shop, *keyed(d.shop->recipes, r.key)).empty()) << r.key;
  }
}

TEST(Lacks, AKindThatDoesNotSuitKeepsItsKey) {
  Draft d = with(fresh(), {{What::gear_count, 0, 6, "bar"}, {What::recipe, 0, 0, "join-top"}});
  Shop shop = *d.shop;
  shop.gear.front().opening = {10};
  d = edited(replaced(std::move(d), shop), {What::gear_for_recipe, 0, 0, "join-top"});
  EXPECT_TRUE(need_lacks(*d.shop, *keyed(d.shop->recipes, "join-top")).empty());
  EXPECT_EQ(keyed(d.shop->gear, "bar")->opening.value, 10);
  EXPECT_NE(keyed(d.shop->gear, "bar-1"), nullptr);
  EXPECT_EQ(that_meets(*d.shop, {.count = 1, .style = "nobody makes it"}).thing, nullptr);
}

TEST(Lacks, AGlueThatIsTakenInAgainIsBackInItsRecipes) {
  const auto keys_of = [](const Shop& shop) {
    std::vector<std::string> out;
    for (const SheetId id : keyed(shop.recipes, "bridge")->glues)
      for (const AdhesiveSheet& s : shop.sheets)
        if (s.id == id) out.push_back(s.key);
    return out;
  };
  Draft d = begun({}, starter());
  const auto all = keys_of(*d.shop);
  ASSERT_GT(all.size(), 1U);
  d = with(std::move(d), {{What::glue, 0, 0, all.front()}, {What::glue, 0, 0, all.front()}});
  EXPECT_EQ(keys_of(*d.shop), all) << "in their order";
  d = with(fresh(), {{What::recipe, 0, 0, "bridge"},
                     {What::glue, 0, 0, all.front()},
                     {What::glue, 0, 0, all.back()},
                     {What::glue, 0, 0, all.front()}});
  EXPECT_EQ(keys_of(*d.shop), all);
}

TEST(Lacks, NeedsAreMetInTheStyleThatTheShopHas) {
  const Draft d = with(fresh(), {{What::gear_exactly, 0, 20, "deep"}});
  const Recipe& fretboard = *keyed(starter().recipes, "fretboard");
  ASSERT_EQ(fretboard.needs.front().style, "cam");
  EXPECT_EQ(copied(*d.shop, fretboard).recipe.needs.front().style, "") << "deep clamps do";
  EXPECT_EQ(copied(*fresh().shop, fretboard).recipe.needs.front().style, "cam");
}

TEST(Trial, AFilledDraftOpensAndSaysWhatCouldStart) {
  const Draft d =
      with(fresh(), {{What::recipe, 0, 0, "bridge"}, {What::gear_for_recipe, 0, 0, "bridge"}});
  const auto now = parse_rfc3339("2026-11-26T10:00:00Z");
  ASSERT_TRUE(now);
  const Trial trial = tried({}, *d.shop, *now);
  EXPECT_TRUE(trial.mistakes.empty()) << trial.mistakes.front();
  ASSERT_TRUE(trial.floor);
  ASSERT_EQ(trial.firsts.size(), 1U);
  EXPECT_EQ(trial.firsts.front().at, *now)
      << "Thursday at ten: the shop is open and nothing is held";
}

TEST(Trial, AnUnfilledOneIsRefusedInWords) {
  const Draft d = with(fresh(), {{What::recipe, 0, 0, "bridge"}});
  const Trial trial = tried({}, *d.shop, Instant{});
  ASSERT_FALSE(trial.mistakes.empty());
  EXPECT_NE(trial.mistakes.front().find("the shop owns 0"), std::string::npos);
  EXPECT_FALSE(trial.shop);
}

}  // namespace
}  // namespace squeezeout::draft
