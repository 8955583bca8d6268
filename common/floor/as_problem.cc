#include "common/floor/as_problem.h"

#include <algorithm>
#include <atomic>
#include <map>
#include <numeric>

#include "common/floor/ask.h"

namespace squeezeout {
namespace {

using schedule::Tick;

constexpr Seconds kBeyond = std::chrono::hours{24 * 15};  // a dwell may end after the last start
constexpr std::size_t kMostModes = 4;
constexpr int kAir = 1'000;  // a hot form takes all of it, open solvent a breath
constexpr Seconds kQuarter = Minutes{15};

Tick up(Seconds s) { return static_cast<Tick>(std::chrono::ceil<Minutes>(s).count()); }
bool in_minutes(Seconds s) { return s % Minutes{1} == Seconds{0}; }

// Dwell and wait over the minutes at which the clamps go on, each worked out at its first asking.
class CureTable {
 public:
  CureTable(const Curing& curing, Instant base, Seconds assembly)
      : curing_(curing.without_floor()),
        base_(base),
        assembly_(assembly),
        steady_(up(std::clamp(curing.steady_from(), base, base + kHorizon) - base + assembly) + 1),
        dwell_(static_cast<std::size_t>(steady_) + 1),
        wait_(static_cast<std::size_t>(steady_) + 1) {}

  Tick dwell(Tick clamped) const { return at(dwell_, clamped); }
  Tick wait(Tick clamped) const { return at(wait_, clamped); }

 private:
  using Row = std::vector<std::atomic<Tick>>;  // 0: not worked out yet; else one more than it is

  Tick at(const Row& row, Tick clamped) const {
    const auto i = static_cast<std::size_t>(std::clamp(clamped, 0, steady_));
    if (const Tick known = row[i].load(std::memory_order_relaxed)) return known - 1;
    const Instant on = base_ + Minutes{static_cast<Tick>(i)};
    const auto lengths = curing_.at(on - assembly_, on);
    CHECK(lengths);  // there is no floor
    dwell_[i].store(up(lengths->dwell) + 1, std::memory_order_relaxed);
    wait_[i].store(up(lengths->wait) + 1, std::memory_order_relaxed);
    return row[i].load(std::memory_order_relaxed) - 1;
  }

  const Curing curing_;
  const Instant base_;
  const Seconds assembly_;
  const Tick steady_;
  mutable Row dwell_, wait_;
};

// What is left of the dwell when solvent has hung for `gone` of it.
class Dwell : public schedule::Length {
 public:
  Dwell(std::shared_ptr<const CureTable> table, Tick gone)
      : table_(std::move(table)), gone_(gone) {}
  Tick at(Tick begin) const override { return std::max(0, table_->dwell(begin - gone_) - gone_); }

 private:
  std::shared_ptr<const CureTable> table_;
  Tick gone_;
};
class Waiting : public schedule::Length {
 public:
  explicit Waiting(std::shared_ptr<const CureTable> table) : table_(std::move(table)) {}
  Tick at(Tick begin) const override { return table_->wait(begin); }

 private:
  std::shared_ptr<const CureTable> table_;
};

class Translation {
 public:
  Translation(const Floor& floor, Instant now, Glues glues)
      : f_(floor), now_(now), glues_(glues), climate_(climate_of(floor, now)) {
    out_.base = std::chrono::ceil<Minutes>(now);
    horizon_ = up(kHorizon + kBeyond);
    out_.problem.horizon = horizon_;
    for (const GearKind& k : f_.shop->gear) out_.problem.capacity.push_back(f_.gear.stock(k.id));
    builders_ = static_cast<int>(out_.problem.capacity.size());
    for (std::size_t i = 0; i < f_.shop->builders.size(); ++i) out_.problem.capacity.push_back(1);
    air_ = static_cast<int>(out_.problem.capacity.size());
    out_.problem.capacity.push_back(kAir);
    for (const Bench& b : f_.shop->benches) {
      if (!bench_rule(f_, b.id)) continue;
      benches_[b.id] = static_cast<int>(out_.problem.capacity.size());
      out_.problem.capacity.push_back(1);
    }
    calendars_.assign(f_.shop->builders.size(), -1);
  }

  AsProblem run(const std::vector<GlueUpId>& movable) {
    for (const GlueUpId id : movable) {
      const GlueUp& g = f_.glue_ups.at(id);
      if (auto task = task_of(g)) {
        index_[id] = static_cast<int>(out_.problem.tasks.size());
        out_.problem.tasks.push_back(std::move(*task));
      } else {
        out_.left_out.push_back(id);
        out_.exact = false;
      }
    }
    for (const auto& [id, i] : index_) chain_of(f_.glue_ups.at(id), i);
    take_the_rest();
    return std::move(out_);
  }

 private:
  Tick down(Instant t) const { return out_.tick(t); }
  Tick up_to(Instant t) const { return down(std::min(t, kNever - Seconds{59}) + Seconds{59}); }

  int builder_index(BuilderId id) const {
    const auto& all = f_.shop->builders;
    const auto it =
        std::find_if(all.begin(), all.end(), [&](const Builder& b) { return b.id == id; });
    return it == all.end() ? -1 : static_cast<int>(it - all.begin());
  }

  int calendar_of(int builder) {
    int& calendar = calendars_[static_cast<std::size_t>(builder)];
    if (calendar >= 0) return calendar;
    calendar = static_cast<int>(out_.problem.calendars.size());
    schedule::Calendar c;
    const Hours hours = f_.hours_for(f_.shop->builders[static_cast<std::size_t>(builder)].id);
    for (const Span& s : hours.open_spans({out_.base, out_.base + Minutes{horizon_}})) {
      const schedule::Window w{up_to(s.begin), down(s.end)};
      if (!c.open.empty() && c.open.back().end >= w.begin)
        c.open.back().end = w.end;  // open across midnight
      else if (w.begin < w.end)
        c.open.push_back(w);
    }
    out_.problem.calendars.push_back(std::move(c));
    return calendar;
  }

  std::shared_ptr<const CureTable> table_of(const SlotQuery& q, RecipeId recipe) {
    auto& table = tables_[{recipe, q.curing->sheet().id, q.demand.assembly}];
    if (!table) table = std::make_shared<const CureTable>(*q.curing, out_.base, q.demand.assembly);
    return table;
  }

  // The starts at which it is warm enough and the glue stays open long enough, looked at each quarter.
  std::vector<schedule::Window> starts_of(const SlotQuery& q, RecipeId recipe) {
    const auto key = std::tuple{recipe, q.curing->sheet().id, q.demand.assembly, q.open_time};
    if (const auto known = starts_.find(key); known != starts_.end()) return known->second;
    const Tick steady = std::max(0, down(q.curing->steady_from()) + 1);
    const auto good = [&](Tick t) {
      const Instant open = out_.base + Minutes{t} + q.demand.stage;
      const auto l = q.curing->at(open, open + q.demand.assembly);
      return l && (q.open_time == SlotQuery::Open::ignore || l->open_limit >= q.demand.assembly);
    };
    std::vector<schedule::Window> out;
    const auto add = [&](Tick begin, Tick end) {
      if (!out.empty() && out.back().end == begin)
        out.back().end = end;
      else
        out.push_back({begin, end});
    };
    bool before = good(0);
    for (Tick t = 0; t < steady; t += up(kQuarter)) {
      const bool after = good(t + up(kQuarter));
      if (before && after) add(t, t + up(kQuarter));
      before = after;
    }
    const Tick last = (steady + up(kQuarter) - 1) / up(kQuarter) * up(kQuarter);
    if (before) add(last, horizon_);
    if (out.size() == 1 && out.front().begin == 0 && out.front().end == horizon_)
      out.clear();
    else if (out.empty())
      out.push_back({horizon_, horizon_ + 1});  // at no time
    starts_[key] = out;
    return out;
  }

  // Of these starts (none: all), those up to the last that a pot allows.
  std::vector<schedule::Window> until(std::vector<schedule::Window> starts, Tick last) const {
    if (starts.empty()) starts.push_back({0, horizon_});
    for (schedule::Window& w : starts) w.end = std::min(w.end, last + 1);
    std::erase_if(starts, [](const schedule::Window& w) { return w.begin >= w.end; });
    if (starts.empty()) starts.push_back({horizon_, horizon_ + 1});  // at no time
    return starts;
  }

  schedule::Mode mode_of(const GlueUp& g, const SlotQuery& q, Tick more) {
    const Demand& d = q.demand;
    const int builder = builder_index(g.builder);
    const int calendar = g.outside_hours || builder < 0 ? -1 : calendar_of(builder);
    std::vector<schedule::Use> hands;
    if (builder >= 0) hands.push_back({builders_ + builder, 1});
    if (q.bench) hands.push_back({benches_.at(q.bench), 1});
    schedule::Mode mode;
    schedule::Part attended{.length = up(d.stage + d.assembly) + more, .calendar = calendar};
    attended.uses = hands;
    const bool fumes = d.fumes > Seconds{0};
    const bool steady = !q.curing || q.curing->steady_from() <= out_.base;
    const bool whole = in_minutes(d.stage + d.assembly) && in_minutes(d.dwell) &&
                       in_minutes(d.release) && in_minutes(d.wait) && d.release > Seconds{0};
    out_.exact = out_.exact && whole && steady && !fumes && more == 0;
    if (fumes) attended.uses.push_back({air_, 1});
    mode.parts.push_back(std::move(attended));
    Tick gone = 0;
    if (fumes) {
      gone = up(std::max(d.fumes - d.assembly, kFlashOff));
      schedule::Part hanging{.length = gone};
      hanging.uses = {{air_, 1}};
      mode.parts.push_back(std::move(hanging));
    }
    schedule::Part dwell{.length = std::max(0, up(d.dwell) - gone)};
    schedule::Wait wait{.from_part = 1, .length = up(d.wait)};
    if (q.curing) {
      const auto table = table_of(q, g.recipe);
      dwell.by_begin = std::make_shared<Dwell>(table, gone);
      wait.by_begin = std::make_shared<Waiting>(table);
      mode.starts = starts_of(q, g.recipe);
    }
    if (q.pot) mode.starts = until(mode.starts, down(q.pot->until - d.stage - d.assembly));
    mode.parts.push_back(std::move(dwell));
    schedule::Part release{.length = std::max(1, up(d.release)),
                           .calendar = calendar,
                           .joins = schedule::Part::Joins::elastic};
    release.uses = hands;
    mode.parts.push_back(std::move(release));
    mode.wait = std::move(wait);
    bool hot = false;
    for (const GearNeed& need : d.needs) {
      std::vector<const GearKind*> good;
      for (const GearKind& k : f_.shop->gear) {
        if (good_enough(k, need)) good.push_back(&k);
      }
      std::sort(good.begin(), good.end(),
                [](const GearKind* a, const GearKind* b) { return less_capable(*a, *b); });
      schedule::Need held{need.count, {}};
      for (const GearKind* k : good) {
        held.resources.push_back(static_cast<int>(k - f_.shop->gear.data()));
        hot = hot || k->hot;
      }
      if (need.count > 0) mode.held.push_back(std::move(held));
    }
    if (hot) mode.held.push_back({kAir, {air_}});
    out_.exact = out_.exact && !hot;
    return mode;
  }

  std::optional<schedule::Task> task_of(const GlueUp& g) {
    const auto query = lone_query(f_, g, now_, climate_);
    if (!query) return std::nullopt;
    AsProblem::Task seen{g.id, g.times.stage_begin, {g.sheet}};
    const bool aligned = std::chrono::floor<Minutes>(seen.start) == seen.start;
    const Tick more = aligned ? 0 : 1;
    schedule::Task task;
    task.modes.push_back(mode_of(g, *query, more));
    const Recipe& recipe = *f_.recipe(g.recipe);
    for (const SheetId sheet : recipe.glues) {
      if (glues_ == Glues::as_they_are || sheet == g.sheet || !g.reason.empty()) continue;
      if (task.modes.size() == kMostModes) break;
      GlueUp other = g;
      other.sheet = sheet;
      other.lot = {};
      const auto with = lone_query(f_, other, now_, climate_);
      if (!with) continue;
      task.modes.push_back(mode_of(other, *with, more));
      task.modes.back().penalty = kOtherGlue;
      seen.sheets.push_back(sheet);
    }
    const Tick start = down(seen.start);
    task.announced = std::max(0, start);
    task.earliest = std::max(0, std::min(start, up_to(g.wanted_from)));
    task.latest = up(kHorizon);
    if (g.build) {
      if (const auto due = due_of_step(f_, g.build, g.step)) {
        task.due = down(*due);
        task.weight = 1;
      }
    }
    out_.tasks.push_back(std::move(seen));
    return task;
  }

  // Its build's earlier and later steps: lags between those that may move, bounds by those that stay.
  void chain_of(const GlueUp& g, int i) {
    if (!g.build) return;
    schedule::Task& task = out_.problem.tasks[static_cast<std::size_t>(i)];
    if (const GlueUp* before = f_.step_of(g.build, g.step - 1)) {
      if (const auto at = index_.find(before->id); at != index_.end())
        out_.problem.lags.push_back({at->second, i, 0, schedule::Lag::After::ready});
      else if (before->progress != Progress::done && before->progress != Progress::displaced)
        task.earliest = std::max(task.earliest, up_to(before->times.ready_at));
    }
    const GlueUp* after = f_.step_of(g.build, g.step + 1);
    if (!after || index_.contains(after->id) || after->progress != Progress::reserved) return;
    // A part of no length that stays where the later step begins.
    const Tick begins = down(after->times.stage_begin);
    if (begins > horizon_) return;
    schedule::Task anchor;
    anchor.earliest = anchor.latest = std::max(0, begins);
    anchor.modes.push_back({.parts = {schedule::Part{}}, .held = {}, .wait = {}, .starts = {}});
    out_.problem.lags.push_back(
        {i, static_cast<int>(out_.problem.tasks.size()), 0, schedule::Lag::After::ready});
    out_.problem.tasks.push_back(std::move(anchor));
  }

  // The most of a resource that spans take within each minute, up to its capacity.
  void take(int resource, const std::vector<Claim>& claims) {
    std::map<Instant, int> steps;
    for (const Claim& c : claims) {
      if (c.span.empty() || c.span.end <= out_.base) continue;
      steps[std::max(c.span.begin, out_.base)] += c.count;
      steps[c.span.end] -= c.count;
    }
    const int capacity = out_.problem.capacity[static_cast<std::size_t>(resource)];
    auto& all = out_.problem.taken;
    const std::size_t first = all.size();
    int level = 0;
    for (auto it = steps.begin(); it != steps.end(); ++it) {
      level += it->second;
      const int count = std::min(level, capacity);
      if (count <= 0) continue;
      schedule::Window w{down(it->first), std::min(up_to(std::next(it)->first), horizon_)};
      // Two levels may share a minute: the higher one counts.
      if (all.size() > first && all.back().span.end > w.begin) {
        if (count > all.back().count)
          all.back().span.end = w.begin;
        else
          w.begin = all.back().span.end;
        if (all.back().span.begin >= all.back().span.end) all.pop_back();
      }
      if (w.begin >= w.end) continue;
      if (all.size() > first && all.back().count == count && all.back().span.end == w.begin)
        all.back().span.end = w.end;
      else
        all.push_back({resource, count, w});
    }
  }

  void take_the_rest() {
    const auto moves = [&](Holder h) {
      return h.what == Holder::What::glue_up && index_.contains(GlueUpId{h.id});
    };
    std::map<GearKindId, std::vector<Claim>> by_kind;
    f_.gear.each([&](Holder holder, const std::vector<Claim>& claims) {
      if (moves(holder)) return;
      for (const Claim& c : claims) by_kind[c.kind].push_back(c);
    });
    std::vector<Claim> air;
    for (std::size_t k = 0; k < f_.shop->gear.size(); ++k) {
      const GearKind& kind = f_.shop->gear[k];
      const auto claims = by_kind.find(kind.id);
      if (claims == by_kind.end()) continue;
      take(static_cast<int>(k), claims->second);
      if (!kind.hot) continue;
      for (const Claim& c : claims->second) air.push_back({kind.id, kAir, c.span});
    }
    for (const auto& [id, span] : f_.fumes) {
      if (!index_.contains(id)) air.push_back({{}, 1, span});
    }
    std::map<int, std::vector<Claim>> hands;  // of builders and of benches
    for (const auto& [id, g] : f_.glue_ups) {
      if (index_.contains(id)) continue;
      const int builder = builder_index(g.builder);
      const auto bench = benches_.find(g.bench);
      for (const Span& s : attended_of(g)) {
        if (builder >= 0) hands[builders_ + builder].push_back({{}, 1, s});
        if (bench != benches_.end()) hands[bench->second].push_back({{}, 1, s});
      }
    }
    for (const auto& [resource, claims] : hands) take(resource, claims);
    take(air_, air);
  }

  const Floor& f_;
  const Instant now_;
  const Glues glues_;
  const SharedClimate climate_;
  AsProblem out_;
  Tick horizon_ = 0;
  int builders_ = 0, air_ = 0;
  std::map<BenchId, int> benches_;  // for one at a time: their resources
  std::vector<int> calendars_;      // of builders; -1: not made yet
  std::map<GlueUpId, int> index_;
  std::map<std::tuple<RecipeId, SheetId, Seconds>, std::shared_ptr<const CureTable>> tables_;
  std::map<std::tuple<RecipeId, SheetId, Seconds, SlotQuery::Open>, std::vector<schedule::Window>>
      starts_;
};

}  // namespace

Instant AsProblem::start_of(std::size_t task, const schedule::Placed& placed) const {
  const Instant seen = tasks[task].start;
  return tick(seen) == placed.start() && seen >= base ? seen : base + Minutes{placed.start()};
}

SheetId AsProblem::sheet_of(std::size_t task, const schedule::Placed& placed) const {
  return tasks[task].sheets[static_cast<std::size_t>(placed.mode)];
}

schedule::Tick AsProblem::tick(Instant t) const {
  constexpr Seconds kFarAway = std::chrono::days{366 * 30};  // never and always are such, too
  const Instant near = std::clamp(t, base - kFarAway, base + kFarAway);
  return static_cast<schedule::Tick>(std::chrono::floor<Minutes>(near - base).count());
}

AsProblem as_problem(const Floor& floor, const std::vector<GlueUpId>& movable, Instant now,
                     Glues glues) {
  return Translation{floor, now, glues}.run(movable);
}

std::optional<SlotQuery> lone_query(const Floor& f, const GlueUp& g, Instant now,
                                    SharedClimate climate) {
  if (!f.builder(g.builder)) return std::nullopt;
  auto query = query_alone(f, g, now, now, std::move(climate));
  if (!query) return std::nullopt;
  if (g.outside_hours) query->attended = SlotQuery::Hours::ignore;
  return std::move(*query);
}

std::optional<Instant> due_of_step(const Floor& f, BuildId id, int step) {
  const Build* build = f.build(id);
  if (!build || !build->due || f.step_of(id, step + 1)) return std::nullopt;
  Instant due = *build->due;
  for (auto later = static_cast<std::size_t>(step) + 1; later < build->steps.size(); ++later) {
    const Recipe* recipe = f.recipe(build->steps[later]);
    if (!recipe) continue;
    Seconds least = kHorizon;
    for (const SheetId sheet : recipe->glues) {
      const AdhesiveSheet* s = f.sheet(sheet);
      if (!s) continue;
      const Demand d = demand_of(*recipe, s, recipe->assembly);
      const Seconds dwell = std::max(recipe->dwell.value_or(Seconds{0}), s->dwell.back().dwell);
      least = std::min(least, d.stage + d.assembly + std::max(dwell + d.release, d.wait));
    }
    if (least == kHorizon) {
      const Demand d = demand_of(*recipe, nullptr, recipe->assembly);
      least = d.stage + d.assembly + std::max(d.dwell + d.release, d.wait);
    }
    due -= least;
  }
  return due;
}

}  // namespace squeezeout
