// The set-up screen, pressed through real ImGui: from a server without a shop to an open one, and a running shop changed and put back.
// The server is played by the test.

#include <gtest/gtest.h>

#include "client/draft/lacks.h"
#include "client/draft/starter.h"
#include "client/session.h"
#include "proto/shop_file.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using draft::Page;
const Instant kTen = at("2026-11-26T10:00:00Z");
const Steady kStart{};

class Setup : public ::testing::Test {
 protected:
  explicit Setup(std::optional<Shop> running = std::nullopt)
      : now(kTen),
        replica(DeviceId{}),
        desk(plan_ahead::of_the_floor(), [] {}),
        session(replica, desk, View{}, [this] { return next_id(); }),
        hands(stage) {
    if (running) (void)step_floor(LoadShop{*running});
    replica.connected(kStart);
    (void)replica.take_outgoing();
    const auto ms = now.time_since_epoch().count() * 1000;
    replica.received(Welcome{.store = {}, .revision = 1, .server_time_ms = ms}, kStart);
    replica.received(Snapshot{1, floor, {}}, kStart);
    View view;
    view.draft.zones = std::make_shared<const std::vector<std::string>>(
        std::vector<std::string>{"Europe/Dublin", "Europe/Athens", "UTC"});
    session.look_at(std::move(view));
    session.take_answers(kStart);
  }
  CommandId next_id() {
    CommandId id;
    id.bytes[0] = ++ids_;
    return id;
  }
  Result<std::vector<Event>, Refusal> step_floor(Body body) {
    return step(floor, {{}, {}, now, std::move(body)}).answer;
  }
  look::Frame show() {
    stage.view = session.view();
    return stage.frame(replica.floor(), now);
  }
  void done(const std::optional<look::Pressed>& pressed) {
    ++presses;
    session.press(pressed->intent, kStart);
  }
  void click(const std::string& id) {
    const look::Frame frame = show();
    ASSERT_NE(find(frame, id), nullptr) << id << "\n" << all_texts(frame);
    const auto pressed = hands.click(frame, id);
    ASSERT_TRUE(pressed) << id;
    done(pressed);
  }
  void key(int key) {
    const auto pressed = hands.key(show(), key);
    ASSERT_TRUE(pressed) << "key " << key;
    done(pressed);
  }
  void type(const std::string& strokes) {
    const auto pressed = hands.type(show(), strokes);
    ASSERT_TRUE(pressed) << strokes;
    done(pressed);
  }
  void serve() {
    for (const ClientFrame& frame : replica.take_outgoing()) {
      const auto* command = std::get_if<Asked>(&frame);
      if (command == nullptr) continue;
      const auto answer = step_floor(command->body);
      if (answer) replica.received(Delta{++revision_, now, command->id, *answer}, kStart);
      Answer out{command->id, revision_, std::nullopt, GlueUpId{}};
      if (!answer) out.refusal = answer.error();
      replica.received(out, kStart);
    }
    session.take_answers(kStart);
  }
  const draft::Draft& draft() const { return session.view().draft; }
  const Shop& shop() const { return *draft().shop; }

  Instant now;
  Floor floor;
  Replica replica;
  plan_ahead::Desk desk;
  Session session;
  Stage stage;
  Hands hands;
  int presses = 0;

 private:
  std::uint8_t ids_ = 0;
  std::uint64_t revision_ = 1;
};

class Running : public Setup {
 protected:
  Running() : Setup(small_shop()) {
    View view = session.view();
    view.bench = kBench1, view.builder = kAda;
    view.screen = Screen::setup;
    session.look_at(std::move(view));
  }
};

TEST_F(Setup, AServerWithoutAShopIsMetByThePagesThatMakeOne) {
  const look::Frame frame = show();
  EXPECT_TRUE(says(frame, "There is no shop yet")) << all_texts(frame);
  EXPECT_EQ(find(frame, "tab.board"), nullptr) << "there is nothing to see there";
  EXPECT_EQ(shop().zone, "Europe/Dublin") << "where the machine stands";
}

TEST_F(Setup, FromNothingToAnOpenShopByKeysAlone) {
  click("shop.name");
  type("Ida's \"loft\"\n");
  type("\x1b");
  key(look::kRight);
  key(look::kRight);  // people
  key('B');           // a builder more
  EXPECT_EQ(shop().builders.size(), 2U);
  key(look::kRight);
  key(look::kRight);  // glues
  key('A');
  key(look::kRight);  // recipes
  click("recipe.bend-sides");
  EXPECT_TRUE(says(show(), "Bend sides lacks gear."));
  key('T');
  EXPECT_FALSE(says(show(), "lacks gear."));
  key(look::kRight);
  key(look::kRight);
  EXPECT_TRUE(says(show(), "Nothing is missing")) << all_texts(show());
  key('A');
  EXPECT_TRUE(says(show(), "It would open.")) << all_texts(show());
  EXPECT_TRUE(says(show(), "Bend sides could start 10:00.")) << all_texts(show());
  key(' ');
  EXPECT_TRUE(says(show(), "Opening"));
  EXPECT_FALSE(floor.shop);
  serve();
  ASSERT_TRUE(floor.shop);
  EXPECT_EQ(floor.shop->name, "Ida's \"loft\"");
  EXPECT_EQ(session.view().screen, Screen::bench);
  EXPECT_FALSE(draft().shop) << "nothing is left of the draft";
  EXPECT_LE(presses, 20);
}

TEST_F(Setup, AShopWithLacksIsNotOpenedAndSaysWhy) {
  session.press(EditShop{{.what = draft::Edit::What::recipe, .text = "bridge"}}, kStart);
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_TRUE(says(show(), "things are missing."));
  key(' ');
  EXPECT_TRUE(says(show(), "Not opened.")) << all_texts(show());
  EXPECT_TRUE(replica.unanswered() == 0) << "the server was not asked";
  for (int i = 0; i < 6 && !draft::lacks(shop()).empty(); ++i) {
    const look::Frame frame = show();
    for (const look::Press& p : frame.presses)
      if (p.id.starts_with("lack.") && std::holds_alternative<EditShop>(p.intent)) {
        click(p.id);
        break;
      }
    if (draft().page != Page::open) session.press(ShowSetup{Page::open, 1}, kStart);
  }
  EXPECT_TRUE(draft::lacks(shop()).empty()) << "each lack has the press that mends it";
}

TEST_F(Setup, ALackGoesToItsPage) {
  session.press(EditShop{{.what = draft::Edit::What::name}}, kStart);
  session.press(ShowSetup{Page::open, 1}, kStart);
  ASSERT_TRUE(says(show(), "The shop has no name"));
  click("lack.0");
  EXPECT_EQ(draft().page, Page::shop);
}

TEST_F(Setup, AZoneIsFoundByItsLetters) {
  click("zone.filter");
  type("athe");
  EXPECT_EQ(find(show(), "zone.Europe/Dublin"), nullptr);
  type("\x1b");
  click("zone.Europe/Athens");
  EXPECT_EQ(shop().zone, "Europe/Athens");
  click("zone.filter");
  type("zzz");
  EXPECT_TRUE(says(show(), "No zone is called \"zzz\"."));
}

TEST_F(Setup, ADayIsSetByItsKeys) {
  session.press(ShowSetup{Page::hours, 1}, kStart);
  for (const char* id : {"day.6", "day.closed", "open.from.less", "open.to.less", "day.break"})
    click(id);
  EXPECT_EQ(shop().hours.weekday[6], (std::vector<DaySpan>{{450, 750}, {780, 990}}));
  EXPECT_TRUE(says(show(), "with a break from 12:30 to 13:00"));
  click("day.0");
  click("day.as-before");
  EXPECT_EQ(shop().hours.weekday[0], shop().hours.weekday[6]);
  click("setup.undo");
  EXPECT_TRUE(shop().hours.weekday[0].empty());
}

TEST_F(Setup, PeopleAreAddedNamedMovedAndTakenOut) {
  session.press(ShowSetup{Page::people, 1}, kStart);
  for (const char* id : {"bench.add", "builder.add", "bench.one.1", "builder.bench.0"}) click(id);
  EXPECT_TRUE(shop().benches[1].one_at_a_time);
  EXPECT_EQ(shop().builders[0].bench, shop().benches[1].id);
  click("builder.0");
  type("Ada\t");
  EXPECT_EQ(shop().builders[0].name, "Ada") << "what stood there was replaced";
  type("Ben");
  type("");
  EXPECT_EQ(shop().builders[1].name, "Ben") << "Tab goes on";
  click("builder.remove.0");
  click("bench.remove.1");
  EXPECT_EQ(shop().builders.size(), 1U);
  EXPECT_EQ(find(show(), "builder.remove.0"), nullptr) << "somebody has to work here";
}

TEST_F(Setup, GearIsCountedByKeysAndByTyping) {
  session.press(ShowSetup{Page::gear, 1}, kStart);
  click("more.spool");
  EXPECT_EQ(draft::keyed(shop().gear, "spool")->stock,
            draft::keyed(draft::starter().gear, "spool")->stock);
  click("less.spool");
  click("gear.spool");
  type("4x0");
  EXPECT_EQ(draft::keyed(shop().gear, "spool")->stock, 40);
  type("\b\b");
  EXPECT_EQ(draft::keyed(shop().gear, "spool"), nullptr);
}

TEST_F(Setup, AGlueTellsItsCaution) {
  session.press(ShowSetup{Page::glues, 1}, kStart);
  click("glue.cyano");
  EXPECT_TRUE(says(show(), "Bonds skin at once"));
  click("glue.cyano");
  EXPECT_TRUE(shop().sheets.empty());
}

TEST_F(Setup, UnitsAreThoseOfTheShop) {
  session.press(ShowSetup{Page::units, 1}, kStart);
  for (const int k : {'B', 'D', 'F'}) key(k);
  EXPECT_EQ(shop().display, (Display{Display::Clock::hours_12, Display::Lengths::inch,
                                     Display::Degrees::fahrenheit}));
  key('B');
  EXPECT_EQ(shop().display.clock, Display::Clock::hours_12) << "it is in force already";
}

TEST_F(Setup, ATableOfGearIsTakenWholeOrNotAtAll) {
  const std::string good =
      "key,name,class,count\r\nspool,Spool clamp,clamp,12\r\nhook,\"Hook, "
      "\"\"long\"\"\",clamp,4\r\n";
  session.press(FileRead{"gear.csv", good, ""}, kStart);
  EXPECT_TRUE(says(show(), "2 kinds of gear were read."));
  EXPECT_EQ(draft::keyed(shop().gear, "hook")->name, "Hook, \"long\"");
  const draft::ShopState before = draft().shop;
  for (const std::string& bad :
       {std::string("key,name,class,count\r\nspool,Spool,clamp,many\r\n"),
        std::string("\xff\xfe\x00junk", 8), std::string("key,name,class,count\r\n\"open"),
        std::string(100'000, ','), std::string(),
        std::string("key,name,class,count\r\na,A,clamp,-1\r\nb,B,anvil,1\r\n")}) {
    session.press(FileRead{"gear.csv", bad, ""}, kStart);
    EXPECT_EQ(draft().shop, before);
    EXPECT_TRUE(says(show(), "gear.csv was not read.")) << bad.substr(0, 30);
  }
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_TRUE(says(show(), "gear.csv:3")) << "by line\n" << all_texts(show());
}

TEST_F(Setup, AShopFileBecomesTheDraftAndUndoTakesItBack) {
  const draft::ShopState before = draft().shop;
  session.press(FileRead{"shop.textproto", write_shop_file(small_shop()), ""}, kStart);
  EXPECT_EQ(shop().name, small_shop().name);
  click("setup.undo");
  EXPECT_EQ(draft().shop, before);
  session.press(FileRead{"none", "", "it is no file"}, kStart);
  EXPECT_TRUE(says(show(), "none was not read."));
}

TEST_F(Setup, AFileIsNamedByTypingAndReadByEnter) {
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_EQ(find(show(), "file.read"), nullptr) << "no file is named";
  key('F');
  type("/tmp/a b.csv");
  const auto pressed = hands.type(show(), "\n");
  ASSERT_TRUE(pressed);
  ASSERT_TRUE(std::holds_alternative<ReadFile>(pressed->intent));
  EXPECT_EQ(std::get<ReadFile>(pressed->intent).path, "/tmp/a b.csv");
  session.press(Focus{}, kStart);
  const auto write = hands.key(show(), 'W');
  ASSERT_TRUE(write);
  EXPECT_EQ(std::get<WriteShop>(write->intent).path, "/tmp/a b.csv");
  session.press(FileWritten{"/tmp/a b.csv", ""}, kStart);
  EXPECT_TRUE(says(show(), "It lies at /tmp/a b.csv.")) << all_texts(show());
}

TEST_F(Running, ThisDeviceIsSetByItsKeys) {
  const auto prefs = [&] { return session.view().prefs; };
  for (const char* id :
       {"device.light", "device.text.more", "device.text.more", "device.sound.off"})
    click(id);
  EXPECT_EQ(prefs().theme, look::Theme::light);
  EXPECT_FLOAT_EQ(prefs().text, 1.2F);
  EXPECT_EQ(prefs().sound, Prefs::Sound::off);
  EXPECT_EQ(find(show(), "device.sound.try"), nullptr);
  key('O');
  const auto tried = hands.click(show(), "device.sound.try");
  ASSERT_TRUE(tried);
  EXPECT_TRUE(std::holds_alternative<TrySound>(tried->intent));
  for (const char* id : {"device.text.less", "device.text.less", "device.dark"}) click(id);
  EXPECT_EQ(prefs().text, 1) << "the same keys undo it";
  EXPECT_EQ(find(show(), "device.text.less"), nullptr);
  click("device.lamp");
  type("lamp on");
  type("\t");
  type("lp -d labels");
  EXPECT_EQ(prefs().lamp, "lamp on");
  EXPECT_EQ(prefs().printer, "lp -d labels");
  EXPECT_FALSE(draft().shop) << "no draft was begun";
}

TEST_F(Running, TheLineGrowsAndShrinksTheMillimetre) {
  const float before = look::kUsualMmPerPx;
  click("device.mm.longer");
  EXPECT_FLOAT_EQ(session.view().prefs.mm_per_px, before * 0.995F)
      << "a longer line: smaller pixels";
  click("device.mm.much-shorter");
  EXPECT_FLOAT_EQ(session.view().prefs.mm_per_px, before * 1.05F)
      << "of what the screen is laid out in";
}

TEST_F(Running, LettersThatHaveNoRoomSaySo) {
  stage = Stage(1366, 768, look::kUsualMmPerPx, 2);
  View view = session.view();
  view.prefs.text = 2;
  session.look_at(view);
  EXPECT_TRUE(says(show(), "×1.4")) << all_texts(show());
}

TEST_F(Running, WhoStandsHereIsChosenFromTheShop) {
  click("device.bench.more");
  click("device.builder.more");
  EXPECT_EQ(session.view().bench, kBench2);
  EXPECT_EQ(session.view().builder, kBen);
  EXPECT_EQ(find(show(), "device.bench.more"), nullptr) << "there is no other";
  click("device.bench.less");
  EXPECT_EQ(session.view().bench, kBench1);
}

TEST_F(Running, AChangeIsADraftUntilItIsOpenedAndCanBePutBack) {
  session.press(ShowSetup{Page::gear, 1}, kStart);
  const std::string kind = floor.shop->gear.front().key;
  const int owned = floor.shop->gear.front().stock;
  click("more." + kind);
  EXPECT_EQ(floor.shop->gear.front().stock, owned);
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_TRUE(says(show(), "Changed: " + floor.shop->gear.front().name)) << all_texts(show());
  key(' ');
  serve();
  EXPECT_EQ(floor.shop->gear.front().stock, owned + 1);
  EXPECT_EQ(session.view().screen, Screen::setup);
  EXPECT_TRUE(says(show(), "The shop is open."));
  click("open.back");
  serve();
  EXPECT_EQ(floor.shop->gear.front().stock, owned);
}

TEST_F(Running, ADraftIsPutAwayByOnePress) {
  session.press(ShowSetup{Page::units, 1}, kStart);
  key('B');
  session.press(ShowSetup{Page::open, 1}, kStart);
  key('X');
  EXPECT_FALSE(draft().shop);
  EXPECT_TRUE(says(show(), "Nothing has been changed.")) << all_texts(show());
  click("setup.undo");
  ASSERT_TRUE(draft().shop);
  EXPECT_EQ(shop().display.clock, Display::Clock::hours_12) << "Undo brings it back";
}

TEST_F(Running, WhatIsChangedUntilTheAnswerStaysADraft) {
  session.press(EditShop{{.what = draft::Edit::What::clock}}, kStart);
  session.press(DoDraft{DoDraft::What::open}, kStart);
  session.press(EditShop{{.what = draft::Edit::What::lengths}}, kStart);
  serve();
  ASSERT_TRUE(draft().shop);
  EXPECT_EQ(floor.shop->display.lengths, Display::Lengths::mm);
  EXPECT_EQ(shop().display.lengths, Display::Lengths::inch);
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_FALSE(says(show(), "changed elsewhere")) << all_texts(show());
  EXPECT_EQ(find(show(), "open.back"), nullptr) << "a draft is in work";
  session.press(DoDraft{DoDraft::What::back}, kStart);
  EXPECT_EQ(replica.unanswered(), 0U);
  EXPECT_TRUE(draft().shop);
  click("open.put-away");
  click("open.back");
  serve();
  EXPECT_EQ(floor.shop->display.clock, Display::Clock::hours_24);
  EXPECT_FALSE(draft().before.empty()) << "what was put away is still there";
}

TEST_F(Running, WhatWasCountedAtABenchIsWhatADraftBeginsFrom) {
  const GearKind& kind = floor.shop->gear.front();
  ASSERT_TRUE(step_floor(SetStock{kind.id, kind.stock + 3}));
  replica.received(Snapshot{2, floor, {}}, kStart);
  session.press(ShowSetup{Page::gear, 1}, kStart);
  EXPECT_TRUE(says(show(), std::to_string(kind.stock + 3))) << all_texts(show());
  session.press(EditShop{{.what = draft::Edit::What::clock}}, kStart);
  EXPECT_EQ(shop().gear.front().stock, kind.stock + 3);
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_FALSE(says(show(), "changed elsewhere")) << all_texts(show());
  EXPECT_FALSE(says(show(), "Changed: " + kind.name)) << all_texts(show());
}

TEST_F(Setup, ABlankDraftThatNobodyTouchedGoesWhenAShopIsThere) {
  ASSERT_TRUE(draft().shop);
  ASSERT_TRUE(step_floor(LoadShop{small_shop()}));
  replica.received(Snapshot{2, floor, {}}, kStart);
  session.take_answers(kStart);
  EXPECT_FALSE(draft().shop);
}

TEST_F(Setup, ATouchedDraftStaysAndLearnsWhatRuns) {
  session.press(EditShop{{.what = draft::Edit::What::clock}}, kStart);
  ASSERT_TRUE(step_floor(LoadShop{small_shop()}));
  replica.received(Snapshot{2, floor, {}}, kStart);
  session.take_answers(kStart);
  ASSERT_TRUE(draft().shop);
  EXPECT_TRUE(draft().running);
}

TEST_F(Running, WhatGlueUpsUseCannotBeTakenOut) {
  ASSERT_TRUE(
      step_floor(Reserve{.recipe = kBridge, .builder = kAda, .bench = kBench1, .after = now}));
  replica.received(Snapshot{2, floor, {}}, kStart);
  session.press(EditShop{{.what = draft::Edit::What::recipe, .text = floor.recipe(kBridge)->key}},
                kStart);
  EXPECT_TRUE(says(show(), "bridge stays.") || says(show(), "Bridge stays.")) << all_texts(show());
  session.press(EditShop{{.what = draft::Edit::What::remove_bench, .at = 0}}, kStart);
  session.press(ShowSetup{Page::open, 1}, kStart);
  key('A');
  EXPECT_TRUE(says(show(), "It would not open.")) << all_texts(show());
  key(' ');
  EXPECT_TRUE(says(show(), "Not opened."));
  EXPECT_EQ(replica.unanswered(), 0U);
  EXPECT_TRUE(floor.recipe(kBridge));
}

TEST_F(Running, AShopThatIsChangedElsewhereIsTold) {
  session.press(EditShop{{.what = draft::Edit::What::clock}}, kStart);
  Shop other = small_shop();
  other.name = "Renamed";
  ASSERT_TRUE(step_floor(LoadShop{other}));
  replica.received(Snapshot{2, floor, {}}, kStart);
  session.press(ShowSetup{Page::open, 1}, kStart);
  EXPECT_TRUE(says(show(), "changed elsewhere")) << all_texts(show());
}

TEST_F(Running, NotLiveNothingIsOpened) {
  session.press(EditShop{{.what = draft::Edit::What::clock}}, kStart);
  session.press(ShowSetup{Page::open, 1}, kStart);
  stage.link = Link::not_live;
  EXPECT_EQ(find(show(), "open.shop"), nullptr);
  EXPECT_TRUE(find(show(), "open.try")) << "the mirror is enough for that";
}

}  // namespace
}  // namespace squeezeout::testing
