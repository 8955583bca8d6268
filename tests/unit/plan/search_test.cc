// The search against a slow one of its own: minute by minute, gear by counting claims and Hall's condition, hours and people by
// looking at every span. Small random shops with substitution, two builders at one bench, a pot that sets, a full book, lengths of
// nothing and of half a minute, weather that turns, solvent and hot forms.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "common/plan/slot.h"
#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using namespace std::chrono_literals;

const Instant kDay = *parse_rfc3339("2026-11-26T00:00:00Z");
constexpr BuilderId kAda{1}, kBen{2};
constexpr BenchId kBench{1}, kOther{2};
constexpr GlueUpId kMoved{900};

struct Work {
  BuilderId builder;
  GlueUpId glue_up;
  Span span;
};

constexpr Seconds kTick{30};              // all lengths are so many whole ones
constexpr int kTicks = 12 * 24 * 60 * 2;  // that are looked at
std::size_t at(int i) { return static_cast<std::size_t>(i); }
int tick(Instant t) { return static_cast<int>((t - kDay) / kTick); }

// The greatest of a stretch of a line, by the greatest of stretches of 1, 2, 4, 8... ticks.
class Lines {
 public:
  explicit Lines(std::vector<int> line) : by_length_{std::move(line)} {
    for (int n = 1; 2 * n <= kTicks; n *= 2) {
      const auto& half = by_length_.back();
      std::vector<int> whole = half;
      for (int m = 0; m + n < kTicks; ++m) whole[at(m)] = std::max(half[at(m)], half[at(m + n)]);
      by_length_.push_back(std::move(whole));
    }
  }
  int most(int begin, int end) const {
    if (begin == end) return 0;
    std::size_t i = 0;
    while ((2 << i) <= end - begin) ++i;
    return std::max(by_length_[i][at(begin)], by_length_[i][at(end - (1 << i))]);
  }

 private:
  std::vector<std::vector<int>> by_length_;
};

struct Shop {
  std::vector<GearKind> kinds;
  GearLedger gear;
  BuilderLedger builders;
  std::vector<Span> open;
  Hours hours{*Zone::find("Etc/UTC"), {}};
  std::map<GlueUpId, Span> fumes;
  std::vector<std::pair<Holder, Claim>> claims;
  std::vector<Work> work;
  std::map<GlueUpId, BenchId> benches;
  std::unique_ptr<AdhesiveSheet> sheet{};  // of the cure, where the hour counts
  std::unique_ptr<Recipe> recipe{};
  SlotQuery q;

  SlotView view() const {
    return {gear, builders, kinds, hours, fumes, [this](GlueUpId g) {
              const auto it = benches.find(g);
              return it == benches.end() ? BenchId{} : it->second;
            }};
  }

  // The lines of a day below: a figure a minute, worked out once all is set.
  std::vector<Lines> taken{};  // of each kind, by all but the one that is moved
  std::vector<int> away{};     // ticks before this one in which the builder cannot be at it
  std::vector<int> off_at{};   // the first tick from this one on at which he can take clamps off

  // Whoever is at it is there for a moment at least.
  static int ticks_of(Seconds attended) { return std::max(1, tick(kDay + attended)); }

  void work_out() {
    std::vector<int> out(kTicks + 1, 0);
    const auto is_open = [&](Instant t) {
      return q.attended == SlotQuery::Hours::ignore ||
             std::any_of(open.begin(), open.end(), [&](const Span& o) { return o.contains(t); });
    };
    const auto can = [&](Instant t) {
      return is_open(t) && std::none_of(work.begin(), work.end(), [&](const Work& w) {
               return w.glue_up != q.ignoring && w.span.contains(t) &&
                      (w.builder == q.builder || (q.bench && benches.at(w.glue_up) == q.bench));
             });
    };
    for (int m = 0; m < kTicks; ++m) out[at(m + 1)] = out[at(m)] + (can(kDay + m * kTick) ? 0 : 1);
    away = out;
    off_at.assign(kTicks + 1, kTicks);
    const int release = ticks_of(q.demand.release);
    for (int m = kTicks - release; m >= 0; --m)
      off_at[at(m)] = away[at(m + release)] == away[at(m)] ? m : off_at[at(m + 1)];
    for (const GearKind& k : kinds) {
      std::vector<int> line(kTicks, 0);
      for (const auto& [holder, c] : claims) {
        if (c.kind != k.id || holder == Holder::of(q.ignoring)) continue;
        for (int m = tick(c.span.begin); m < std::min(tick(c.span.end), kTicks); ++m)
          line[at(m)] += c.count;
      }
      taken.emplace_back(std::move(line));
    }
  }

  // Open solvent and a hot form would be together.
  bool burns(Span held, Instant spread) const {
    const Span wet{spread, spread + q.demand.fumes};
    const auto is_hot = [&](GearKindId id) { return kinds[id.value - 1].hot; };
    for (const auto& [holder, c] : claims) {
      if (is_hot(c.kind) && holder != Holder::of(q.ignoring) && c.span.overlaps(wet)) return true;
    }
    bool hot = false;
    for (const GearNeed& n : q.demand.needs) {
      for (const GearKind& k : kinds) hot = hot || (k.hot && good_enough(k, n));
    }
    return hot && std::any_of(fumes.begin(), fumes.end(), [&](const auto& f) {
             return f.first != q.ignoring && f.second.overlaps(held);
           });
  }

  // The first `count` needs can be met together: no set of them wants more than what its kinds have free (Hall).
  bool enough(std::size_t count, Span span) const {
    std::vector<int> free_of;
    for (std::size_t k = 0; k < kinds.size(); ++k)
      free_of.push_back(kinds[k].stock - taken[k].most(tick(span.begin), tick(span.end)));
    for (unsigned set = 1; set < (1U << count); ++set) {
      int wanted = 0, have = 0;
      for (std::size_t n = 0; n < count; ++n) {
        if (set >> n & 1U) wanted += q.demand.needs[n].count;
      }
      for (std::size_t k = 0; k < kinds.size(); ++k) {
        bool good = false;
        for (std::size_t n = 0; n < count; ++n)
          good = good || ((set >> n & 1U) && good_enough(kinds[k], q.demand.needs[n]));
        if (good) have += free_of[k];
      }
      if (wanted > have) return false;
    }
    return true;
  }

  // When a start would end; nullopt: no such start, whatever the gear.
  std::optional<Span> held_from(Instant s) const {
    const Demand& d = q.demand;
    const Instant spread = s + d.stage, clamped = spread + d.assembly;
    if (away[at(tick(s) + ticks_of(clamped - s))] != away[at(tick(s))]) return std::nullopt;
    if (q.pot && clamped > q.pot->until) return std::nullopt;
    if (q.waits_for && s < q.waits_for->until) return std::nullopt;
    Seconds dwell = d.dwell;
    if (q.curing) {
      const auto lengths = q.curing->at(spread, clamped);
      if (!lengths) return std::nullopt;
      if (lengths->open_limit < d.assembly && q.open_time == SlotQuery::Open::keep)
        return std::nullopt;
      dwell = lengths->dwell;
    }
    const int off = off_at[at(tick(clamped + dwell))];
    if (off == kTicks) return std::nullopt;
    const Span held{s, kDay + off * kTick + d.release};
    return burns(held, spread) ? std::nullopt : std::optional{held};
  }
};

Minutes minutes(int least, int most) { return Minutes{*rc::gen::inRange(least, most + 1)}; }
// Nothing, half a minute, or more; whole minutes for the most part.
Seconds length(int most) {
  return *rc::gen::inRange(0, 3) == 0 ? *rc::gen::inRange(0, 4) * kTick : Seconds{minutes(1, most)};
}

// Slower in the cold, and in half of them slower in the heat again; the cold of some nights is below the floor.
AdhesiveSheet random_sheet() {
  AdhesiveSheet sheet;
  sheet.id = SheetId{1};
  sheet.chemistry = Chemistry::aliphatic;
  sheet.open = minutes(3, 20);
  sheet.dwell = {{{10}, minutes(60, 400)}, {{20}, minutes(20, 60)}, {{26}, minutes(20, 120)}};
  sheet.floor = {10};
  return sheet;
}
std::vector<AirPoint> random_weather() {
  std::vector<AirPoint> out;
  for (Instant t = kDay; t < kDay + 72h; t += minutes(60, 900)) {
    out.push_back(
        {t, {static_cast<double>(*rc::gen::inRange(7, 30))}, {10.0 * *rc::gen::inRange(3, 9)}});
  }
  return out;
}

Shop random_shop() {
  Shop shop;
  WeekHours week;
  const int noon = *rc::gen::inRange(11, 14), evening = *rc::gen::inRange(15, 25);
  for (auto& day : week.weekday) day = {{8 * 60, noon * 60}, {noon * 60 + 45, evening * 60}};
  shop.hours = Hours{*Zone::find("Etc/UTC"), week};
  for (int d = 0; d < 12; ++d) {
    const Instant day = kDay + 24h * d;
    shop.open.push_back({day + 8h, day + 1h * noon});
    shop.open.push_back({day + 1h * noon + 45min, day + 1h * evening});
  }
  const int kinds = *rc::gen::inRange(2, 5);
  for (int k = 1; k <= kinds; ++k) {
    GearKind kind{.id = GearKindId{static_cast<std::uint32_t>(k)}, .key = std::to_string(k)};
    kind.stock = *rc::gen::inRange(1, 6);
    kind.throat = {10.0 * *rc::gen::inRange(0, 3)};
    kind.opening = {10.0 * *rc::gen::inRange(0, 3)};
    kind.hot = *rc::gen::inRange(0, 8) == 0;
    shop.gear.set_stock(kind.id, kind.stock);
    shop.kinds.push_back(kind);
  }
  shop.q.ignoring = *rc::gen::arbitrary<bool>() ? kMoved : GlueUpId{};
  // A book that is nearly full for up to three days, each kind from left to right.
  const int until = *rc::gen::inRange(1, 72);
  const int gap = *rc::gen::element(20, 60, 300);
  std::uint32_t holder = 0;
  for (const GearKind& k : shop.kinds) {
    for (int piece = 0; piece < k.stock; ++piece) {
      for (Instant t = kDay + minutes(0, 600); t < kDay + 1h * until;) {
        const Span span{t, t + minutes(5, 400)};
        const bool own = shop.q.ignoring && *rc::gen::inRange(0, 12) == 0 &&
                         shop.gear.own(k.id, Holder::of(kMoved)).count == 0;
        const GlueUpId id = own ? kMoved : GlueUpId{++holder};
        shop.claims.emplace_back(Holder::of(id), Claim{k.id, 1, span});
        std::vector<Claim> all = shop.gear.claims_of(Holder::of(id));
        all.push_back({k.id, 1, span});
        shop.gear.put(Holder::of(id), all);
        t = span.end + minutes(0, gap);
      }
    }
  }
  const int work = *rc::gen::inRange(0, 8);
  for (int i = 0; i < work; ++i) {
    const Instant begin = kDay + minutes(0, 48 * 60);
    const GlueUpId id{static_cast<std::uint32_t>(1000 + i)};
    const Work w{*rc::gen::element(kAda, kBen), id, {begin, begin + minutes(1, 120)}};
    shop.builders.put(w.builder, w.glue_up, {w.span});
    shop.work.push_back(w);
    shop.benches[id] = *rc::gen::element(kBench, kOther);
  }
  SlotQuery& q = shop.q;
  q.demand = {
      .stage = length(10), .assembly = length(15), .dwell = length(500), .release = length(10)};
  const int needs = *rc::gen::inRange(1, 4);
  for (int n = 0; n < needs; ++n) {
    GearNeed need{.count = *rc::gen::inRange(1, 5)};
    need.throat = {10.0 * *rc::gen::inRange(0, 3)};
    need.opening = {10.0 * *rc::gen::inRange(0, 2)};
    q.demand.needs.push_back(need);
  }
  q.builder = kAda;
  q.after = kDay + minutes(0, 24 * 60);
  if (*rc::gen::arbitrary<bool>()) q.bench = kBench;
  if (*rc::gen::inRange(0, 4) == 0) q.waits_for = NotReadyYet{{7}, kDay + minutes(0, 2000)};
  if (*rc::gen::inRange(0, 6) == 0) q.pot = PotGels{{3}, {4}, q.after + minutes(0, 900)};
  if (*rc::gen::inRange(0, 6) == 0) q.attended = SlotQuery::Hours::ignore;
  if (*rc::gen::inRange(0, 6) == 0) q.demand.fumes = minutes(10, 90);
  const std::uint32_t fumes = *rc::gen::inRange(0U, 3U);
  for (std::uint32_t id = 2000; id < 2000 + fumes; ++id) {
    const Instant begin = kDay + minutes(0, 48 * 60);
    shop.fumes[GlueUpId{id}] = {begin, begin + minutes(10, 90)};
  }
  if (*rc::gen::inRange(0, 3) == 0) {
    shop.sheet = std::make_unique<AdhesiveSheet>(random_sheet());
    shop.recipe = std::make_unique<Recipe>();
    q.curing = std::make_shared<const Curing>(*shop.recipe, *shop.sheet,
                                              std::make_shared<Climate>(Weather{random_weather()}));
    if (*rc::gen::inRange(0, 4) == 0) q.open_time = SlotQuery::Open::ignore;
  }
  shop.work_out();
  return shop;
}

RC_GTEST_PROP(Search, FindsWhatTryingEveryMinuteFinds, ()) {
  const Shop shop = random_shop();
  const SlotQuery& q = shop.q;
  const auto found = earliest_slot(shop.view(), q);
  const Instant end = kDay + 24h * 5;
  std::optional<Span> first;
  for (Instant s = q.after; s < end && !first; s += 1min) {
    const auto held = shop.held_from(s);
    if (held && shop.enough(q.demand.needs.size(), *held)) first = held;
  }
  const bool near = found && found->times.stage_begin < end;
  RC_ASSERT(near == first.has_value());
  const std::vector<Hindrance>& why = found ? found->why_not_earlier : found.error().why;
  RC_CLASSIFY(found && why.size() == kMaxWhy);
  if (first) RC_ASSERT(found->times.held() == *first);

  // The reasons cover every start without a gap, and each is true of each start that it rules out.
  Instant covered = q.after;
  for (const Hindrance& h : why) {
    RC_ASSERT(h.starts.begin == covered);
    covered = h.starts.end;
    const auto* gear = std::get_if<GearShort>(&h.fact);
    if (!gear) continue;
    std::size_t needs = q.demand.needs.size();  // up to the short one; the last of equal ones
    while (!(q.demand.needs[needs - 1] == gear->need)) --needs;
    for (Instant s = h.starts.begin; s < std::min(h.starts.end, end); s += 1min) {
      if (const auto held = shop.held_from(s)) RC_ASSERT(!shop.enough(needs, *held));
    }
  }
  if (found && why.size() < kMaxWhy) RC_ASSERT(covered == found->times.stage_begin);
}

// Half a minute in all, and the one clamp is away: shorter than the least step of the search.
TEST(Search, AGlueUpOfLessThanAMinuteWaitsForItsClamp) {
  Shop shop;
  WeekHours week;
  for (auto& day : week.weekday) day = {{0, 24 * 60}};
  shop.hours = Hours{*Zone::find("Etc/UTC"), week};
  shop.kinds = {{.id = GearKindId{1}, .key = "clamp", .stock = 1}};
  shop.gear.set_stock(GearKindId{1}, 1);
  shop.gear.put(Holder::of(GlueUpId{5}), {{GearKindId{1}, 1, {kDay, kDay + 45min}}});
  shop.q.demand.needs = {{.count = 1}};
  shop.q.builder = kAda;
  shop.q.after = kDay + 10min;
  for (const Seconds assembly : {1s, 30s, 59s, 60s}) {
    shop.q.demand.assembly = assembly;
    EXPECT_EQ(earliest_slot(shop.view(), shop.q)->times.stage_begin, kDay + 45min);
  }
}

TEST(Search, TwoBuildersNeverAtABenchForOne) {
  Shop shop;
  WeekHours week;
  for (auto& day : week.weekday) day = {{0, 24 * 60}};
  shop.hours = Hours{*Zone::find("Etc/UTC"), week};
  shop.builders.put(kBen, {5}, {{kDay, kDay + 30min}, {kDay + 70min, kDay + 80min}});
  shop.benches[{5}] = kBench;
  shop.q.demand = {.stage = 5min, .assembly = 5min, .dwell = 30min, .release = 5min};
  shop.q.builder = kAda;
  shop.q.after = kDay;
  EXPECT_EQ(earliest_slot(shop.view(), shop.q)->times.stage_begin, kDay);  // no rule at this bench
  shop.q.bench = kBench;
  const auto slot = earliest_slot(shop.view(), shop.q);
  EXPECT_EQ(slot->times.stage_begin, kDay + 30min);
  EXPECT_EQ(slot->times.release_begin, kDay + 80min);  // 70 min on: Ben takes his clamps off
  EXPECT_EQ(std::get<BenchBusy>(slot->why_not_earlier.front().fact),
            (BenchBusy{kBench, {5}, kDay + 30min}));
  shop.q.builder = kBen;  // himself: busy, but not in his own way at the bench
  EXPECT_TRUE(std::holds_alternative<BuilderBusy>(
      earliest_slot(shop.view(), shop.q)->why_not_earlier.front().fact));
}

TEST(Search, ClampsAreOnBeforeThePotSets) {
  Shop shop;
  WeekHours week;
  for (auto& day : week.weekday) day = {{0, 24 * 60}};
  shop.hours = Hours{*Zone::find("Etc/UTC"), week};
  shop.q.demand = {.stage = 5min, .assembly = 5min, .dwell = 30min, .release = 5min};
  shop.q.builder = kAda;
  shop.q.after = kDay;
  shop.q.pot = PotGels{{2}, {3}, kDay + 10min};
  EXPECT_TRUE(earliest_slot(shop.view(), shop.q));  // just so
  shop.q.after = kDay + 1min;
  const auto none = earliest_slot(shop.view(), shop.q);
  ASSERT_FALSE(none);
  ASSERT_EQ(none.error().why.size(), 1U);
  EXPECT_EQ(std::get<PotGels>(none.error().why.front().fact), *shop.q.pot);
}

}  // namespace
}  // namespace squeezeout
