#include "common/schedule/improve_least.h"

#include <algorithm>

namespace squeezeout::schedule {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

LeastLagSearch::LeastLagSearch(const Problem& problem, Flat flat, std::uint64_t seed)
    : PopulationSearch(problem, std::move(flat), seed), tail_(flat_.ready) {
  for (std::size_t k = 0; k < flat_.least_order.size(); ++k)
    rank_[at(flat_.least_order[k])] = static_cast<int>(k);
  ranked_ = flat_.least_order;
  for (auto it = flat_.least_order.rbegin(); it != flat_.least_order.rend(); ++it)
    for (const Flat::Arc& arc : flat_.after[at(*it)])
      tail_[at(*it)] = std::max(tail_[at(*it)], arc.lag + tail_[at(arc.task)]);
}

// Each in line as early as it can be; false as soon as it is clear that it will be longer than `most`.
bool LeastLagSearch::forward(Member& member, Tick most) {
  ++schedules_;
  placings_ += flat_.tasks();
  ticks_.clear();
  member.score = 0;
  for (const int i : list_) {
    Tick from = flat_.earliest[at(i)];
    for (const Flat::Arc& arc : flat_.before[at(i)])
      from = std::max(from, member.starts[at(arc.task)] + arc.lag);
    const Tick start = ticks_.first_fit(i, from);
    if (start + tail_[at(i)] > most) return false;
    ticks_.take(i, start);
    member.starts[at(i)] = start;
    member.score = std::max(member.score, start + flat_.ready[at(i)]);
  }
  return true;
}

// Each in line as late as it can be, all ready by the member's makespan: never earlier than it stands, when the line is by end.
void LeastLagSearch::backward(Member& member) {
  ticks_.clear();
  for (const int i : list_) {
    Tick from = member.score - flat_.ready[at(i)];
    for (const Flat::Arc& arc : flat_.after[at(i)])
      from = std::min(from, member.starts[at(arc.task)] - arc.lag);
    const Tick start = ticks_.last_fit(i, from);
    ticks_.take(i, start);
    member.starts[at(i)] = start;
  }
  ++schedules_;
  placings_ += flat_.tasks();
}

LeastLagSearch::Member LeastLagSearch::made(std::vector<int>& keys, Tick /*slack*/) {
  Member member{std::vector<Tick>(keys.size())};
  const Member given_up{{}, kFar + flat_.tasks()};
  for (const int i : flat_.least_order)
    for (const Flat::Arc& arc : flat_.before[at(i)])
      keys[at(i)] = std::max(keys[at(i)], keys[at(arc.task)]);
  sort_by(keys);
  if (!forward(member, limit_)) return given_up;
  for (std::size_t i = 0; i < keys.size(); ++i) keys[i] = member.starts[i] + flat_.length[i];
  sort_by(keys);
  std::reverse(list_.begin(), list_.end());
  backward(member);
  sort_by(member.starts);
  return forward(member, good_) ? member : given_up;
}

// By how late each can be, with some noise.
LeastLagSearch::Member LeastLagSearch::sampled(double spread) {
  const double longest = *std::max_element(tail_.begin(), tail_.end());
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    const double latest = longest - tail_[i] + flat_.length[i];
    keys_[i] = static_cast<int>(16 * (latest + spread * longest * random_.unit()));
  }
  return made(keys_, kFar);
}

}  // namespace squeezeout::schedule
