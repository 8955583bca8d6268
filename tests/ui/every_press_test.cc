// Every press of every screen that can be reached, through real ImGui: by mouse and by each of its keys it means what the frame
// says. And no kind of intent is left that no press of any screen makes.

#include <gtest/gtest.h>

#include <deque>
#include <map>
#include <set>

#include "tests/ui/craft_shop.h"
#include "tests/ui/hands.h"

namespace squeezeout::testing {
namespace {

using std::chrono::hours;
const Instant kTen = at("2026-11-26T10:00:00Z");

// These come from strokes of letters, dropped files and disks: their own tests make them.
template <class I>
constexpr bool kNoPress =
    std::is_same_v<I, Typed> || std::is_same_v<I, FileRead> || std::is_same_v<I, FileWritten>;

template <std::size_t... N>
std::set<std::size_t> pressable(std::index_sequence<N...>) {
  std::set<std::size_t> out;
  ((kNoPress<std::variant_alternative_t<N, Intent>> ? void() : void(out.insert(N))), ...);
  return out;
}
std::set<std::size_t> pressable() {
  return pressable(std::make_index_sequence<std::variant_size_v<Intent>>{});
}

// "take.12.0" and "take.7.1" are the same kind of press.
std::string kind_of(const std::string& id) {
  std::string out;
  for (const char c : id)
    if (c < '0' || c > '9') out += c;
  return out;
}

// Only what changes the view: the floor and the disk stay as they are.
bool only_looks(const Intent& i) {
  return !std::holds_alternative<Ask>(i) && !std::holds_alternative<WriteShop>(i) &&
         !std::holds_alternative<ReadFile>(i) && !std::holds_alternative<SetPrefs>(i);
}

// Enough builders and clamps that a lane of the board has more bars than rows.
Shop crowded_shop() {
  Shop s = craft_shop();
  s.gear[1].stock = 60;
  for (unsigned i = 4; i <= 10; ++i)
    s.builders.push_back({BuilderId{i}, "b" + std::to_string(i), "Builder", kBench2, {}});
  return s;
}

class EveryPress : public ::testing::Test {
 protected:
  EveryPress() : bench(kTen, crowded_shop()), hands(stage) {
    // One of each state: waiting, clamped, wet, planned, displaced, and a pot.
    const GlueUpId waiting = finished(kBridge, kAda, Minutes{90});
    const GlueUpId clamped = bench.reserve(kBinding, kAda);
    bench.set(bench.glue_up(clamped).times.open_begin);
    EXPECT_TRUE(bench.press(Start{clamped}));
    bench.wait(Minutes{3});
    EXPECT_TRUE(bench.press(ClampsOn{clamped, bench.now()}));
    EXPECT_TRUE(bench.press(MixPot{.sheet = kEpoxy, .bench = kBench1}));
    EXPECT_TRUE(bench.press(PutLot{{.sheet = kResin, .made = kTen - hours{48}}}));
    const GlueUpId lost = bench.reserve(kBridge, kBen, bench.now() + hours{4});
    EXPECT_TRUE(bench.press(GearBroken{kCaul, 1, "cracked"}));
    EXPECT_TRUE(bench.press(GearMended{kCaul, 1}));
    EXPECT_EQ(bench.glue_up(lost).progress, Progress::displaced);
    const Instant tomorrow = kTen + hours{23};
    const GlueUpId planned = bench.reserve(kBridge, kAda, tomorrow, kBuild14, 0);
    for (unsigned i = 4; i <= 10; ++i) bench.reserve(kBinding, BuilderId{i}, tomorrow);
    stage.view.kind = kDeep;
    stage.view.wanted = {.recipe = kBridge, .builder = kAda, .bench = kBench1};
    for (int i = 0; i < kScreens; ++i) {
      View view = stage.view;
      view.screen = static_cast<Screen>(i);
      if (view.screen == Screen::wall) continue;  // it takes no presses
      for (const GlueUpId id : {waiting, clamped, planned}) {
        view.glue_up = view.picked = id;
        begin(view);
      }
      view.help = Help::open;
      begin(view);
    }
    View unfit = stage.view;  // a glue that takes a reason
    unfit.screen = Screen::reserve;
    unfit.wanted = {.recipe = kFretboard, .builder = kAda, .bench = kBench1, .sheet = kResin};
    begin(unfit);
    View later = unfit;
    later.wanted = {.recipe = kBridge, .builder = kCyd, .after = bench.now() + hours{1}};
    begin(later);
    View asks = stage.view;  // somebody holds the only caul
    asks.screen = Screen::reserve;
    asks.wanted = {.recipe = kBridge, .builder = kBen, .after = tomorrow - Minutes{30}};
    begin(asks);
    View draft = stage.view;  // a shop under way, and a file to read
    draft.screen = Screen::setup;
    draft.draft = draft::begun({}, bench.floor().shop);
    draft.draft.path = "shop.textproto";
    draft.draft.page = draft::Page::open;
    begin(draft);
    View told = stage.view;
    told.message = Message{Message::Tone::refused, "Not reserved.", "Ben took the caul.",
                           Ask{Cancel{planned}}, "Take 15:05"};
    begin(told);
  }
  GlueUpId finished(RecipeId recipe, BuilderId builder, Seconds clamps) {
    const GlueUpId id = bench.reserve(recipe, builder);
    bench.set(bench.glue_up(id).times.open_begin);
    EXPECT_TRUE(bench.press(Start{id}));
    bench.wait(Minutes{3});
    EXPECT_TRUE(bench.press(ClampsOn{id, bench.now()}));
    bench.wait(clamps);
    EXPECT_TRUE(bench.press(ClampsOff{id, bench.now()}));
    return id;
  }
  void begin(const View& view) { views.push_back(view); }
  look::Frame frame_of(const View& view) {
    stage.view = view;
    return stage.frame(bench.floor(), bench.now());
  }
  // Presses what has not been pressed in its kind, and follows where it leads.
  void walk(const View& view) {
    const look::Frame frame = frame_of(view);
    for (const look::Press& p : frame.presses) {
      const std::string kind = std::string(to_string(view.screen)) + "/" + kind_of(p.id) + "/" +
                               std::to_string(p.intent.index());
      if (!known.insert(kind).second) continue;
      const auto clicked = hands.click(frame, p.id);
      ASSERT_TRUE(clicked) << kind;
      EXPECT_EQ(clicked->id, p.id) << "something else lies over it";
      EXPECT_EQ(clicked->intent.index(), p.intent.index());
      seen.insert(p.intent.index());
      for (const int key : p.keys) {
        if (frame.typing) continue;
        const auto typed = hands.key(frame, key);
        ASSERT_TRUE(typed) << kind << " by key " << key;
        EXPECT_EQ(typed->id, p.id) << "by key " << key;
      }
      if (only_looks(p.intent) && views.size() < 400) begin(after(view, p.intent));
    }
  }

  Stage stage;
  Bench bench;
  Hands hands;
  std::deque<View> views;
  std::set<std::string> known;
  std::set<std::size_t> seen;
};

TEST_F(EveryPress, MeansWhatItsFrameSaysAndNoIntentIsLeftOut) {
  using State = plan_ahead::Report::State;
  for (const State state : {State::idle, State::running, State::done, State::stopped}) {
    stage.plan.state = stage.what_if.state = state;
    stage.plan.proposal.reset();
    if (state == State::done) stage.plan.proposal.emplace();
    if (state == State::done)
      for (const auto& [id, g] : bench.floor().glue_ups)
        if (g.progress == Progress::reserved)
          stage.plan.proposal->shifts.push_back({id, g.times.stage_begin, g.times, g.sheet});
    for (std::size_t i = 0; i < views.size(); ++i) walk(View{views[i]});
    stage.alarms.alarms = {{.glue_up = GlueUpId{1}}};
  }
  for (const std::size_t i : pressable())
    EXPECT_TRUE(seen.contains(i)) << "no press of any screen makes the intent at " << i
                                  << " of the variant (look/intent.h)";
  EXPECT_GT(known.size(), 100U);
}

// From everywhere there is a key that leads away, and in the end to the bench.
TEST_F(EveryPress, EscLeadsBackToTheBenchFromEverywhere) {
  for (View view : views) {
    for (int presses = 0; presses < 4; ++presses) {
      const look::Frame frame = frame_of(view);
      if (view.screen == Screen::bench && view.help == Help::closed) break;
      const auto pressed = hands.key(frame, look::kEscape);
      ASSERT_TRUE(pressed) << to_string(view.screen);
      view = after(view, pressed->intent);
    }
    EXPECT_EQ(view.screen, Screen::bench);
    EXPECT_EQ(view.help, Help::closed);
  }
}

TEST_F(EveryPress, ArrowsAndEnterPressWhatHasNoLetter) {
  View view = views.front();
  view.screen = Screen::bench;
  const look::Frame frame = frame_of(view);
  EXPECT_FALSE(hands.key(frame, look::kDown)) << "the ring moves, nothing is pressed";
  auto pressed = hands.key(frame, look::kEnter);
  ASSERT_TRUE(pressed);
  EXPECT_TRUE(pressed->id.starts_with("mine.")) << pressed->id;
  std::set<std::string> reached;
  for (const int arrow : {look::kRight, look::kDown, look::kRight, look::kUp, look::kLeft}) {
    EXPECT_FALSE(hands.key(frame, arrow));
    pressed = hands.key(frame, look::kEnter);
    ASSERT_TRUE(pressed);
    reached.insert(pressed->id);
  }
  EXPECT_TRUE(std::any_of(reached.begin(), reached.end(), [](const std::string& id) {
    return id.starts_with("tile.");
  })) << ::testing::PrintToString(reached);
}

}  // namespace
}  // namespace squeezeout::testing
