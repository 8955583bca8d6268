#include "common/schedule/exact_engine.h"

#include <algorithm>

#include "common/base/check.h"

namespace squeezeout::schedule::exact {
namespace {
constexpr std::int64_t kAskAfter =
    20'000;  // work from asking whether to stop to asking again: below a millisecond
}

Var Engine::add_variable(Tick least, Tick most) {
  const auto var = static_cast<Var>(at_.size() / 2);
  for (const Tick bound : {least, -most}) {
    at_.push_back(bound);
    root_.push_back(bound);
    last_.push_back(kNone);
    edges_of_.emplace_back();
    watches_.emplace_back();
    wakes_.emplace_back();
    need_.push_back(0);
    needed_.push_back(false);
    needed_now_.push_back(false);
  }
  if (least > most) dead_ = true;
  return var;
}

void Engine::add_edge(View from, View to, Tick ticks) {
  const Tick sum = ticks + from.off - to.off;
  if (from.var == to.var) {
    if (sum > 0) dead_ = true;
    return;
  }
  add_edge(from, to, ticks, {kNone, 0});
  for (const Edge& edge : {edges_[edges_.size() - 2], edges_.back()})
    if (!grow({edge.to, at_[edge.from] + edge.ticks}, {})) dead_ = true;
}

void Engine::add_edge(View from, View to, Tick ticks, Pred when) {
  const Tick sum = ticks + from.off - to.off;
  for (const Edge& edge : {Edge{2 * from.var, 2 * to.var, sum, when},
                           Edge{2 * to.var + 1, 2 * from.var + 1, sum, when}}) {
    edges_of_[edge.from].push_back({edge.to, edge.ticks, static_cast<Index>(edges_.size())});
    edges_.push_back(edge);
  }
}

Index Engine::add_propagator(std::unique_ptr<Propagator> propagator, std::span<const Pred> wakes,
                             Urgency urgency) {
  const auto index = static_cast<Index>(propagators_.size());
  propagators_.push_back(std::move(propagator));
  urgency_.push_back(urgency);
  waiting_.push_back(false);
  wake(index);
  for (const Pred& p : wakes)
    if (wakes_[p.side].empty() || wakes_[p.side].back() != index) wakes_[p.side].push_back(index);
  return index;
}

void Engine::wake(Index propagator) {
  if (waiting_[propagator]) return;
  waiting_[propagator] = true;
  queue_[static_cast<std::size_t>(urgency_[propagator])].push_back(propagator);
}

void Engine::add_clause(std::vector<Pred> any) {
  for (const Pred& p : any)
    if (holds(p)) return;
  std::erase_if(any, [this](Pred p) { return broken(p); });
  if (any.empty())
    dead_ = true;
  else if (any.size() == 1)
    push(any.front(), {});
  else
    watch(add(any, 0));
}

Index Engine::add(std::span<const Pred> any, std::uint32_t span) {
  const auto index = static_cast<Index>(clauses_.size());
  clauses_.push_back({static_cast<Index>(pool_.size()), static_cast<Index>(any.size()), span,
                      span > 0 ? clause_gain_ : 0.0F});
  pool_.insert(pool_.end(), any.begin(), any.end());
  if (span > 0) ++learned_now_;
  return index;
}

void Engine::watch(Pred p, Index clause, Pred blocker) {
  Watches& watches = watches_[p.side ^ 1];
  watches.at.push_back(1 - p.least);
  watches.who.push_back({clause, blocker});
}

void Engine::watch(Index clause) {
  const Pred* any = &pool_[clauses_[clause].begin];
  watch(any[0], clause, any[1]);
  watch(any[1], clause, any[0]);
}

void Engine::push(Pred p, Reason reason) {
  trail_.push_back({p.side, at_[p.side], p.least, last_[p.side], reason, level()});
  last_[p.side] = static_cast<Index>(trail_.size() - 1);
  at_[p.side] = p.least;
}

bool Engine::grow(Pred p, Reason reason) {
  if (holds(p)) return true;
  if (broken(p)) {
    conflict_.clear();
    explain({p.side, at_[p.side], p.least, kNone, reason, level()}, p.least, conflict_);
    conflict_.push_back(!p);
    return false;
  }
  push(p, reason);
  return true;
}

bool Engine::imply(Pred p, std::span<const Pred> why) {
  if (holds(p)) return true;
  if (broken(p)) {
    conflict_.assign(why.begin(), why.end());
    conflict_.push_back(!p);
    return false;
  }
  if (level() == 0) {
    push(p, {});
    return true;
  }
  const auto index = static_cast<Index>(stored_.size());
  stored_.push_back({static_cast<Side>(why.size()), 0});
  stored_.insert(stored_.end(), why.begin(), why.end());
  push(p, {Reason::stored, index});
  return true;
}

bool Engine::fail(std::span<const Pred> why) {
  conflict_.assign(why.begin(), why.end());
  return false;
}

void Engine::explain(const Step& step, Tick value, std::vector<Pred>& why) const {
  switch (step.reason.kind) {
    case Reason::none:
      break;
    case Reason::edge: {
      const Edge& edge = edges_[step.reason.index];
      why.push_back({edge.from, value - edge.ticks});
      if (edge.when.side != kNone) why.push_back(edge.when);
      break;
    }
    case Reason::clause: {
      const Clause& clause = clauses_[step.reason.index];
      for (Index k = 1; k < clause.size; ++k) why.push_back(!pool_[clause.begin + k]);
      break;
    }
    case Reason::stored: {
      const auto from = stored_.begin() + step.reason.index + 1;
      why.insert(why.end(), from, from + stored_[step.reason.index].side);
      break;
    }
  }
}

bool Engine::visit_edges(Side side) {
  const Tick from = at_[side];
  for (const Out& out : edges_of_[side]) {
    if (from + out.ticks <= at_[out.to]) continue;
    const Pred when = edges_[out.edge].when;
    if (when.side != kNone && !holds(when)) continue;
    if (!grow({out.to, from + out.ticks}, {Reason::edge, out.edge})) return false;
  }
  work_ += static_cast<std::int64_t>(edges_of_[side].size());
  return true;
}

bool Engine::visit_clauses(Side side, Tick before) {
  Watches& watches = watches_[side];
  const Tick now = at_[side];
  work_ += static_cast<std::int64_t>(watches.at.size() / 4);
  for (std::size_t w = 0; w < watches.at.size();) {
    const Tick at = watches.at[w];
    if (at <= before || at > now || holds(watches.who[w].blocker)) {
      ++w;
      continue;
    }
    const Index index = watches.who[w].clause;
    const Clause& clause = clauses_[index];
    Pred* any = &pool_[clause.begin];
    if (any[0] == Pred{side ^ 1, 1 - at}) std::swap(any[0], any[1]);
    watches.who[w].blocker = any[0];
    if (holds(any[0])) {
      ++w;
      continue;
    }
    Index k = 2;
    while (k < clause.size && broken(any[k])) ++k;
    if (k < clause.size) {
      std::swap(any[1], any[k]);
      watches.at[w] = watches.at.back();
      watches.at.pop_back();
      watches.who[w] = watches.who.back();
      watches.who.pop_back();
      watch(any[1], index, any[0]);  // this very list may grow, by what is not reached yet
      continue;
    }
    ++w;
    if (grow(any[0], {Reason::clause, index})) continue;
    if (clause.span > 0) clauses_[index].activity += clause_gain_;
    return false;
  }
  return true;
}

Engine::Result Engine::propagate(const std::function<bool()>& stop) {
  if (dead_) return Result::conflict;
  for (;;) {
    if (work_ >= ask_at_) {
      ask_at_ = work_ + kAskAfter;
      if (stop && stop()) return Result::interrupted;
    }
    bool fine = true;
    if (head_ < trail_.size()) {
      const Step step = trail_[head_++];
      // Where the side has grown on since, its last step will follow the edges for all.
      fine = visit_clauses(step.side, step.before) &&
             (at_[step.side] > step.now || visit_edges(step.side));
      for (const Index p : wakes_[step.side]) wake(p);
    } else {
      std::vector<Index>& queue = queue_[0].empty() ? queue_[1] : queue_[0];
      if (queue.empty()) return Result::settled;
      const Index p = queue.back();
      queue.pop_back();
      waiting_[p] = false;
      work_ += 20;
      fine = propagators_[p]->propagate(*this);
    }
    if (!fine) {
      for (std::vector<Index>& queue : queue_) {
        for (const Index p : queue) waiting_[p] = false;
        queue.clear();
      }
      return Result::conflict;
    }
  }
}

void Engine::decide(Pred p) {
  if (level() == 0) settle_root();
  levels_.push_back(static_cast<Index>(trail_.size()));
  push(p, {});
}

void Engine::pop() {
  const Step& step = trail_.back();
  at_[step.side] = step.before;
  last_[step.side] = step.previous;
  if (step.reason.kind == Reason::stored) stored_.resize(step.reason.index);
  trail_.pop_back();
}

void Engine::cancel(std::uint32_t to) {
  if (level() <= to) return;
  while (trail_.size() > levels_[to]) pop();
  levels_.resize(to);
  head_ = std::min(head_, trail_.size());
  activity_.step_back(to);
}

void Engine::settle_root() {
  CHECK(level() == 0 && head_ == trail_.size());
  for (const Step& step : trail_) {
    root_[step.side] = at_[step.side];
    last_[step.side] = kNone;
  }
  trail_.clear();
  head_ = 0;
  stored_.clear();
}

void Engine::restart() { cancel(0); }

bool Engine::fix(Pred p) {
  CHECK(level() == 0);
  if (dead_ || broken(p)) {
    dead_ = true;
    return false;
  }
  if (!holds(p)) push(p, {});
  return true;
}

}  // namespace squeezeout::schedule::exact
