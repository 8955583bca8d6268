// The engine's half that learns: from a conflict to a clause, and which clauses are worth keeping.

#include <algorithm>

#include "common/base/check.h"
#include "common/schedule/exact_engine.h"

namespace squeezeout::schedule::exact {
namespace {
constexpr int kDeepest = 24;  // how far minimising follows reasons
}

Index Engine::position(Pred p) const {
  Index index = last_[p.side];
  while (index != kNone && trail_[index].before >= p.least) index = trail_[index].previous;
  return index;
}

// One more predicate that the conflict needs; of two of one side the greater says both.
void Engine::need(Pred p) {
  if (always(p) || (needed_[p.side] && need_[p.side] >= p.least)) return;
  CHECK(holds(p));
  activity_.bump(p);
  if (!needed_[p.side]) {
    needed_[p.side] = true;
    sides_.push_back(p.side);
  }
  need_[p.side] = p.least;
  if (!needed_now_[p.side] && position(p) >= levels_.back()) {
    needed_now_[p.side] = true;
    ++open_;
  }
}

bool Engine::resolve() {
  std::uint32_t highest = 0;
  if (level() > 0) {
    for (const Pred& p : conflict_)
      if (!always(p)) highest = std::max(highest, trail_[position(p)].level);
  }
  if (dead_ || highest == 0) {
    dead_ = true;
    return false;
  }
  cancel(highest);
  sides_.clear();
  open_ = 0;
  for (const Pred& p : conflict_) need(p);

  Pred point;  // the first unique implication point
  for (std::vector<Pred> why;;) {
    const Step step = trail_.back();
    if (!needed_[step.side] || need_[step.side] <= step.before) {
      pop();
      continue;
    }
    point = {step.side, need_[step.side]};
    if (open_ == 1) break;
    needed_[step.side] = needed_now_[step.side] = false;
    --open_;
    if (step.reason.kind == Reason::clause && clauses_[step.reason.index].span > 0)
      clauses_[step.reason.index].activity += clause_gain_;
    why.clear();
    explain(step, point.least, why);
    work_ += 40 + static_cast<std::int64_t>(why.size());
    pop();
    for (const Pred& p : why) need(p);
  }
  learned_.assign(1, !point);
  std::sort(sides_.begin(), sides_.end());
  sides_.erase(std::unique(sides_.begin(), sides_.end()), sides_.end());
  minimise();
  for (const Side side : sides_) needed_[side] = needed_now_[side] = false;
  learn();
  return true;
}

// Adds what the clause needs beside its first predicate: what does not follow from the rest.
void Engine::minimise() {
  ++stamp_;
  known_.resize(std::max(known_.size(), trail_.size()));
  level_stamp_.resize(std::max<std::size_t>(level_stamp_.size(), level() + 1));
  std::vector<Pred> rest;
  for (const Side side : sides_) {
    if (!needed_[side] || side == (learned_.front().side ^ 1)) continue;
    rest.push_back({side, need_[side]});
    level_stamp_[trail_[position(rest.back())].level] = stamp_;
  }
  for (const Pred& p : rest)
    if (!redundant(p, 0)) learned_.push_back(!p);
}

// Says a needed predicate it, one that stands before that step? (Later ones may lean on the step itself.)
bool Engine::covered(Pred p, Index before) const {
  return needed_[p.side] && need_[p.side] >= p.least && position({p.side, need_[p.side]}) < before;
}

bool Engine::redundant(Pred p, int depth) {
  const Index at = position(p);
  const Step& step = trail_[at];
  if (step.reason.kind == Reason::none || depth > kDeepest || level_stamp_[step.level] != stamp_)
    return false;
  Known& known = known_[at];
  if (known.stamp == stamp_) {
    if (known.follows && known.value >= p.least) return true;
    if (!known.follows && known.value <= p.least) return false;
  }
  const std::size_t begin = scratch_.size();
  explain(step, p.least, scratch_);
  work_ += 40 + static_cast<std::int64_t>(scratch_.size() - begin);
  bool follows = true;
  for (std::size_t k = begin; follows && k < scratch_.size(); ++k) {
    const Pred q = scratch_[k];
    follows = always(q) || covered(q, at) || redundant(q, depth + 1);
  }
  scratch_.resize(begin);
  known_[at] = {stamp_, p.least, follows};
  return follows;
}

void Engine::learn() {
  ++stamp_;
  std::uint32_t back = 0, span = 1;
  for (std::size_t k = 1; k < learned_.size(); ++k) {
    const std::uint32_t of = trail_[position(!learned_[k])].level;
    if (of > back) {
      back = of;
      std::swap(learned_[1], learned_[k]);
    }
    if (level_stamp_[of] != stamp_) {
      level_stamp_[of] = stamp_;
      ++span;
    }
  }
  cancel(back);
  clause_gain_ *= 1.001F;
  if (clause_gain_ > 1e20F) {
    for (Clause& clause : clauses_) clause.activity /= clause_gain_;
    clause_gain_ = 1;
  }
  activity_.decay();
  if (learned_.size() == 1) {
    push(learned_.front(), {});
    return;
  }
  const Index clause = add(learned_, span);
  watch(clause);
  push(learned_.front(), {Reason::clause, clause});
}

void Engine::trim() {
  CHECK(level() == 0);
  settle_root();
  activity_.forget();
  float bar = -1;  // of activity, below which clauses go
  if (learned_now_ > learned_most_) {
    std::vector<float> activities;
    for (const Clause& clause : clauses_)
      if (clause.span > 2) activities.push_back(clause.activity);
    if (!activities.empty()) {
      const auto middle = activities.begin() + static_cast<std::ptrdiff_t>(activities.size() / 2);
      std::nth_element(activities.begin(), middle, activities.end());
      bar = *middle;
    }
    learned_most_ += learned_most_ / 10;
  }
  for (Watches& watches : watches_) {
    watches.at.clear();
    watches.who.clear();
  }
  const std::vector<Clause> clauses = std::move(clauses_);
  const std::vector<Pred> pool = std::move(pool_);
  clauses_.clear();
  pool_.clear();
  learned_now_ = 0;
  std::vector<Pred> any;
  for (const Clause& clause : clauses) {
    if (clause.span > 2 && clause.activity < bar) continue;
    const auto begin = pool.begin() + clause.begin, end = begin + clause.size;
    if (std::any_of(begin, end, [this](Pred p) { return holds(p); })) continue;
    any.clear();
    std::copy_if(begin, end, std::back_inserter(any), [this](Pred p) { return !broken(p); });
    const Index index = add(any, clause.span);
    clauses_[index].activity = clause.activity;
    watch(index);
  }
}

}  // namespace squeezeout::schedule::exact
