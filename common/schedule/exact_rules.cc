#include "common/schedule/exact_rules.h"

#include <algorithm>

namespace squeezeout::schedule::exact {

std::vector<Pred> Allowed::wakes() const { return {{2 * view_.var, 0}, {2 * view_.var + 1, 0}}; }

bool Allowed::propagate(Engine& engine) {
  const Tick least = engine.least(view_);
  const auto up = std::partition_point(runs_.begin(), runs_.end(),
                                       [least](const Run& run) { return run.last < least; });
  const Tick closed = up == runs_.begin() ? -kFar : std::prev(up)->last + 1;
  if (up == runs_.end()) return engine.fail(std::vector{at_least(view_, closed)});
  if (up->first > least &&
      !engine.imply(at_least(view_, up->first), std::vector{at_least(view_, closed)}))
    return false;
  const Tick most = engine.most(view_);
  const auto down = std::partition_point(runs_.begin(), runs_.end(),
                                         [most](const Run& run) { return run.first <= most; });
  const Tick shut = down == runs_.end() ? kFar : down->first - 1;
  if (down == runs_.begin()) return engine.fail(std::vector{at_most(view_, shut)});
  const Tick last = std::prev(down)->last;
  return last >= most || engine.imply(at_most(view_, last), std::vector{at_most(view_, shut)});
}

std::vector<Pred> Follows::wakes() const {
  std::vector<Pred> wakes;
  for (const Var var : {rule_.from.var, rule_.after.var})
    for (const Side side : {2 * var, 2 * var + 1}) wakes.push_back({side, 0});
  if (rule_.when) wakes.push_back(*rule_.when);
  return wakes;
}

Tick Follows::reached(Tick from) const {
  return from + (rule_.by_begin ? rule_.by_begin->at(from) : rule_.length);
}

// `since`, when the rule is in force, implies `then`; so the rule is not in force when `then` cannot be.
bool Follows::imply(Engine& engine, Pred then, Pred since) {
  if (engine.holds(then)) return true;
  if (!rule_.when) return engine.imply(then, std::vector{since});
  if (engine.holds(*rule_.when)) return engine.imply(then, std::vector{since, *rule_.when});
  return !engine.broken(then) || engine.imply(!*rule_.when, std::vector{since, !then});
}

bool Follows::propagate(Engine& engine) {
  if (rule_.when && engine.broken(*rule_.when)) return true;
  const View from = rule_.from, after = rule_.after;
  const Tick least = engine.least(from);
  if (!imply(engine, at_least(after, reached(least)), at_least(from, least))) return false;
  // The last begin that still reaches no further than `after` may.
  const auto last_within = [&](Tick limit) {
    Tick low = engine.least(from) - 1, high = engine.most(from);
    while (low < high) {
      const Tick middle = low + (high - low + 1) / 2;
      if (reached(middle) <= limit)
        low = middle;
      else
        high = middle - 1;
    }
    return low;
  };
  const Tick latest = engine.most(after);
  if (reached(engine.most(from)) > latest &&
      !imply(engine, at_most(from, last_within(latest)), at_most(after, latest)))
    return false;
  if (rule_.how == How::not_before) return true;
  const Tick most = engine.most(from);
  if (!imply(engine, at_most(after, reached(most)), at_most(from, most))) return false;
  const Tick earliest = engine.least(after);
  return reached(engine.least(from)) >= earliest ||
         imply(engine, at_least(from, last_within(earliest - 1) + 1), at_least(after, earliest));
}

std::vector<Pred> AddUp::wakes() const {
  std::vector<Pred> wakes;
  for (const Var var : vars_)
    for (const Side side : {2 * var, 2 * var + 1}) wakes.push_back({side, 0});
  return wakes;
}

bool AddUp::propagate(Engine& engine) {
  Tick least = 0, most = 0;
  for (const Var var : vars_) {
    least += engine.least({var});
    most += engine.most({var});
  }
  std::vector<Pred> why;
  for (const Var var : vars_) {
    const Tick at_most_here = sum_ - (least - engine.least({var}));
    if (at_most_here < engine.most({var})) {
      why.clear();
      for (const Var other : vars_)
        if (other != var) why.push_back(at_least({other}, engine.least({other})));
      most -= engine.most({var});
      if (!engine.imply(at_most({var}, at_most_here), why)) return false;
      most += engine.most({var});
    }
    const Tick at_least_here = sum_ - (most - engine.most({var}));
    if (at_least_here > engine.least({var})) {
      why.clear();
      for (const Var other : vars_)
        if (other != var) why.push_back(at_most({other}, engine.most({other})));
      least -= engine.least({var});
      if (!engine.imply(at_least({var}, at_least_here), why)) return false;
      least += engine.least({var});
    }
  }
  return true;
}

}  // namespace squeezeout::schedule::exact
