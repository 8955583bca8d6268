// Random disruptions of random floors (late, broken, cold, spoiled, over time): what repair() proposes moves nothing that has
// started, is taken by AdoptPlan as it is, and UndoPlan brings the very same records back. On small floors every smaller set of
// glue-ups is tried: none of them mends the floor. Where a repair is called proven, every plan that moves as few by less is tried,
// minute by minute: the floor takes none. What replan() proposes is taken, too.
//   How many: SQUEEZEOUT_RUNS; left out: 250, a short slice of the 1,000 that are promised

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <random>

#include "common/floor/ask.h"
#include "common/floor/replan.h"
#include "tests/support/environment.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : random_(seed) {}
  int number(int below) { return static_cast<int>(random_() % static_cast<std::uint64_t>(below)); }

 private:
  std::mt19937_64 random_;
};

struct Counted {
  int disruptions = 0, displaced = 0, proposals = 0, taken_back = 0, stood_again = 0, nobody = 0,
      proven = 0;
  int brute = 0, sets = 0, no_place = 0, replans = 0, replans_moved = 0;
  int proofs = 0;
  long lesser = 0;
};

// A day of work: some run, some are reserved, some steps of a build.
void fill(Bench& b, Dice& dice) {
  for (int i = 4 + dice.number(7); i > 0; --i) {
    Reserve r{.recipe = RecipeId{static_cast<std::uint32_t>(1 + dice.number(4))},
              .builder = BuilderId{static_cast<std::uint32_t>(1 + dice.number(3))},
              .after = b.now()};
    if (dice.number(3) == 0) {
      if (const auto step = next_step(b.floor(), kBuild14))
        r.build = step->build, r.step = step->step, r.recipe = step->recipe;
    }
    if (dice.number(4) == 0) r.after += Minutes{dice.number(300)};
    if (dice.number(12) == 0) r.hours = Override::knowingly;
    (void)b.press(r);
    if (dice.number(3) == 0) b.wait(Minutes{dice.number(10)});
  }
  for (int i = 3; i > 0; --i) {
    b.wait(Seconds{dice.number(900)});
    b.tick();
    for (const auto& [id, g] : std::map{b.floor().glue_ups}) {
      if (g.progress == Progress::reserved && g.times.open_begin <= b.now() && dice.number(4) > 0)
        (void)b.press(Start{id});
      else if (g.progress == Progress::open && dice.number(3) > 0)
        (void)b.press(ClampsOn{id, b.now()});
    }
  }
}

void disrupt(Bench& b, Dice& dice) {
  std::vector<GlueUpId> runs;
  for (const auto& [id, g] : b.floor().glue_ups)
    if (running(g)) runs.push_back(id);
  const auto one = [&] {
    return runs.empty()
               ? GlueUpId{1}
               : runs[static_cast<std::size_t>(dice.number(static_cast<int>(runs.size())))];
  };
  switch (dice.number(6)) {
    case 0:
      (void)b.press(Late{one(), Minutes{5 + dice.number(200)}});
      break;
    case 1:
      (void)b.press(
          SetForecast{{{b.now() + Minutes{1}, {static_cast<double>(9 + dice.number(8))}, {50}},
                       {b.now() + std::chrono::hours{30}, {12}, {50}}}});
      break;
    case 2:
      (void)b.press(Spoiled{one(), b.now(), "slipped"});
      break;
    case 3:  // over time: nobody presses
      b.wait(Minutes{20 + dice.number(120)});
      b.tick();
      break;
    default:
      (void)b.press(GearBroken{GearKindId{static_cast<std::uint32_t>(1 + dice.number(5))},
                               1 + dice.number(4), "bent"});
  }
}

std::vector<GlueUpId> not_started_of(const Floor& f) {
  std::vector<GlueUpId> out;
  for (const auto& [id, g] : f.glue_ups) {
    if (g.progress == Progress::reserved || g.progress == Progress::displaced) out.push_back(id);
  }
  return out;
}

AdoptPlan adopt(const Proposal& p) {
  AdoptPlan plan;
  for (const Shift& s : p.shifts) plan.moves.push_back({s.glue_up, s.to.stage_begin, s.sheet});
  return plan;
}

std::size_t moved_in(const Floor& f, const Proposal& p) {
  return static_cast<std::size_t>(
      std::count_if(p.shifts.begin(), p.shifts.end(), [&](const Shift& s) {
        return s.to.stage_begin != f.glue_ups.at(s.glue_up).times.stage_begin;
      }));
}

GlueUp without_press(GlueUp g) {
  g.pressed_at = {};
  g.plan = {};
  return g;
}

// The set moves, each in turn to its earliest, in every order; all that lost their place and are not of it stand where they stood.
// True: the floor takes such a plan.
bool mends(const Bench& b, std::vector<GlueUpId> set, const std::vector<GlueUpId>& no_place) {
  const Floor& f = b.floor();
  AdoptPlan stay;
  for (const GlueUpId id : f.displaced) {
    if (std::count(set.begin(), set.end(), id) + std::count(no_place.begin(), no_place.end(), id))
      continue;
    const Instant start = f.glue_ups.at(id).times.stage_begin;
    if (start < b.now()) return false;
    stay.moves.push_back({id, start, {}});
  }
  std::sort(set.begin(), set.end());
  do {
    Bench trial = b;
    for (const GlueUpId id : set) {
      GlueUp g = f.glue_ups.at(id);
      g.progress = Progress::displaced;
      g.held.clear();
      squeezeout::apply(trial.floor(), GlueUpChanged{Change::displaced, g});
    }
    // Those that stay take their places first; but for those that wait for one of the set, which only the whole plan can try.
    for (const Adopted& m : stay.moves) (void)trial.press(AdoptPlan{{m}});
    AdoptPlan all = stay;
    bool placed = true;
    for (const GlueUpId id : set) {
      const auto quote = earliest_for(trial.floor(), id, b.now(), b.now());
      placed = placed && quote &&
               trial.press(AdoptPlan{{{id, quote->slot.times.stage_begin, {}}}}).has_value();
      if (!placed) break;
      all.moves.push_back({id, quote->slot.times.stage_begin, {}});
    }
    if (!placed) continue;
    if (all.moves.empty()) return true;
    Bench real = b;
    if (real.press(all)) return true;
  } while (std::next_permutation(set.begin(), set.end()));
  return false;
}

// Calls f(set) for each set of `size` out of `all`, until it says true.
template <class F>
bool any_set(const std::vector<GlueUpId>& all, std::size_t size, F f) {
  std::vector<bool> chosen(all.size(), false);
  std::fill(chosen.begin(), chosen.begin() + static_cast<std::ptrdiff_t>(size), true);
  do {
    std::vector<GlueUpId> set;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (chosen[i]) set.push_back(all[i]);
    if (f(set)) return true;
  } while (std::prev_permutation(chosen.begin(), chosen.end()));
  return false;
}

constexpr long kMostPlans = 30'000;  // that are tried for one proof

// All plans that move exactly this set, by whole minutes and by less than `most` together, with the rest of those that lost their
// place where they stood. Calls f(plan) until it says true.
template <class F>
bool any_lesser(const Bench& b, const std::vector<GlueUpId>& set, std::int64_t most, AdoptPlan plan,
                F f) {
  const std::size_t i =
      static_cast<std::size_t>(std::count_if(set.begin(), set.end(), [&](GlueUpId id) {
        return std::any_of(plan.moves.begin(), plan.moves.end(),
                           [&](const Adopted& m) { return m.glue_up == id; });
      }));
  if (i == set.size()) return f(plan);
  const GlueUp& g = b.floor().glue_ups.at(set[i]);
  const Instant stood = g.times.stage_begin;
  const Instant least = std::max(b.now(), std::min(stood, g.wanted_from));
  const auto first = std::chrono::ceil<Minutes>(std::max(least, stood - Minutes{most - 1}));
  for (Instant t = first; t < stood + Minutes{most}; t += Minutes{1}) {
    if (t == stood) continue;
    const auto away = std::chrono::ceil<Minutes>(std::chrono::abs(t - stood)).count();
    if (away >= most) continue;
    AdoptPlan more = plan;
    more.moves.push_back({set[i], t, {}});
    if (any_lesser(b, set, most - away, more, f)) return true;
  }
  return false;
}

// Where that can be tried: no plan that moves as few moves them by less.
void check_proof(const Bench& b, const Proposal& p, std::size_t moved, Counted& n) {
  const std::vector<GlueUpId> all = not_started_of(b.floor());
  const std::int64_t unplaced =
      static_cast<std::int64_t>(p.no_place.size()) *
      (schedule::kMoved + std::chrono::duration_cast<Minutes>(kHorizon).count());
  const std::int64_t minutes = (p.after.disturbed - unplaced) % schedule::kMoved;
  double plans = 1;
  for (std::size_t i = 0; i < moved; ++i)
    plans *= static_cast<double>(all.size() - i) * 2.0 * static_cast<double>(minutes) /
             static_cast<double>((i + 1) * (i + 1));
  if (moved == 0 || plans > static_cast<double>(kMostPlans)) return;
  ++n.proofs;
  const bool less = any_set(all, moved, [&](const std::vector<GlueUpId>& set) {
    AdoptPlan stay;
    for (const GlueUpId id : b.floor().displaced) {
      const bool named = std::count(set.begin(), set.end(), id) > 0 ||
                         std::count(p.no_place.begin(), p.no_place.end(), id) > 0;
      if (!named) stay.moves.push_back({id, b.floor().glue_ups.at(id).times.stage_begin, {}});
    }
    if (std::any_of(stay.moves.begin(), stay.moves.end(),
                    [&](const Adopted& m) { return m.start < b.now(); }))
      return false;
    return any_lesser(b, set, minutes, stay, [&](const AdoptPlan& plan) {
      ++n.lesser;
      const bool taken = decide(b.floor(), {{}, {}, b.now(), plan}).has_value();
      if (taken) {
        for (const Adopted& m : plan.moves)
          std::printf("  #%u by %ld s\n", m.glue_up.value,
                      static_cast<long>(
                          (m.start - b.floor().glue_ups.at(m.glue_up).times.stage_begin).count()));
      }
      return taken;
    });
  });
  EXPECT_FALSE(less) << "less than " << minutes << " minutes would do, and that was called proven";
}

void check_repair(Bench& b, Counted& n) {
  const Floor before = b.floor();
  const schedule::Budget budget{.seed = 7, .work = 300'000};
  const Proposal p = repair(before, b.now(), budget);
  n.no_place += !p.no_place.empty();
  n.proven += p.optimal;
  const std::size_t moved = moved_in(before, p);
  n.nobody += p.shifts.empty();
  n.stood_again += !p.shifts.empty() && moved == 0;
  for (const GlueUpId id : before.displaced) {
    const auto shifted = std::count_if(p.shifts.begin(), p.shifts.end(),
                                       [&](const Shift& s) { return s.glue_up == id; });
    EXPECT_EQ(shifted + std::count(p.no_place.begin(), p.no_place.end(), id), 1)
        << "it lost its place, and is spoken of once";
  }
  for (const GlueUpId id : p.no_place) EXPECT_TRUE(before.displaced.contains(id));
  for (const Shift& s : p.shifts) {
    const Progress is = before.glue_ups.at(s.glue_up).progress;
    EXPECT_TRUE(is == Progress::reserved || is == Progress::displaced);
  }

  const std::vector<GlueUpId> all = not_started_of(before);
  if (all.size() <= 7) {
    ++n.brute;
    for (std::size_t size = 0; size < moved; ++size) {
      const bool fewer = any_set(all, size, [&](const std::vector<GlueUpId>& set) {
        ++n.sets;
        return mends(b, set, p.no_place);
      });
      EXPECT_FALSE(fewer) << size << " would do where " << moved << " were moved";
    }
  }

  if (p.optimal) check_proof(b, p, moved, n);

  // However little work is allowed, and when it is cut short.
  const Proposal quick =
      repair(before, b.now(), {.seed = 7, .work = 1, .stop = [] { return true; }});
  EXPECT_EQ(quick.no_place, p.no_place);
  EXPECT_GE(moved_in(before, quick), moved);

  if (p.shifts.empty()) return;
  ++n.proposals;
  const auto done = b.press(adopt(p));
  ASSERT_TRUE(done) << "a proposal made from this very floor";
  EXPECT_EQ(over_stock(b.floor()), "");
  for (const auto& [id, g] : before.glue_ups) {
    const auto is_shift = [&](const Shift& s) { return s.glue_up == id; };
    const auto shift = std::find_if(p.shifts.begin(), p.shifts.end(), is_shift);
    if (shift == p.shifts.end()) {
      EXPECT_EQ(b.glue_up(id), g) << "it is not named and has changed";
    } else {
      EXPECT_EQ(b.glue_up(id).times, shift->to);
    }
  }
  Bench undone = b;
  ASSERT_TRUE(undone.press(UndoPlan{PlanId{undone.floor().last_plan}}));
  ++n.taken_back;
  EXPECT_EQ(over_stock(undone.floor()), "");
  for (const Shift& s : p.shifts) {
    GlueUp is = without_press(undone.glue_up(s.glue_up));
    EXPECT_EQ(is, without_press(before.glue_ups.at(s.glue_up)));
  }
}

void check_replan(Bench& b, Counted& n) {
  const Floor before = b.floor();
  const Proposal p = replan(before, b.now(), {.seed = 7, .work = 3'000});
  ++n.replans;
  EXPECT_LE(p.after, p.before);
  if (p.shifts.empty()) return;
  ++n.replans_moved;
  for (const Shift& s : p.shifts) {
    const Progress is = before.glue_ups.at(s.glue_up).progress;
    EXPECT_TRUE(is == Progress::reserved || is == Progress::displaced);
  }
  EXPECT_TRUE(b.press(adopt(p)));
  EXPECT_EQ(over_stock(b.floor()), "");
}

TEST(RandomRepair, FewestMovedTakenAndTakenBack) {
  const int runs = static_cast<int>(number_from_environment("SQUEEZEOUT_RUNS", 250));
  Counted n;
  for (int seed = 1; n.disruptions < runs && seed < 20 * runs; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice{static_cast<std::uint64_t>(seed)};
    Shop shop = small_shop();
    shop.benches[0].one_at_a_time = dice.number(2) == 0;
    if (dice.number(2) == 0) shop.builds[0].due = at("2026-11-28T12:00:00Z");
    Bench b{at("2026-11-26T09:00:00Z"), shop};
    fill(b, dice);
    disrupt(b, dice);
    if (b.floor().displaced.empty()) continue;  // it broke no plan
    ++n.disruptions;
    n.displaced += static_cast<int>(b.floor().displaced.size());
    if (n.disruptions % 10 == 0) {
      Bench other = b;
      check_replan(other, n);
    }
    check_repair(b, n);
    if (::testing::Test::HasFailure()) break;
  }
  std::printf(
      "%d disruptions put %d out: %d proposals, each adopted, %d taken back to the very records; "
      "%d stood again as they "
      "stood, %d had nothing to propose, %d with no place; %d proven. %d small floors, %d smaller "
      "sets tried: none mends. %d proofs tried by %ld lesser plans: none is "
      "taken. %d replans, %d moved something\n",
      n.disruptions, n.displaced, n.proposals, n.taken_back, n.stood_again, n.nobody, n.no_place,
      n.proven, n.brute, n.sets, n.proofs, n.lesser, n.replans, n.replans_moved);
  EXPECT_EQ(n.disruptions, runs);
  EXPECT_GT(n.proposals, n.disruptions / 2);
  EXPECT_GT(n.brute, n.disruptions / 10);
  EXPECT_GT(n.proofs, n.disruptions / 20);
}

}  // namespace
}  // namespace squeezeout::testing
