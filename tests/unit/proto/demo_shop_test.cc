// The demo shop: loads without a mistake, is large enough, and scarce enough that glue-ups wait for each other.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "common/plan/slot.h"
#include "proto/codec.h"
#include "proto/shop_file.h"

namespace squeezeout {
namespace {

class DemoShop : public ::testing::Test {
 protected:
  void SetUp() override {
    std::ifstream file("server/demo/shop.textproto");
    ASSERT_TRUE(file) << "run from the top of the checkout";
    std::ostringstream text;
    text << file.rdbuf();
    const auto read = read_shop_file("server/demo/shop.textproto", text.str());
    if (!read)
      for (const FileMistake& m : read.error()) ADD_FAILURE() << to_text(m);
    ASSERT_TRUE(read);
    shop_ = *read;
  }
  const AdhesiveSheet& sheet(SheetId id) const { return shop_.sheets[id.value - 1]; }
  Shop shop_;
};

TEST_F(DemoShop, IsLargeEnough) {
  EXPECT_GE(shop_.benches.size(), 5u);
  EXPECT_GE(shop_.builders.size(), 5u);
  EXPECT_GE(shop_.gear.size(), 16u);
  EXPECT_GE(shop_.sheets.size(), 10u);
  EXPECT_GE(shop_.recipes.size(), 20u);
  EXPECT_GE(shop_.builds.size(), 6u);
  std::set<bool> tagged;
  for (const GearKind& kind : shop_.gear) tagged.insert(!kind.tag.empty());
  EXPECT_EQ(tagged.size(), 2u) << "counted and tagged gear";
  std::set<Chemistry> chemistries;
  for (const AdhesiveSheet& s : shop_.sheets) chemistries.insert(s.chemistry);
  EXPECT_GE(chemistries.size(), 10u);
}

TEST_F(DemoShop, IsInDifferentStages) {
  std::set<int> done;
  for (const Build& build : shop_.builds) {
    EXPECT_LT(build.done_before, static_cast<int>(build.steps.size())) << build.key;
    EXPECT_TRUE(build.due) << build.key;
    done.insert(build.done_before);
  }
  EXPECT_EQ(done.size(), shop_.builds.size());
}

TEST_F(DemoShop, InitialsAndNamesFitTheWall) {
  std::set<char> initials;
  for (const Builder& builder : shop_.builders)
    EXPECT_TRUE(initials.insert(builder.name[0]).second) << builder.name;
  for (const Recipe& recipe : shop_.recipes) EXPECT_LE(recipe.name.size(), 24u) << recipe.name;
}

TEST_F(DemoShop, UsualRecipesAreAFewTiles) {
  const auto usual = std::count_if(shop_.recipes.begin(), shop_.recipes.end(),
                                   [](const Recipe& r) { return r.usual; });
  EXPECT_GE(usual, 5);
  EXPECT_LE(usual, 8);
}

// But for the one that shows what "too cold" looks like, each can be glued in the shop's own air.
TEST_F(DemoShop, RecipesCanBeGluedToday) {
  for (const Recipe& recipe : shop_.recipes) {
    const AdhesiveSheet* glue = recipe.glues.empty() ? nullptr : &sheet(recipe.glues[0]);
    const bool warm = !glue || dwell_at(*glue, shop_.climate_celsius).has_value();
    EXPECT_EQ(warm, recipe.key != "bridge-hide") << recipe.key;
  }
}

TEST_F(DemoShop, GearIsScarce) {
  const auto together = [&](std::initializer_list<const char*> keys) {
    GearLedger gear;
    for (const GearKind& kind : shop_.gear) gear.set_stock(kind.id, kind.stock);
    const BuilderLedger nobody;
    const Hours hours(Zone::utc(), shop_.hours);
    std::vector<GearNeed> needs;
    for (const char* key : keys) {
      const auto recipe = std::find_if(shop_.recipes.begin(), shop_.recipes.end(),
                                       [&](const Recipe& r) { return r.key == key; });
      CHECK(recipe != shop_.recipes.end());
      needs.insert(needs.end(), recipe->needs.begin(), recipe->needs.end());
    }
    return choose_gear({gear, nobody, shop_.gear, hours, {}}, needs,
                       {Instant{}, Instant{Seconds{60}}}, {})
        .has_value();
  };
  EXPECT_TRUE(together({"lining-bass", "close-top", "bridge", "top-braces-1", "bridge-plate"}));
  EXPECT_FALSE(together({"lining-bass", "lining-treble"})) << "60 spring clamps";
  EXPECT_FALSE(together({"close-top", "close-back"})) << "40 spool clamps";
  EXPECT_FALSE(together({"back-braces", "top-braces-1"})) << "30 go-bars";
  EXPECT_FALSE(together({"bridge", "bridge"})) << "one bridge caul";
}

TEST_F(DemoShop, GoesThroughFileCommandAndTable) {
  EXPECT_EQ(read_shop_file("again", write_shop_file(shop_)).value(), shop_);
  EXPECT_EQ(read_gear_csv("gear.csv", write_gear_csv(shop_.gear)).value(), shop_.gear);
  const std::string frame = encode(ClientFrame{Asked{CommandId{}, LoadShop{shop_}}});
  EXPECT_LT(frame.size(), kMaxClientFrame / 2) << "room to grow";
  const auto decoded = decode_client_frame(frame);
  ASSERT_TRUE(decoded) << decoded.error().what;
  EXPECT_EQ(std::get<LoadShop>(std::get<Asked>(*decoded).body).shop, shop_);
}

}  // namespace
}  // namespace squeezeout
