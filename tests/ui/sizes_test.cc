// Every screen of a shop in full work, in two sizes and two themes, with usual and with double letters, in English and in the
// pseudo language: what is pressed is large enough and apart, letters are readable, have contrast, and stay where they belong;
// nothing is cut, and every sentence is keyed.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <ostream>
#include <set>
#include <tuple>
#include <utility>

#include "client/draft/starter.h"
#include "client/words/say.h"
#include "common/floor/decide.h"
#include "proto/shop_file.h"
#include "server/demo/week.h"
#include "tests/support/screens/stage.h"

namespace squeezeout::testing {
namespace {

const Instant kNow = at("2026-11-26T14:12:00Z");

// What fills the screens of the craft: bottles of every age, pots, and a night that moves glue-ups.
std::vector<Body> cold_evening(const Floor& f) {
  std::vector<Body> out;
  for (const AdhesiveSheet& sheet : f.shop->sheets) {
    out.push_back(
        PutLot{{.sheet = sheet.id, .label = "A 12", .made = kNow - std::chrono::hours{24}}});
    if (mixed(sheet.chemistry)) out.push_back(MixPot{.sheet = sheet.id, .bench = BenchId{1}});
  }
  out.push_back(SetForecast{{{kNow + std::chrono::hours{4}, {20}, {50}},
                             {kNow + std::chrono::hours{8}, {6}, {50}},
                             {kNow + std::chrono::hours{18}, {6}, {50}},
                             {kNow + std::chrono::hours{20}, {20}, {50}}}});
  return out;
}

template <class Thing>
const Thing& keyed(const std::vector<Thing>& things, std::string_view key) {
  const auto it =
      std::find_if(things.begin(), things.end(), [&](const Thing& t) { return t.key == key; });
  CHECK(it != things.end());
  return *it;
}

const Floor& demo_floor() {
  static const Floor floor = [] {
    const auto shop = read_shop_file("demo", demo_shop_text());
    CHECK(shop.has_value());
    Floor f;
    for (const Stamped& command : demo_week(*shop, kNow)) (void)step(f, command);
    for (Body& body : cold_evening(f)) (void)step(f, {{}, {}, kNow, std::move(body)});
    return f;
  }();
  return floor;
}

// What the planner's workers tell, in the states that the benches of the cases stand for: a long proposal, one under way, one
// that moves nothing, the second page.
plan_ahead::Report report_of(plan_ahead::Task task, const Floor& floor, unsigned bench) {
  plan_ahead::Report r;
  r.task = task;
  r.state = plan_ahead::Report::State::done;
  r.asked_at = kNow;
  r.work_most = 200'000;
  r.progress.work = r.progress.tried = 112'400;
  r.progress.best = schedule::Cost{3'200, 12 * schedule::kMoved + 4'370, 9'000};
  r.progress.lower_bound = schedule::Cost{3'200, 2 * schedule::kMoved, 9'000};
  if (bench == 2) {
    r.state = plan_ahead::Report::State::running;
    r.steps = 7, r.steps_most = 31;
    return r;
  }
  r.proposal.emplace();
  r.proposal->before.late = 3'200;
  std::vector<const GlueUp*> waiting;
  for (const auto& [id, g] : floor.glue_ups)
    if (g.progress == Progress::reserved || g.progress == Progress::displaced)
      waiting.push_back(&g);
  for (int i = 0; i < 25; ++i) {
    const GlueUp& g = *waiting[static_cast<std::size_t>(i) % waiting.size()];
    if (bench == 3) {
      r.proposal->no_place.push_back(g.id);
      continue;
    }
    Shift s{g.id, g.times.stage_begin, g.times, floor.shop->sheets.front().id};
    if (i % 3 == 0) s.from.reset();
    s.to.stage_begin += std::chrono::hours{7 * i};
    r.proposal->shifts.push_back(s);
  }
  for (const GearKind& kind : floor.shop->gear) {
    WhatIf w;
    w.change = MoreGear{kind.id, 1};
    w.waited = std::chrono::hours{300};
    w.would_wait = std::chrono::hours{120} + Minutes{static_cast<int>(kind.id.value) * 511};
    w.glue_ups = 131, w.sooner = 29, w.later = 12, w.no_place = 1;
    r.what_if.push_back(w);
  }
  r.what_if.push_back({.change = LongerHours{Minutes{60}, {}}, .glue_ups = 131});
  r.demand = {kNow - kLookBack, kNow + kLookAhead};
  return r;
}

constexpr unsigned kFirstPage = 20;  // benches from here on stand for pages of the set-up screen

struct Case {
  Screen screen;
  float width, height;
  unsigned bench;
  float text = 1;
  words::Language language = words::Language::english;
  float mm_per_px = look::kUsualMmPerPx;
};
constexpr float kLaptopMmPerPx = 0.161F;  // 1920 pixels on 14 inches
constexpr unsigned kRefused = 4;          // the bench with a refusal at the foot

void PrintTo(const Case& c, std::ostream* out) {
  *out << to_string(c.screen) << " at bench " << c.bench << ", " << c.width << " x " << c.height
       << ", text " << c.text << ", " << c.mm_per_px << " mm a pixel";
}

class Sizes : public ::testing::TestWithParam<Case> {
 protected:
  Sizes() : stage(GetParam().width, GetParam().height, GetParam().mm_per_px, GetParam().text) {
    const Floor& floor = demo_floor();
    stage.view.screen = GetParam().screen;
    stage.view.bench = BenchId{GetParam().bench};
    for (const Builder& b : floor.shop->builders)
      if (b.bench == stage.view.bench) stage.view.builder = b.id;
    for (const auto& [id, g] : floor.glue_ups)
      if (running(g) && g.bench == stage.view.bench) stage.view.glue_up = id;
    stage.view.wanted = {.recipe = floor.shop->recipes.front().id,
                         .builder = stage.view.builder,
                         .bench = stage.view.bench};
    stage.view.kind = floor.shop->gear.front().id;
    // Beside the usual: a glue that does not suit, the figures of a glue-up, another page.
    if (GetParam().bench == 2) {
      stage.view.wanted.recipe = keyed(floor.shop->recipes, "fretboard").id;
      stage.view.wanted.sheet = keyed(floor.shop->sheets, "pva").id;
    }
    if (GetParam().bench == 3) stage.view.figures_of = stage.view.glue_up;
    if (GetParam().bench == 5) stage.view.page = 1;
    if (GetParam().bench == kRefused)
      stage.view.message =
          Message{Message::Tone::refused, "Bridge not reserved: the bridge caul is held.",
                  "Ola Nord has it till 15:05. Take the next time, or ask Ola.",
                  Ask{stage.view.wanted}, "Take 15:05"};
    if (GetParam().screen == Screen::setup && GetParam().bench >= kFirstPage) {
      stage.view.draft = draft::begun({}, floor.shop);
      stage.view.draft.page = static_cast<draft::Page>(GetParam().bench - kFirstPage);
      stage.view.draft.zones = std::make_shared<const std::vector<std::string>>(
          std::vector<std::string>{"Europe/Dublin", "America/Argentina/Buenos_Aires"});
    }
    stage.view.plan = GetParam().bench == 1 ? plan_ahead::Task::repair : plan_ahead::Task::replan;
    stage.plan = report_of(stage.view.plan, floor, GetParam().bench);
    stage.what_if = report_of(plan_ahead::Task::what_if, floor, GetParam().bench);
    if (GetParam().bench == 2) stage.view.chain = Chain::shown;
    if (GetParam().bench == 3) stage.view.picked = stage.view.glue_up;
    frame = cached([&] {
      words::speak(GetParam().language);
      look::Frame laid_out = stage.frame(floor, kNow);
      words::speak(words::Language::english);
      return laid_out;
    });
  }
  // One layout a case, not one a test.
  template <class LayOut>
  static const look::Frame& cached(LayOut lay_out) {
    static std::map<std::tuple<Screen, float, unsigned, float, words::Language, float>, look::Frame>
        frames;
    const Case& c = GetParam();
    const std::tuple key{c.screen, c.height, c.bench, c.text, c.language, c.mm_per_px};
    const auto known = frames.find(key);
    return known != frames.end() ? known->second : frames.emplace(key, lay_out()).first->second;
  }
  Stage stage;
  look::Frame frame;
};

TEST_P(Sizes, ButtonsAreTwentyMillimetresAndFiveApart) {
  for (const look::Press& p : frame.presses) {
    if (p.kind != look::Kind::button) continue;
    EXPECT_GE(stage.scale.mm(p.at.w), look::kTouchMm - 0.1F) << p.id;
    EXPECT_GE(stage.scale.mm(p.at.h), look::kTouchMm - 0.1F) << p.id;
    for (const look::Press& q : frame.presses) {
      if (&p == &q || q.kind != look::Kind::button) continue;
      const look::Rect around = p.at.inset(-0.96F * stage.scale.gap());
      EXPECT_FALSE(around.overlaps(q.at)) << p.id << " is too near to " << q.id;
    }
  }
}

TEST_P(Sizes, TheNextKeyIsThirtyBySixty) {
  for (const char* id : {"next", "reserve", "accept", "stop", "repair", "reserve.first", "set-up"})
    if (const look::Press* next = find(frame, id)) {
      EXPECT_GE(stage.scale.mm(next->at.w), 60) << id;
      EXPECT_GE(stage.scale.mm(next->at.h), 30) << id;
    }
  const look::Press* replan = find(frame, "replan");
  if (replan != nullptr && std::count(replan->keys.begin(), replan->keys.end(), ' ') > 0) {
    EXPECT_GE(stage.scale.mm(replan->at.w), 60);
    EXPECT_GE(stage.scale.mm(replan->at.h), 30);
  }
}

TEST_P(Sizes, IdsAndKeysAreUnique) {
  std::set<std::string> ids;
  std::set<int> keys;
  for (const look::Press& p : frame.presses) {
    EXPECT_TRUE(ids.insert(p.id).second) << p.id;
    for (const int key : p.keys) EXPECT_TRUE(keys.insert(key).second) << p.id << " key " << key;
  }
}

TEST_P(Sizes, EverythingIsOnTheScreen) {
  const look::Rect screen{0, 0, frame.width, frame.height};
  for (const look::Press& p : frame.presses) EXPECT_TRUE(screen.contains(p.at)) << p.id;
  for (const look::Words& w : texts(frame)) EXPECT_TRUE(screen.contains(w.at)) << w.text;
}

TEST_P(Sizes, LettersAreLargeEnoughAndDoNotOverlap) {
  const std::vector<look::Words> all = texts(frame);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const float cap = stage.scale.cap_px(all[i].type);
    // The wall's sizes are those of a 43-inch screen, whatever screen this is.
    const float mm =
        look::on_wall(all[i].type) ? look::face_of(all[i].type).cap_mm : stage.scale.mm(cap);
    EXPECT_GE(look::arc_minutes(mm, look::distance_m(all[i].type)), look::kLeastArcMinutes)
        << all[i].text;
    for (std::size_t j = i + 1; j < all.size(); ++j)
      EXPECT_FALSE(all[i].at.inset(0.5F).overlaps(all[j].at.inset(0.5F)))
          << '"' << all[i].text << "\" and \"" << all[j].text << '"';
  }
}

TEST_P(Sizes, LettersHaveContrastInBothThemes) {
  for (const look::Theme theme : {look::Theme::dark, look::Theme::light}) {
    const look::Palette palette{theme};
    for (const look::Words& w : texts(frame))
      EXPECT_GE(look::contrast(palette[w.ink], palette[w.on]), 4.5)
          << w.text << (theme == look::Theme::dark ? " dark" : " light");
  }
}

TEST_P(Sizes, NothingIsCut) {
  for (const look::Words& w : texts(frame)) EXPECT_FALSE(w.cut) << w.text;
}

// What the shop calls things is not translated.
std::set<std::string> names_of(const Shop& shop) {
  std::string all = shop.name;
  const auto add = [&](const auto& things) {
    for (const auto& thing : things) all += " " + thing.name + " " + words::plural(thing.name);
  };
  add(shop.benches), add(shop.builders), add(shop.gear), add(shop.sheets), add(shop.recipes);
  add(shop.builds);
  for (const Recipe& r : shop.recipes) all += " " + r.finish + " " + r.caution;
  for (const AdhesiveSheet& s : shop.sheets) all += " " + s.caution;
  all += " Space";  // what stands on a key
  for (const GearKind& k : draft::starter().gear) all += " " + k.name;
  all += " " + shop.zone + " America Argentina Buenos Aires";
  std::set<std::string> out;
  std::string word;
  for (const char c : all + " ") {
    if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
      word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    } else if (!word.empty()) {
      out.insert(std::exchange(word, {}));
    }
  }
  return out;
}

// In the pseudo language a keyed word has no plain vowel, so that one that was never keyed stands out.
TEST_P(Sizes, EverySentenceIsKeyed) {
  if (GetParam().language != words::Language::pseudo) return;
  static const std::set<std::string> names = names_of(*demo_floor().shop);
  for (const look::Words& w : texts(frame)) {
    std::string word;
    bool plain = true, vowel = false;
    for (const char c : w.text + " ") {
      const auto byte = static_cast<unsigned char>(c);
      if (std::isalpha(byte) == 0 && byte < 0x80) {
        if (plain && vowel && word.size() > 3) {
          EXPECT_TRUE(names.contains(word)) << '"' << word << "\" in \"" << w.text << '"';
        }
        word.clear(), plain = true, vowel = false;
        continue;
      }
      plain = plain && byte < 0x80;
      word += static_cast<char>(std::tolower(byte));
      vowel = vowel || std::string_view("aeiou").find(word.back()) != std::string_view::npos;
    }
  }
}

std::vector<Case> cases() {
  std::vector<Case> out;
  const auto add = [&](std::initializer_list<unsigned> benches, float text,
                       words::Language language) {
    for (int screen = 0; screen < kScreens; ++screen)
      for (const unsigned bench : benches)
        for (const auto& [w, h] : {std::pair{1920.0F, 1080.0F}, std::pair{1366.0F, 768.0F}})
          out.push_back({static_cast<Screen>(screen), w, h, bench, text, language});
  };
  add({1, 2, 3, 5}, 1, words::Language::english);
  add({1, 2}, 2, words::Language::english);
  add({1, 2}, 1, words::Language::pseudo);
  add({kRefused}, 1, words::Language::english);
  add({kRefused}, 2, words::Language::english);
  for (int screen = 0; screen < kScreens; ++screen)
    for (const unsigned bench : {1U, 2U, 3U, kRefused})
      out.push_back({static_cast<Screen>(screen), 1920, 1080, bench, 1, words::Language::english,
                     kLaptopMmPerPx});
  for (int page = 0; page < draft::kPages; ++page)
    for (const auto& [text, language] : {std::pair{1.0F, words::Language::english},
                                         {2.0F, words::Language::english},
                                         {1.0F, words::Language::pseudo}})
      for (const auto& [w, h] : {std::pair{1920.0F, 1080.0F}, std::pair{1366.0F, 768.0F}})
        out.push_back(
            {Screen::setup, w, h, kFirstPage + static_cast<unsigned>(page), text, language});
  return out;
}

INSTANTIATE_TEST_SUITE_P(Screens, Sizes, ::testing::ValuesIn(cases()), [](const auto& one) {
  std::string name{to_string(one.param.screen)};
  std::replace(name.begin(), name.end(), '-', '_');
  name += "_" + std::to_string(static_cast<int>(one.param.height)) + "_bench" +
          std::to_string(one.param.bench);
  if (one.param.text > 1) name += "_large";
  if (one.param.mm_per_px == kLaptopMmPerPx) name += "_laptop";
  if (one.param.language == words::Language::pseudo) name += "_pseudo";
  return name;
});

// The first keys of a shop, on a laptop: nothing is glued yet, and nothing is set up.
TEST(Laptop, TheFirstKeysAreThirtyBySixty) {
  Stage stage(1920, 1080, kLaptopMmPerPx);
  const auto large = [&](const Floor& floor, const char* id) {
    const look::Frame frame = stage.frame(floor, kNow);
    const look::Press* key = find(frame, id);
    ASSERT_NE(key, nullptr) << id << '\n' << all_texts(frame);
    EXPECT_GE(stage.scale.mm(key->at.w), 60) << id;
    EXPECT_GE(stage.scale.mm(key->at.h), 30) << id;
  };
  large(Bench(kNow).floor(), "reserve.first");
  Shop bare = small_shop();
  bare.recipes.clear(), bare.builds.clear();
  large(Bench(kNow, bare).floor(), "set-up");
}

// Phases survive greyscale: open, clamped and waiting step in lightness.
TEST(Colours, PhasesStepInLightness) {
  for (const look::Theme theme : {look::Theme::dark, look::Theme::light}) {
    const look::Palette p{theme};
    using look::Role;
    EXPECT_GE(look::contrast(p[Role::open], p[Role::clamped]), 3.0);
    EXPECT_GE(look::contrast(p[Role::clamped], p[Role::waiting]), 2.9);
  }
}

// The floor of these tests shows what it is meant to show.
TEST(DemoFloor, TheColdEveningFillsTheScreens) {
  const Floor& floor = demo_floor();
  EXPECT_GT(floor.lots.size(), 8U);
  EXPECT_FALSE(floor.pots.empty());
  int notes = 0, moved = 0;
  for (const auto& [id, g] : floor.glue_ups) {
    notes += g.weather ? 1 : 0;
    moved += moved_by_weather(g) ? 1 : 0;
  }
  EXPECT_GT(notes, 1);
  EXPECT_GT(moved, 0);
}

// WCAG 2: #767676 on white 4.5422, #777777 4.4781.
TEST(Colours, ContrastIsThatOfWcag) {
  EXPECT_NEAR(look::contrast({0x76, 0x76, 0x76}, {255, 255, 255}), 4.5422, 0.0001);
  EXPECT_NEAR(look::contrast({0x77, 0x77, 0x77}, {255, 255, 255}), 4.4781, 0.0001);
  EXPECT_NEAR(look::contrast({0, 0, 0}, {255, 255, 255}), 21, 0.0001);
}

}  // namespace
}  // namespace squeezeout::testing
