// The settings file of a device: what it takes, what it refuses and on which line, and that nothing of it is ever half written.

#include "client/settings/settings.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "client/settings/store.h"
#include "client/settings/zones.h"
#include "proto/shop_file.h"

namespace squeezeout::settings {
namespace {

namespace fs = std::filesystem;

Settings every_key() {
  return {.prefs = {.theme = look::Theme::light,
                    .text = 1.4F,
                    .mm_per_px = 0.2732F,
                    .sound = Prefs::Sound::off,
                    .lamp = "lamp --on \"bench 1\" = yes",
                    .printer = "lp -d labels"},
          .bench = "b1",
          .builder = "ida"};
}

std::vector<LineMistake> mistakes_of(const std::string& text) {
  const auto read = read_settings(text);
  return read ? std::vector<LineMistake>{} : read.error();
}

TEST(Settings, ReadWhatTheyWrote) {
  const auto read = read_settings(write_settings(every_key()));
  ASSERT_TRUE(read);
  EXPECT_EQ(*read, every_key());
  const auto first = read_settings(write_settings({}));
  ASSERT_TRUE(first);
  EXPECT_EQ(*first, Settings{});
}

TEST(Settings, TakeCommentsSpacesAndLinesOfOtherSystems) {
  const auto read = read_settings("# a bench\r\n\r\n  theme =light \r\n\ttext=2\nlamp =\n");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->prefs.theme, look::Theme::light);
  EXPECT_EQ(read->prefs.text, 2);
  EXPECT_EQ(read->prefs.lamp, "");
}

TEST(Settings, RefuseAnUnknownKeyWithItsLineAndWhatToUse) {
  const auto mistakes = mistakes_of("theme = dark\n\ncolour = red\n");
  ASSERT_EQ(mistakes.size(), 1U);
  const std::string told = to_text("bench.conf", mistakes.front());
  EXPECT_EQ(told,
            "bench.conf:3: \"colour\" is no setting. Next: use one of theme, text, mm_per_px, "
            "sound, lamp, printer, bench, builder, or take the line out.");
}

TEST(Settings, TellEveryMistakeAtOnce) {
  const auto mistakes = mistakes_of(
      "theme = blue\ntext = 3\nmm_per_px = 0.01\nsound\nsound = loud\ntext = 1\nlamp = a\nlamp = "
      "b\n");
  std::vector<int> lines;
  for (const LineMistake& m : mistakes) lines.push_back(m.line);
  EXPECT_EQ(lines, (std::vector{1, 2, 3, 4, 5, 6, 8}));
}

TEST(Settings, RefuseNumbersThatAreNone) {
  for (const char* value : {"", "nan", "inf", "1.2x", "1,2", "0x1", "-1"})
    EXPECT_EQ(mistakes_of(std::string("text = ") + value).size(), 1U) << value;
  EXPECT_TRUE(mistakes_of("mm_per_px = 0").empty()) << "as the monitor says";
}

TEST(Settings, RefuseACommandWithoutEnd) {
  EXPECT_EQ(mistakes_of("printer = " + std::string(500, 'x')).size(), 1U);
}

TEST(Settings, CountLettersNotBytes) {
  const auto command = [](int letters) {
    std::string text;
    for (int i = 0; i < letters; ++i) text += "Ж";
    return text;
  };
  Settings settings;
  settings.prefs.lamp = command(300);  // as many as its field takes
  const auto read = read_settings(write_settings(settings));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->prefs.lamp, settings.prefs.lamp);
  EXPECT_EQ(mistakes_of("lamp = " + command(401)).size(), 1U);
}

class StoreTest : public ::testing::Test {
 protected:
  StoreTest() { fs::create_directories(folder); }
  ~StoreTest() override { fs::remove_all(folder); }
  std::string text(const std::string& path) const {
    std::ostringstream out;
    out << std::ifstream(path).rdbuf();
    return out.str();
  }
  const fs::path folder = fs::path(::testing::TempDir()) / "squeezeout_settings_test";
  const std::string file = (folder / "new" / "bench.conf").string();
};

TEST_F(StoreTest, ADeviceBeginsWithoutAFileAndKeepsWhatIsPressed) {
  Store store(file);
  const auto first = store.read();
  ASSERT_TRUE(first);
  EXPECT_EQ(*first, Settings{});
  EXPECT_FALSE(store.keep(every_key()));
  const auto again = Store(file).read();
  ASSERT_TRUE(again);
  EXPECT_EQ(*again, every_key());
  EXPECT_FALSE(fs::exists(file + ".part"));
}

TEST_F(StoreTest, AMistakeLeavesTheFileAsItIs) {
  fs::create_directories(folder / "new");
  std::ofstream(file) << "theme = light\nnoise = loud\n";
  const auto read = Store(file).read();
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().find("bench.conf:2: \"noise\" is no setting"), std::string::npos)
      << read.error();
  EXPECT_EQ(text(file), "theme = light\nnoise = loud\n");
}

TEST_F(StoreTest, AFolderThatCannotBeIsTold) {
  std::ofstream(folder / "new") << "a file where a folder should be";
  Store store(file);
  const auto trouble = store.keep(every_key());
  ASSERT_TRUE(trouble);
  EXPECT_NE(trouble->find("cannot be written. Next:"), std::string::npos);
}

TEST_F(StoreTest, WhatCouldNotBeKeptIsTriedAgainAndToldOnce) {
  std::ofstream(folder / "new") << "a file where a folder should be";
  Store patient(file), store(file, Store::Writes::yes, std::chrono::milliseconds{0});
  const auto shop = std::make_shared<const Shop>(draft::blank_shop("UTC"));
  EXPECT_TRUE(patient.keep(every_key()));
  EXPECT_TRUE(store.keep(every_key()));
  EXPECT_TRUE(store.keep(shop));
  EXPECT_FALSE(store.keep(every_key())) << "told already";
  fs::remove(folder / "new");
  EXPECT_FALSE(patient.keep(every_key()));
  EXPECT_FALSE(fs::exists(file)) << "not at every frame";
  EXPECT_FALSE(store.keep(every_key()));
  EXPECT_FALSE(store.keep(shop));
  EXPECT_EQ(text(file), write_settings(every_key()));
  EXPECT_TRUE(fs::exists(file + ".shop-draft"));
}

TEST_F(StoreTest, ADraftIsThereAfterACrashAndGoneWhenItIsOpened) {
  const auto shop = std::make_shared<const Shop>(draft::blank_shop("Europe/Dublin"));
  std::string trouble;
  {
    Store store(file);
    EXPECT_FALSE(store.keep(shop));
  }
  Store store(file);
  const draft::ShopState again = store.read_draft(trouble);
  ASSERT_TRUE(again) << trouble;
  EXPECT_EQ(*again, *shop);
  EXPECT_FALSE(store.keep(draft::ShopState{}));
  EXPECT_FALSE(Store(file).read_draft(trouble));
  EXPECT_EQ(trouble, "");
}

TEST_F(StoreTest, ADraftThatCannotBeReadIsPutAside) {
  fs::create_directories(folder / "new");
  std::ofstream(file + ".shop-draft") << "name \"half a";
  std::string trouble;
  EXPECT_FALSE(Store(file).read_draft(trouble));
  EXPECT_NE(trouble.find("put aside"), std::string::npos);
  EXPECT_EQ(text(file + ".shop-draft.unreadable"), "name \"half a");
}

TEST_F(StoreTest, APictureWritesNothing) {
  Store store(file, Store::Writes::no);
  EXPECT_FALSE(store.keep(every_key()));
  EXPECT_FALSE(fs::exists(file));
}

TEST_F(StoreTest, FilesAreReadAndWrittenForTheScreen) {
  const std::string path = (folder / "shop.textproto").string();
  const auto shop = std::make_shared<const Shop>(draft::blank_shop("UTC"));
  const Intent written = errand(WriteShop{path}, shop);
  ASSERT_TRUE(std::holds_alternative<FileWritten>(written));
  EXPECT_EQ(std::get<FileWritten>(written).trouble, "");
  const Intent read = errand(ReadFile{path}, shop);
  ASSERT_TRUE(std::holds_alternative<FileRead>(read));
  EXPECT_EQ(std::get<FileRead>(read).name, "shop.textproto");
  EXPECT_EQ(std::get<FileRead>(read).text, text(path));
  for (const std::string& wrong : {folder.string(), (folder / "none").string(), std::string()})
    EXPECT_NE(std::get<FileRead>(errand(ReadFile{wrong}, shop)).trouble, "") << wrong;
  EXPECT_TRUE(std::holds_alternative<Back>(errand(Back{}, shop)));
}

TEST_F(StoreTest, AFileThatIsWrittenOverStaysBesideIt) {
  const std::string shop_file = (folder / "shop.textproto").string(),
                    table = (folder / "gear.csv").string();
  std::ofstream(shop_file) << "by hand";
  std::ofstream(table) << "a table";
  Shop owned = draft::blank_shop("UTC");
  owned.gear.push_back({.id = {1}, .key = "deep", .name = "Deep clamp", .stock = 4});
  const auto shop = std::make_shared<const Shop>(owned);
  for (const std::string& path : {shop_file, table}) {
    const Intent written = errand(WriteShop{path}, shop);
    EXPECT_EQ(std::get<FileWritten>(written).trouble, "");
    EXPECT_EQ(std::get<FileWritten>(written).name, path) << "the whole path";
  }
  EXPECT_EQ(text(shop_file), write_shop_file(owned));
  EXPECT_EQ(text(shop_file + ".before"), "by hand");
  EXPECT_EQ(text(table), write_gear_csv(owned.gear)) << "a table stays a table";
  EXPECT_EQ(text(table + ".before"), "a table");
  owned.name = "Another";
  (void)errand(WriteShop{shop_file}, std::make_shared<const Shop>(owned));
  EXPECT_EQ(text(shop_file + ".before"), "by hand");
  EXPECT_TRUE(fs::exists(shop_file + ".before-2"));
  EXPECT_NE(std::get<FileWritten>(errand(WriteShop{folder.string()}, shop)).trouble, "");
}

TEST_F(StoreTest, ATildeIsThePersonsFolder) {
  const std::string home = std::getenv("HOME") != nullptr ? std::getenv("HOME") : "";
  ::setenv("HOME", folder.c_str(), 1);
  const auto shop = std::make_shared<const Shop>(draft::blank_shop("UTC"));
  const Intent written = errand(WriteShop{"~/shop.textproto"}, shop);
  EXPECT_EQ(std::get<FileWritten>(written).name, (folder / "shop.textproto").string());
  EXPECT_EQ(std::get<FileRead>(errand(ReadFile{"~/shop.textproto"}, shop)).text,
            write_shop_file(*shop));
  ::setenv("HOME", home.c_str(), 1);
}

TEST(Zones, TheMachinesOwnIsFirstThenItsPartOfTheWorld) {
  const auto zones = zones_from(
      {"UTC", "Asia/Tokyo", "Europe/Dublin", "Africa/Cairo", "Europe/Athens"}, "Europe/Dublin");
  EXPECT_EQ(*zones, (std::vector<std::string>{"Europe/Dublin", "Europe/Athens", "Africa/Cairo",
                                              "Asia/Tokyo", "UTC"}));
}

TEST(Zones, EveryZoneOfThisSystemIsKnownToTheClock) {
  const auto zones = zones_of_this_system();
  EXPECT_GT(zones->size(), 100U);
  EXPECT_TRUE(Zone::find(zones->back())) << zones->back();
}

}  // namespace
}  // namespace squeezeout::settings
