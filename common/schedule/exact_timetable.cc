#include "common/schedule/exact_timetable.h"

#include <algorithm>
#include <numeric>

namespace squeezeout::schedule::exact {
namespace {

// Few move at a time: insertion is nearly one pass.
template <typename Key>
void sort_nearly(std::vector<std::size_t>& order, const Key& key) {
  for (std::size_t k = 1; k < order.size(); ++k) {
    const std::size_t moving = order[k];
    std::size_t at = k;
    for (; at > 0 && key(order[at - 1]) > key(moving); --at) order[at] = order[at - 1];
    order[at] = moving;
  }
}

}  // namespace

Timetable::Timetable(int capacity, std::vector<Holding> holdings)
    : capacity_(capacity),
      holdings_(std::move(holdings)),
      now_(holdings_.size()),
      filtered_(holdings_.size()) {
  by_first_.resize(holdings_.size());
  std::iota(by_first_.begin(), by_first_.end(), std::size_t{0});
  by_last_ = by_first_;
}

std::vector<Pred> Timetable::wakes() const {
  std::vector<Pred> wakes;
  for (const Holding& holding : holdings_) {
    for (const Var var : {holding.begin.var, holding.end.var, holding.count.var})
      for (const Side side : {2 * var, 2 * var + 1}) wakes.push_back({side, 0});
    if (holding.when) wakes.push_back(*holding.when);
  }
  return wakes;
}

Timetable::Now Timetable::now(const Engine& engine, std::size_t h) const {
  const Holding& holding = holdings_[h];
  return {engine.most(holding.begin), engine.least(holding.end), engine.least(holding.count),
          !holding.when || engine.holds(*holding.when)};
}

Timetable::Filtered Timetable::filtered(const Engine& engine, std::size_t h) const {
  return {profile_, engine.least(holdings_[h].begin), engine.most(holdings_[h].end),
          now(engine, h)};
}

bool Timetable::look(const Engine& engine) {
  bool changed = !whole_;
  for (std::size_t h = 0; h < holdings_.size(); ++h) {
    const Now is = now(engine, h);
    changed |= (is.counts() || now_[h].counts()) && is != now_[h];
    now_[h] = is;
  }
  return changed;
}

bool Timetable::build(Engine& engine) {
  ++profile_;
  whole_ = true;
  sort_nearly(by_first_, [this](std::size_t h) { return now_[h].first; });
  sort_nearly(by_last_, [this](std::size_t h) { return now_[h].last; });
  stretches_.clear();
  highest_ = 0;
  const auto counts = [this](std::size_t h) { return now_[h].counts(); };
  int height = 0;
  std::size_t f = 0, l = 0;
  Tick since = 0;
  for (;;) {
    while (f < by_first_.size() && !counts(by_first_[f])) ++f;
    while (l < by_last_.size() && !counts(by_last_[l])) ++l;
    if (l == by_last_.size()) return true;
    const Tick tick = std::min(now_[by_last_[l]].last,
                               f < by_first_.size() ? now_[by_first_[f]].first : kFar * 2);
    if (height > 0 && tick > since) {
      stretches_.push_back({since, tick, height});
      highest_ = std::max(highest_, height);
      if (height > capacity_) {
        why_.clear();
        cover(engine, since + (tick - since) / 2, capacity_ + 1, kNone);
        whole_ = false;
        return engine.fail(why_);
      }
    }
    for (; l < by_last_.size() && now_[by_last_[l]].last == tick; ++l)
      if (counts(by_last_[l])) height -= now_[by_last_[l]].count;
    for (; f < by_first_.size() && now_[by_first_[f]].first == tick; ++f)
      if (counts(by_first_[f])) height += now_[by_first_[f]].count;
    since = tick;
  }
}

std::size_t Timetable::stretch_at(Tick tick) const {
  return static_cast<std::size_t>(
      std::partition_point(stretches_.begin(), stretches_.end(),
                           [tick](const Stretch& s) { return s.end <= tick; }) -
      stretches_.begin());
}

void Timetable::cover(const Engine& engine, Tick tick, int count, std::size_t self) {
  int spare = -count;
  const auto covers = [&](std::size_t h) {
    const Now& now = now_[h];
    return h != self && now.counts() && now.first <= tick && tick < now.last;
  };
  for (std::size_t h = 0; h < holdings_.size(); ++h)
    if (covers(h)) spare += now_[h].count;
  for (std::size_t h = 0; h < holdings_.size(); ++h) {
    if (!covers(h)) continue;
    const Holding& holding = holdings_[h];
    const Pred begun = at_most(holding.begin, tick), lasts = at_least(holding.end, tick + 1);
    const bool costs = !engine.always(begun) || !engine.always(lasts);
    if (costs && now_[h].count <= spare) {
      spare -= now_[h].count;
      continue;
    }
    why_.push_back(begun);
    why_.push_back(lasts);
    why_.push_back(at_least(holding.count, now_[h].count));
    if (holding.when) why_.push_back(*holding.when);
  }
}

bool Timetable::begins_later(Engine& engine, std::size_t h) {
  const Holding& holding = holdings_[h];
  const Now now = now_[h];
  Tick begin = engine.least(holding.begin), end = engine.least(holding.end);
  for (std::size_t s = stretch_at(begin);
       begin < end && s < stretches_.size() && stretches_[s].begin < end;) {
    const Stretch& stretch = stretches_[s];
    const bool own = now.first <= stretch.begin && stretch.end <= now.last;
    if (stretch.height + (own ? 0 : now.count) <= capacity_) {
      ++s;
      continue;
    }
    const Tick tick = std::min(stretch.end, end) - 1;
    why_.assign(1, at_least(holding.end, tick + 1));
    why_.push_back(at_least(holding.count, now.count));
    if (holding.when) why_.push_back(*holding.when);
    cover(engine, tick, capacity_ + 1 - now.count, h);
    if (!engine.imply(at_least(holding.begin, tick + 1), why_)) return false;
    begin = engine.least(holding.begin);
    end = engine.least(holding.end);
    if (begin >= stretch.end) ++s;
  }
  return true;
}

bool Timetable::ends_sooner(Engine& engine, std::size_t h) {
  const Holding& holding = holdings_[h];
  const Now now = now_[h];
  Tick begin = engine.most(holding.begin), end = engine.most(holding.end);
  // From the last stretch that begins before the end, backwards.
  for (std::size_t s = stretch_at(end - 1) + 1; begin < end && s-- > 0;) {
    if (s >= stretches_.size() || stretches_[s].begin >= end) continue;
    const Stretch& stretch = stretches_[s];
    if (stretch.end <= begin) break;
    const bool own = now.first <= stretch.begin && stretch.end <= now.last;
    if (stretch.height + (own ? 0 : now.count) <= capacity_) continue;
    const Tick tick = std::max(stretch.begin, begin);
    why_.assign(1, at_most(holding.begin, tick));
    why_.push_back(at_least(holding.count, now.count));
    if (holding.when) why_.push_back(*holding.when);
    cover(engine, tick, capacity_ + 1 - now.count, h);
    if (!engine.imply(at_most(holding.end, tick), why_)) return false;
    begin = engine.most(holding.begin);
    end = engine.most(holding.end);
    if (end > stretch.begin) ++s;  // the same stretch again
  }
  return true;
}

bool Timetable::suits(Engine& engine, std::size_t h) {
  const Holding& holding = holdings_[h];
  const Now now = now_[h];
  for (std::size_t s = stretch_at(now.first);
       s < stretches_.size() && stretches_[s].begin < now.last; ++s) {
    const Stretch& stretch = stretches_[s];
    const int others = stretch.height - (now.runs ? now.count : 0);
    const Tick tick = std::max(stretch.begin, now.first);
    if (!now.runs && others + now.count > capacity_) {
      why_.assign({at_most(holding.begin, tick), at_least(holding.end, tick + 1),
                   at_least(holding.count, now.count)});
      cover(engine, tick, capacity_ + 1 - now.count, h);
      return engine.imply(!*holding.when, why_);
    }
    if (now.runs && others + engine.most(holding.count) > capacity_) {
      why_.assign({at_most(holding.begin, tick), at_least(holding.end, tick + 1)});
      if (holding.when) why_.push_back(*holding.when);
      cover(engine, tick, others, h);
      if (!engine.imply(at_most(holding.count, capacity_ - others), why_)) return false;
    }
  }
  return true;
}

bool Timetable::propagate(Engine& engine) {
  if (look(engine) && !build(engine)) return false;
  engine.tire(static_cast<std::int64_t>(4 * holdings_.size()));
  for (std::size_t h = 0; h < holdings_.size(); ++h) {
    const Holding& holding = holdings_[h];
    if (holding.when && engine.broken(*holding.when)) continue;
    const bool certain = now_[h].first < now_[h].last;
    if (certain && (!now_[h].runs || !engine.fixed(holding.count.var)) && !suits(engine, h))
      return false;
    if (!now_[h].runs || now_[h].count == 0 || highest_ + now_[h].count <= capacity_) continue;
    if (engine.fixed(holding.begin.var) && engine.fixed(holding.end.var)) continue;
    if (filtered_[h] == filtered(engine, h)) continue;
    if (!begins_later(engine, h) || !ends_sooner(engine, h)) return false;
    filtered_[h] = filtered(engine, h);
  }
  return true;
}

}  // namespace squeezeout::schedule::exact
