// Keyed sentences: the pseudo language is longer, accented, and keeps what stands in braces; every variant of a refusal, fact,
// blocker, command, snag, phase, caution has its words in both languages, and no letter of them was left unkeyed.

#include "client/words/say.h"

#include <cctype>
#include <set>

#include "client/words/columns.h"
#include "client/words/craft.h"
#include "client/words/plan.h"
#include "client/words/why.h"
#include "tests/unit/client/words_fixture.h"

namespace squeezeout::words {
namespace {

using namespace squeezeout::testing;
using ::testing::HasSubstr;

struct Speaking {
  explicit Speaking(Language language) { speak(language); }
  Speaking(const Speaking&) = delete;
  Speaking& operator=(const Speaking&) = delete;
  ~Speaking() { speak(Language::english); }
};

bool vowel(char ch) { return std::string_view("aeiouyAEIOUY").find(ch) != std::string_view::npos; }

TEST(Pseudo, IsLongerByTwoFifths) {
  for (const std::string text :
       {"Nothing curing.", "Take another glue.", "Clamps off, its gear is free.",
        "The floor holds at most {} of its glue-ups.", "rhythms by night"}) {
    const double longer = double(width(pseudo(text))) / double(width(text));
    EXPECT_GE(longer, 1.3) << pseudo(text);
    EXPECT_LE(longer, 1.5) << pseudo(text);
  }
}

TEST(Pseudo, AccentsEveryVowel) {
  const std::string all = "The quick brown fox jumps over a lazy dog. AEIOUY";
  const std::string said = pseudo(all);
  for (const char ch : said) EXPECT_FALSE(vowel(ch)) << ch << " in " << said;
}

TEST(Pseudo, KeepsWhatStandsInBraces) {
  EXPECT_THAT(pseudo("Start {}, glue {:.1f}"), HasSubstr("{:.1f}"));
  EXPECT_EQ(pseudo("{}: {:>5} {0:%H}"), "{}: {:>5} {0:%H}");
  EXPECT_THAT(pseudo("dwell {{ minutes: 60 }} at {:g}"), HasSubstr("{{"));
  EXPECT_THAT(pseudo("dwell {{ minutes: 60 }} at {:g}"), HasSubstr("}}"));
  EXPECT_EQ(pseudo("{:{}.{}f}"), "{:{}.{}f}");
  EXPECT_EQ(pseudo(""), "");
}

TEST(Say, FillsInAfterTheLookUp) {
  EXPECT_EQ(say("off {}", "15:40"), "off 15:40");
  EXPECT_EQ(say_n(1, "{} press", "{} presses"), "1 press");
  EXPECT_EQ(say_n(3, "{} press of {}", "{} presses of {}", "Ida"), "3 presses of Ida");
  const Speaking pseudo_language{Language::pseudo};
  std::string off = pseudo("off {}");
  off.replace(off.find("{}"), 2, "Oat");
  EXPECT_EQ(say("off {}", "Oat"), off) << "a name is not looked up";
  EXPECT_EQ(say("{{{:.1f}}}", 1.25), "{1.2}") << "braces and their formats live through it";
  EXPECT_THAT(say("{:.1f} and {{}}", 2.04), HasSubstr("2.0"));
  EXPECT_THAT(say_n(2, "{} press", "{} presses"), HasSubstr("2 "));
}

// Words that stay as they are in any language: units of measure, and the names of the small shop.
std::string unkeyed(const std::string& said) {
  static const std::set<std::string> known{"min",  "am",   "pm",        "in",     "Ida",    "Ola",
                                           "deep", "Deep", "clamp",     "clamps", "Bench",  "bench",
                                           "No",   "MPa",  "aliphatic", "resin",  "string", "up"};
  std::string word;
  for (const char ch : said + " ") {
    if (std::isalpha(static_cast<unsigned char>(ch)) != 0) {
      word += ch;
      continue;
    }
    if (std::any_of(word.begin(), word.end(), vowel) && !known.contains(word)) return word;
    word.clear();
  }
  return "";
}

struct SayAll : Words {
  void SetUp() override { speak(Language::english); }

  // The same words in both languages: some, other ones, and all of them keyed.
  template <class Said>
  void both(const Said& said, const std::string& what) const {
    const std::string english = said();
    EXPECT_FALSE(english.empty()) << what;
    const Speaking pseudo_language{Language::pseudo};
    const std::string other = said();
    EXPECT_NE(other, english) << what;
    EXPECT_EQ(unkeyed(other), "") << what << ": " << english << " -> " << other;
  }

  template <class Variant, class Said, std::size_t I = 0>
  void each(const Said& said) const {
    if constexpr (I < std::variant_size_v<Variant>) {
      both([&] { return said(Variant{std::in_place_index<I>}); },
           "alternative " + std::to_string(I));
      each<Variant, Said, I + 1>(said);
    }
  }

  template <class Enum, class Said>
  void each_of(int first, int count, const Said& said) const {
    for (int i = first; i < count; ++i)
      both([&] { return said(static_cast<Enum>(i)); }, "value " + std::to_string(i));
  }
};

std::string all_of(const Told& t) { return t.what + " " + t.why + " " + t.next; }

TEST_F(SayAll, RefusalsOfEveryCommand) {
  each<Refusal>([&](const Refusal& r) { return all_of(told(Reserve{}, r)); });
  each<Body>([&](const Body& asked) {
    return all_of(told(asked, NoSuch{.what = Thing::glue_up, .id = 7}));
  });
  each_of<Thing>(0, kThings, [&](Thing t) { return all_of(told(Reserve{}, NoSuch{t, 7})); });
  each_of<Thing>(0, kThings, [&](Thing t) { return all_of(told(Reserve{}, TooMany{t, 7})); });
  each<Unfit>([&](const Unfit& u) { return all_of(told(Reserve{}, NotPossible{u})); });
  each_of<Progress>(0, kProgresses, [&](Progress p) {
    return all_of(told(Start{}, WrongProgress{.glue_up = {}, .is = p}));
  });
  each_of<BadAir::What>(
      0, 3, [&](BadAir::What what) { return all_of(told(ReadClimate{}, BadAir{.what = what})); });
  each<Fact>([&](const Fact& f) {
    return all_of(told(Reserve{}, DoesNotFit{{{Span{}, f}}, std::nullopt}));
  });
}

TEST_F(SayAll, EveryCommandDone) {
  each<Body>([&](const Body& asked) { return done(here(), asked, {}); });
  const GlueUpId id = played.reserve(kBridge, kIda);
  both([&] { return done(here(), Reserve{}, id); }, "with its times");
  for (const int sent : {0, 1, 2})
    for (int needs = 0; needs <= sent; ++needs)
      both([&] { return back_live(sent, needs); }, "back");
}

TEST_F(SayAll, FactsAndBlockers) {
  each<Fact>([&](const Fact& f) { return fact(here(), f); });
  each<Blocker>([&](const Blocker& b) { return blocker(here(), b); });
  each<Blocker>([&](const Blocker& b) {
    return not_before(here(), {played.now, std::nullopt, {b, b, b, b, b}});
  });
  const GearNeed wanted = need_of(GearClass::clamp, 2);
  each_of<GearClass>(0, kGearClasses, [&](GearClass of) {
    GearNeed n = wanted;
    n.gear_class = of;
    n.opening = n.throat = n.length = {60};
    n.force = {200};
    return need(here(), n);
  });
}

TEST_F(SayAll, EveryPhaseAndSnag) {
  const GlueUpId id = played.reserve(kBridge, kIda);
  const GlueUp planned = glue_up(id);
  const auto at_phase = [&](Progress p, Instant now) {
    GlueUp g = planned;
    g.progress = p;
    both([&] { return phase({played.floor, now}, g); }, std::string(progress_word(p)));
  };
  const PhaseTimes& t = planned.times;
  for (int p = 0; p < kProgresses; ++p)
    for (const Instant now : {t.stage_begin - Minutes{1}, t.stage_begin, t.open_begin + Minutes{1},
                              t.clamped_begin + Minutes{1}, t.release_begin + Minutes{1},
                              t.release_end + Minutes{1}, t.ready_at + Minutes{1}})
      at_phase(static_cast<Progress>(p), now);
  each_of<Snag>(1, kSnags, [&](Snag s) {
    GlueUp g = planned;
    g.progress = Progress::displaced;
    g.snag = s;
    return phase(here(), g) + snag(here(), g);
  });
}

TEST_F(SayAll, TheCraft) {
  each_of<Caution>(0, kCautions, [&](Caution i) { return caution(here(), i); });
  each_of<Rule>(0, kRules, [](Rule i) { return rule(i); });
  each_of<Verdict>(0, 4, [](Verdict i) { return verdict(i); });
  each_of<LotAge>(0, 4, [](LotAge i) { return lot_age(i); });
  each_of<FigureOf>(0, kFigures, [](FigureOf i) { return figure_name(i); });
  each_of<FigureOf>(0, kFigures, [](FigureOf i) { return unpublished(i); });
  each_of<InputOf>(0, kInputs, [](InputOf i) { return input({i, Mark::recalled}); });
}

TEST_F(SayAll, WhatIsPlannedAhead) {
  each<Hypothesis>([&](const Hypothesis& h) { return change(here(), h); });
  for (int day = 0; day < 7; ++day) both([&] { return change(here(), OpenOn{day}); }, "a day");
  for (const schedule::Cost& it : {schedule::Cost{}, schedule::Cost{200, schedule::kMoved + 30, 0}})
    both([&] { return cost(it); }, "cost");
  both([&] { return at_risk(here(), {}); }, "at risk");
  both([&] { return saving({}); }, "saving");
  both([&] { return counted({.glue_ups = 9, .sooner = 1, .later = 1, .no_place = 1}); }, "counted");
}

TEST_F(SayAll, DaysOfTheWeekAndMonths) {
  for (int month = 0; month < 12; ++month) {
    const Instant then = kMorning + std::chrono::hours{24 * 30} * (month + 1);
    both([&] { return clock(here(), then) + day(here(), then); }, "a month");
  }
}

}  // namespace
}  // namespace squeezeout::words
