#include "common/schedule/exact_cost.h"

#include <algorithm>

namespace squeezeout::schedule::exact {

std::vector<Pred> Lateness::wakes() const {
  std::vector<Pred> wakes;
  for (const Term& term : terms_) wakes.push_back({2 * term.ready.var, 0});
  return wakes;
}

std::int64_t Lateness::of(const Engine& engine, const Term& term) const {
  return std::int64_t{term.weight} * std::max<Tick>(0, engine.least(term.ready) - term.due);
}

// Why the others cost what they do, all but `spare` of it.
std::vector<Pred> Lateness::beside(const Engine& engine, const Term* self,
                                   std::int64_t spare) const {
  std::vector<Pred> why;
  for (const Term& term : terms_) {
    const std::int64_t cost = of(engine, term);
    if (&term == self || cost == 0) continue;
    const auto less = static_cast<Tick>(std::min(spare, cost) / term.weight);
    const Tick late = engine.least(term.ready) - term.due - less;
    spare -= std::int64_t{term.weight} * less;
    if (late > 0) why.push_back(at_least(term.ready, term.due + late));
  }
  return why;
}

std::int64_t Lateness::least(const Engine& engine) const {
  std::int64_t total = 0;
  for (const Term& term : terms_) total += of(engine, term);
  return total;
}

bool Lateness::propagate(Engine& engine) {
  const std::int64_t total = least(engine);
  if (total > most_) return engine.fail(beside(engine, nullptr, total - most_ - 1));
  for (const Term& term : terms_) {
    const std::int64_t cost = of(engine, term), here = most_ - (total - cost);
    const std::int64_t late = here / term.weight;
    if (late > std::int64_t{2} * kFar - term.due || term.due + late >= engine.most(term.ready))
      continue;
    const std::int64_t spare = (late + 1) * term.weight - here - 1;
    if (!engine.imply(at_most(term.ready, term.due + static_cast<Tick>(late)),
                      beside(engine, &term, spare)))
      return false;
  }
  return true;
}

std::vector<Pred> Disturbance::wakes() const {
  std::vector<Pred> wakes;
  for (const Term& term : terms_) {
    wakes.push_back({2 * term.start.var, 0});
    wakes.push_back({2 * term.start.var + 1, 0});
    for (const Way& way : term.ways)
      if (way.chosen) wakes.push_back(!*way.chosen);
  }
  return wakes;
}

Disturbance::Least Disturbance::of(const Engine& engine, const Term& term) const {
  Least least;
  if (term.announced) {
    const Tick away = std::max(engine.least(term.start) - *term.announced,
                               *term.announced - engine.most(term.start));
    if (away > 0) least.moved = kMoved + away;
  }
  least.penalty = -1;
  for (const Way& way : term.ways) {
    if (way.chosen && engine.broken(*way.chosen)) continue;
    if (least.penalty < 0 || way.penalty < least.penalty) least.penalty = way.penalty;
  }
  return least;
}

void Disturbance::explain_moved(const Engine& engine, std::size_t t) {
  if (least_[t].moved == 0) return;
  const View start = terms_[t].start;
  const auto away = static_cast<Tick>(least_[t].moved - kMoved);
  const Tick announced = *terms_[t].announced;
  why_.push_back(engine.holds(at_least(start, announced + away))
                     ? at_least(start, announced + away)
                     : at_most(start, announced - away));
}

void Disturbance::explain_penalty(std::size_t t) {
  for (const Way& way : terms_[t].ways)
    if (way.chosen && way.penalty < least_[t].penalty) why_.push_back(!*way.chosen);
}

void Disturbance::explain_others(const Engine& engine, std::size_t self, Half half) {
  why_.clear();
  for (std::size_t t = 0; t < terms_.size(); ++t) {
    if (t != self || half != Half::moved) explain_moved(engine, t);
    if (t != self || half != Half::penalty) explain_penalty(t);
  }
}

std::int64_t Disturbance::least(const Engine& engine) const {
  std::int64_t total = 0;
  for (const Term& term : terms_) {
    const Least least = of(engine, term);
    total += least.moved + std::max<std::int64_t>(0, least.penalty);
  }
  return total;
}

bool Disturbance::propagate(Engine& engine) {
  std::int64_t total = 0;
  for (std::size_t t = 0; t < terms_.size(); ++t) {
    least_[t] = of(engine, terms_[t]);
    if (least_[t].penalty < 0) return true;  // no way is left: the clauses will say so
    total += least_[t].moved + least_[t].penalty;
  }
  if (total > most_) {
    explain_others(engine, kNone, Half::moved);
    return engine.fail(why_);
  }
  const std::int64_t spare = most_ - total;
  for (std::size_t t = 0; t < terms_.size(); ++t) {
    const Term& term = terms_[t];
    for (const Way& way : term.ways) {
      if (!way.chosen || engine.broken(*way.chosen)) continue;
      if (way.penalty - least_[t].penalty <= spare) continue;
      explain_others(engine, t, Half::penalty);
      if (!engine.imply(!*way.chosen, why_)) return false;
    }
    if (!term.announced) continue;
    const std::int64_t here = least_[t].moved + spare;
    const Tick away = static_cast<Tick>(std::clamp<std::int64_t>(here - kMoved, 0, kFar));
    for (const Pred p : {at_most(term.start, *term.announced + away),
                         at_least(term.start, *term.announced - away)}) {
      if (engine.holds(p)) continue;
      explain_others(engine, t, Half::moved);
      if (!engine.imply(p, why_)) return false;
    }
  }
  return true;
}

}  // namespace squeezeout::schedule::exact
