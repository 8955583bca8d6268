// Promise: an explanation is enough and is least. Random floors, made by commands; random wishes and glue-ups on record. For each
// answer every minute from when it was wanted to the start that was told is tried by hand, on the records alone: under the named
// facts none of them does, and without any one of them one does. Shares no code with finder, ledgers and explanation.
//   How many: kAnswers that name something

#include <gtest/gtest.h>

#include <cstdio>
#include <random>

#include "common/floor/ask.h"
#include "common/floor/why.h"
#include "tests/support/floor/random_commands.h"

namespace squeezeout::testing {
namespace {

constexpr int kAnswers = 1'000;

// What is kept of the floor: only the named facts.
struct Kept {
  std::vector<Span> closed, busy, fumes;
  std::vector<Claim> held, hot;
  std::vector<GearNeed> needs;  // that are counted
  std::optional<Instant> ready, sets;
  bool cold = false, skins = false;
};

class ByHand {
 public:
  ByHand(const Floor& floor, const SlotQuery& query) : floor_(floor), query_(query) {
    for (const GearNeed& need : query.demand.needs) {
      for (const GearKind& kind : floor.shop->gear) {
        if (!good_enough(kind, need)) continue;
        needed_.insert(kind.id);
        takes_hot_ = takes_hot_ || kind.hot;
      }
    }
  }

  Kept kept(const std::vector<Blocker>& blockers) const {
    Kept out;
    for (const Blocker& b : blockers) std::visit([&](const auto& fact) { keep(out, fact); }, b);
    if (enough(query_.demand.needs, [&](GearKindId k) { return stock(k); }))
      out.needs = query_.demand.needs;
    return out;
  }

  std::optional<Instant> first(const Kept& kept, Instant from, Instant end) const {
    for (Instant s = std::chrono::ceil<Minutes>(from); s < end; s += Minutes{1})
      if (fits(kept, s)) return s;
    return std::nullopt;
  }

 private:
  void keep(Kept& out, const HeldGear& fact) const {
    const Holder h = fact.held.holder;
    int count = 0;
    const auto take = [&](const Claim& c) {
      const bool heat = hot(c.kind) && solvent() && h.what == Holder::What::glue_up;
      if (!needed_.contains(c.kind) || heat) return;
      count += c.count;
      out.held.push_back(c);
    };
    if (h.what == Holder::What::outage) {
      const Outage& o = floor_.outages.at(OutageId{h.id});
      take({o.kind, o.count, o.span});
    } else {
      ASSERT_NE(GlueUpId{h.id}, query_.ignoring);
      for (const Claim& c : claims_of(floor_.glue_ups.at(GlueUpId{h.id}))) take(c);
    }
    EXPECT_EQ(count, fact.held.count);
    EXPECT_GT(count, 0);
  }
  void keep(Kept& out, const OwnsTooFew& fact) const { out.needs.push_back(fact.need); }
  void keep(Kept& out, const ClosedHours& fact) const {
    const Hours hours = floor_.hours_for(query_.builder);
    EXPECT_TRUE(hours.open_spans(fact.closed).empty());  // it is closed in truth
    out.closed.push_back(fact.closed);
  }
  void keep(Kept& out, const BuilderBusy& fact) const {
    const std::size_t before = out.busy.size();
    const GlueUp& with = floor_.glue_ups.at(fact.with);
    EXPECT_EQ(with.builder, query_.builder);
    for (const Span& s : attended_of(with))
      if (s.end == fact.until) out.busy.push_back(s);
    EXPECT_EQ(out.busy.size(), before + 1);
  }
  void keep(Kept& out, const NotReadyYet& fact) const {
    EXPECT_EQ(floor_.glue_ups.at(fact.waits_for).times.ready_at, fact.until);
    out.ready = fact.until;
  }
  void keep(Kept& out, const PotGels& fact) const {
    EXPECT_EQ(floor_.pots.at(fact.pot).until, fact.until);
    out.sets = fact.until;
  }
  void keep(Kept& out, const BenchBusy& fact) const {
    const std::size_t before = out.busy.size();
    const GlueUp& with = floor_.glue_ups.at(fact.with);
    EXPECT_TRUE(floor_.bench(fact.bench)->one_at_a_time);
    EXPECT_EQ(with.bench, fact.bench);
    EXPECT_NE(with.builder, query_.builder);
    for (const Span& s : attended_of(with))
      if (s.end == fact.until) out.busy.push_back(s);
    EXPECT_EQ(out.busy.size(), before + 1);
  }
  void keep(Kept& out, const TooCold&) const { out.cold = true; }
  void keep(Kept& out, const SkinsFirst&) const { out.skins = true; }
  void keep(Kept& out, const BesideHeat& fact) const {
    const GlueUp& with = floor_.glue_ups.at(fact.with);
    if (solvent())
      for (const Claim& c : claims_of(with))
        if (hot(c.kind)) out.hot.push_back(c);
    if (const auto it = floor_.fumes.find(fact.with); takes_hot_ && it != floor_.fumes.end())
      out.fumes.push_back(it->second);
  }

  bool solvent() const { return query_.demand.fumes > Seconds{0}; }
  bool hot(GearKindId k) const { return floor_.kind(k)->hot; }
  int stock(GearKindId k) const {
    const auto it = floor_.stock.find(k);
    return it == floor_.stock.end() ? 0 : it->second.count;
  }

  // Hall: any of the needs together find as many pieces among the kinds that would do for one of them.
  template <class Free>
  bool enough(const std::vector<GearNeed>& needs, Free free) const {
    for (unsigned set = 1; set < (1U << needs.size()); ++set) {
      int wanted = 0, there = 0;
      for (std::size_t n = 0; n < needs.size(); ++n)
        if (set & (1U << n)) wanted += needs[n].count;
      for (const GearKind& kind : floor_.shop->gear) {
        bool does = false;
        for (std::size_t n = 0; n < needs.size(); ++n)
          does = does || ((set & (1U << n)) && good_enough(kind, needs[n]));
        if (does) there += free(kind.id);
      }
      if (there < wanted) return false;
    }
    return true;
  }

  int free_over(const Kept& kept, GearKindId kind, Span held) const {
    int most = 0;
    for (const Claim& at : kept.held) {
      if (at.kind != kind || !at.span.overlaps(held)) continue;
      const Instant t = std::max(at.span.begin, held.begin);
      int taken = 0;
      for (const Claim& c : kept.held)
        if (c.kind == kind && c.span.contains(t)) taken += c.count;
      most = std::max(most, taken);
    }
    return std::max(0, stock(kind) - most);
  }

  static std::optional<Instant> end_of_overlapping(const Kept& kept, Span span) {
    for (const auto* spans : {&kept.closed, &kept.busy})
      for (const Span& s : *spans)
        if (s.overlaps(span)) return s.end;
    return std::nullopt;
  }

  bool fits(const Kept& kept, Instant s) const {
    const Demand& d = query_.demand;
    if (kept.ready && s < *kept.ready) return false;
    const Instant open = s + d.stage, clamped = open + d.assembly;
    if (kept.sets && clamped > *kept.sets) return false;
    if (end_of_overlapping(kept, {s, std::max(clamped, s + Seconds{1})})) return false;
    // Cheap first: what is not free while it is spread is not free while it is held.
    const auto free = [&](Span span) {
      return enough(kept.needs, [&](GearKindId k) { return free_over(kept, k, span); });
    };
    if (!free({s, clamped})) return false;
    const Hour& hour = hour_of(s);
    if (hour.cold && kept.cold) return false;
    if (hour.skins && kept.skins) return false;
    Instant release = clamped + hour.dwell;
    while (const auto end =
               end_of_overlapping(kept, {release, release + std::max(d.release, Seconds{1})}))
      release = *end;
    const Span held{s, release + d.release};
    for (const Span& f : kept.fumes)
      if (f.overlaps(held)) return false;
    for (const Claim& c : kept.hot)
      if (c.span.overlaps({open, open + d.fumes})) return false;
    return free(held);
  }

  struct Hour {
    bool cold = false, skins = false;
    Seconds dwell{};
  };
  const Hour& hour_of(Instant s) const {
    const auto [it, fresh] = hours_.try_emplace(s);
    if (!fresh) return it->second;
    const Demand& d = query_.demand;
    const Instant open = s + d.stage, clamped = open + d.assembly;
    it->second.dwell = d.dwell;
    if (!query_.curing) return it->second;
    auto lengths = query_.curing->at(open, clamped);
    it->second.cold = !lengths;
    if (!lengths) lengths = query_.curing->running(open, clamped);
    it->second.skins = lengths->open_limit < d.assembly;
    it->second.dwell = lengths->dwell;
    return it->second;
  }

  const Floor& floor_;
  const SlotQuery& query_;
  std::set<GearKindId> needed_;
  bool takes_hot_ = false;
  mutable std::map<Instant, Hour> hours_;
};

struct Ran {
  int asked = 0, answers = 0, facts = 0, never = 0;
  int other_glue = 0, asked_holder = 0, links = 0;
  std::array<int, std::variant_size_v<Blocker>> of_kind{};
  std::size_t most = 0;
};

void check(const Floor& floor, const SlotQuery& query, const Why& why, Ran& ran) {
  ++ran.asked;
  if (why.blockers.empty()) {
    EXPECT_TRUE(why.start);
    EXPECT_EQ(*why.start, std::chrono::ceil<Minutes>(why.wanted));
    return;
  }
  ++ran.answers;
  ran.never += !why.start;
  ran.most = std::max(ran.most, why.blockers.size());
  const Instant last =
      query.waits_for ? std::max(query.after, query.waits_for->until) : query.after;
  const Instant end = why.start.value_or(last + kHorizon);
  const ByHand hand{floor, query};
  const auto early = hand.first(hand.kept(why.blockers), why.wanted, end);
  EXPECT_FALSE(early) << "not enough: " << (*early - why.wanted).count()
                      << " s after it was wanted";
  for (std::size_t i = 0; i < why.blockers.size(); ++i) {
    ++ran.facts;
    ++ran.of_kind.at(why.blockers[i].index());
    std::vector<Blocker> others = why.blockers;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    EXPECT_TRUE(hand.first(hand.kept(others), why.wanted, end))
        << "not least: fact " << i << " of kind " << why.blockers[i].index();
  }
}

std::optional<Refusal> press(Floor& floor, Instant now, Body body) {
  Step s = step(floor, {{}, {}, now, std::move(body)});
  return s.answer ? std::nullopt : std::optional{s.answer.error()};
}

// What is offered is there: on a copy of the floor it is pressed.
void check_offers(const Floor& floor, Instant now, const Reserve& wish, Ran& ran) {
  const auto plain = earliest(floor, wish, now);
  Instant before = Instant::min();
  for (const Alternative& a : alternatives(floor, wish, now)) {
    EXPECT_GE(a.start, before);  // earliest first
    before = a.start;
    Floor copy = floor;
    Reserve exactly = wish;
    exactly.start = a.start;
    if (const auto* glue = std::get_if<OtherGlue>(&a.by)) {
      exactly.sheet = glue->sheet;
      ++ran.other_glue;
      if (plain) {
        EXPECT_LE(a.start, plain->slot.times.stage_begin);
      }
    }
    if (const auto* ask = std::get_if<AskHolder>(&a.by)) {
      ++ran.asked_holder;
      const std::size_t displaced = copy.displaced.size();
      EXPECT_EQ(copy.glue_ups.at(ask->glue_up).progress, Progress::reserved);
      EXPECT_FALSE(press(copy, now, Move{ask->glue_up, ask->to}));
      EXPECT_EQ(copy.displaced.size(), displaced);  // nobody gives way
      if (plain) {
        EXPECT_LT(a.start, plain->slot.times.stage_begin);
      }
    }
    EXPECT_FALSE(press(copy, now, exactly));
    EXPECT_EQ(copy.glue_ups.at(GlueUpId{copy.last_glue_up}).times.ready_at, a.ready);
  }
}

void check_chain(const Floor& floor, Instant now, GlueUpId last, Ran& ran) {
  const auto chain = critical_chain(floor, last, now);
  ASSERT_EQ(chain.empty(), floor.glue_up(last) == nullptr);
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    const GlueUp& g = *floor.glue_up(chain[i].glue_up);
    EXPECT_EQ(g.progress, Progress::reserved);  // what has started waits for nobody
    EXPECT_LT(floor.glue_up(chain[i + 1].glue_up)->times.stage_begin, g.times.stage_begin);
    EXPECT_TRUE(std::any_of(chain[i].because.begin(), chain[i].because.end(),
                            [&](const auto& b) { return glue_up_of(b) == chain[i + 1].glue_up; }));
    ++ran.links;
  }
}

// A shop in which each kind of fact can hold somebody back.
Shop scarce_shop(std::mt19937& dice) {
  const auto number = [&](int below) {
    return static_cast<int>(dice() % static_cast<unsigned>(below));
  };
  Shop s = small_shop();
  for (unsigned d = 1; d <= 5; ++d) s.hours.weekday[d] = {{8 * 60, 12 * 60}, {13 * 60, 17 * 60}};
  if (number(2) == 0) s.builders[1].hours = WeekHours{s.hours.weekday, {}};
  if (s.builders[1].hours) s.builders[1].hours->weekday[2] = {{10 * 60, 15 * 60}};
  s.benches[0].one_at_a_time = number(2) == 0;
  s.gear[0].stock = 4 + number(3);
  s.gear[1].stock = 3 + number(6);
  s.gear[3].hot = number(2) == 0;
  s.recipes[3].heat = s.gear[3].hot ? std::optional<Heat>{Heat{}} : std::nullopt;
  if (number(3) == 0) s.recipes[2].needs[0].count = 14;
  if (number(3) == 0) s.sheets[0].open = Minutes{4};
  s.daily = {{0, {12}, {50}},
             {7 * 60, {static_cast<double>(7 + number(12))}, {50}},
             {11 * 60, {20}, {static_cast<double>(10 + number(60))}}};
  return s;
}

void ask(const Floor& floor, Instant now, std::mt19937& dice, Ran& ran) {
  const auto number = [&](int below) {
    return static_cast<std::uint32_t>(dice() % static_cast<unsigned>(below));
  };
  Reserve wish{.recipe = RecipeId{1 + number(4)}, .builder = BuilderId{1 + number(3)}};
  wish.after = now + Minutes{number(3) == 0 ? number(2000) : 0};
  if (number(4) == 0) wish.hours = Override::knowingly;
  if (wish.recipe == kLining && number(2) == 0) wish.sheet = kCement;
  if (number(3) == 0) {
    if (const auto step = next_step(floor, kBuild14))
      wish.build = step->build, wish.step = step->step, wish.recipe = step->recipe;
  }
  if (number(3) == 0) wish.bench = kBench1;
  const SheetId sheet = wish.sheet ? wish.sheet
                        : floor.recipe(wish.recipe)->glues.empty()
                            ? SheetId{}
                            : floor.recipe(wish.recipe)->glues.front();
  for (const auto& [id, pot] : floor.pots)
    if (pot.sheet == sheet && number(2) == 0) wish.pot = id;
  const auto query = query_of(floor, wish, now);
  const auto why = why_not_earlier(floor, wish, now);
  ASSERT_EQ(query.has_value(), why.has_value());
  if (why) check(floor, *query, *why, ran);
  if (why) check_offers(floor, now, wish, ran);
  const GlueUpId id{1 + number(static_cast<int>(floor.last_glue_up) + 1)};
  const GlueUp* g = floor.glue_up(id);
  check_chain(floor, now, id, ran);
  const auto its = why_not_earlier(floor, id, now);
  if (!its) return;
  auto again = query_again(floor, *g, its->wanted, now);
  ASSERT_TRUE(again);
  if (g->outside_hours) again->attended = SlotQuery::Hours::ignore;
  check(floor, *again, *its, ran);
}

TEST(RandomWhy, NamedFactsAreEnoughAndLeast) {
  Ran ran;
  for (unsigned seed = 1; ran.answers < kAnswers && !HasFailure(); ++seed) {
    std::mt19937 dice{seed};
    std::vector<std::uint16_t> tape(280);
    for (auto& t : tape) t = static_cast<std::uint16_t>(dice());
    RandomCommands commands{tape};
    Bench bench{at("2026-11-26T09:00:00Z"), scarce_shop(dice)};
    for (int i = 0; i < 40 && !HasFailure(); ++i) {
      SCOPED_TRACE("seed " + std::to_string(seed) + ", command " + std::to_string(i));
      bench.wait(std::min<Seconds>(commands.pause(), std::chrono::hours{72}));
      const Body body = commands.next(bench.floor(), bench.now());
      if (std::holds_alternative<LoadShop>(body)) continue;
      (void)bench.press(body);
      if (i % 8 == 7) ask(bench.floor(), bench.now(), dice, ran);
    }
  }
  std::printf(
      "%d asked, %d of them held back (%d for good) by %d facts, at most %zu at once; of each "
      "kind:",
      ran.asked, ran.answers, ran.never, ran.facts, ran.most);
  for (const int n : ran.of_kind) std::printf(" %d", n);
  std::printf("\n%d times another glue, %d times a holder to be asked, %d links of chains\n",
              ran.other_glue, ran.asked_holder, ran.links);
  EXPECT_GT(ran.other_glue, 0);
  EXPECT_GT(ran.asked_holder, 0);
  EXPECT_GT(ran.links, 0);
  for (const int n : ran.of_kind) EXPECT_GT(n, 0);
}

}  // namespace
}  // namespace squeezeout::testing
