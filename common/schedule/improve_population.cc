#include "common/schedule/improve_population.h"

#include <algorithm>

namespace squeezeout::schedule {
namespace {

// Tuned on published instances of 60 and 120 tasks with scarce resources, a second each.
constexpr int kMembers = 60;
constexpr int kTournament = 2;
constexpr double kTurned = 0.05;  // of the tasks get a key of their own,
constexpr double kTurn = 1.0;     // off by a part of the span, at most
constexpr double kNear =
    0.5;  // of the children keep near their parents' starts where these hang on each other:
constexpr double kNearest = 0.1;  // no earlier by more than this part of the span
constexpr Tick kSlack = 10;       // a tenth of a makespan is what justification may gain
constexpr int kCounted = 400;     // keys: more are sorted
constexpr int kIdle = 1'000;      // children in a row that were not taken in: a new population
constexpr int kStale = 60000;     // schedules since a better one was found: the same
constexpr std::int64_t kBatch = 4'000;  // placings a step: a millisecond, or less

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

PopulationSearch::PopulationSearch(const Problem& problem, Flat flat, std::uint64_t seed)
    : problem_(problem),
      flat_(std::move(flat)),
      ticks_(flat_),
      random_(seed),
      rank_(flat_.length.size()),
      list_(flat_.length.size()),
      keys_(flat_.length.size()),
      sorted_(flat_.length.size()) {}

void PopulationSearch::sort_by(const std::vector<int>& keys) {
  // Few keys (ticks): counted into place, from the order of ranks.
  const auto [least, most] = std::minmax_element(keys.begin(), keys.end());
  const int lowest = *least, range = *most - lowest + 1;
  if (range < kCounted) {
    count_.assign(at(range) + 1, 0);
    for (const int key : keys) ++count_[at(key - lowest) + 1];
    for (std::size_t k = 1; k < count_.size(); ++k) count_[k] += count_[k - 1];
    for (const int i : ranked_) list_[at(count_[at(keys[at(i)] - lowest)]++)] = i;
    return;
  }
  for (std::size_t i = 0; i < keys.size(); ++i)
    sorted_[i] = (static_cast<std::uint64_t>(keys[i]) << 32) |
                 (static_cast<std::uint64_t>(rank_[i]) << 16) | i;
  std::sort(sorted_.begin(), sorted_.end());
  for (std::size_t k = 0; k < sorted_.size(); ++k)
    list_[k] = static_cast<int>(sorted_[k] & 0xffffU);
}

bool PopulationSearch::adopt(const Member& member) {
  if (member.score >= kFar || (best_ && member.score >= best_->cost.makespan)) return false;
  best_ = schedule_of(problem_, member.starts);
  last_better_ = schedules_;
  done_ = member.score <= flat_.least_makespan;
  return true;
}

int PopulationSearch::picked() {
  int best = random_.below(static_cast<int>(members_.size()));
  for (int k = 1; k < kTournament; ++k) {
    const int other = random_.below(static_cast<int>(members_.size()));
    if (members_[at(other)].score < members_[at(best)].score) best = other;
  }
  return best;
}

PopulationSearch::Member PopulationSearch::crossed() {
  parents_[0] = picked();
  parents_[1] = picked();
  const Member& a = members_[at(parents_[0])];
  const Member& b = members_[at(parents_[1])];
  const Tick worse = std::max(a.score, b.score);
  good_ = worse >= kFar ? kFar : worse;
  limit_ = worse >= kFar ? kFar : worse + worse / kSlack;
  const Tick span = std::max(2, *std::max_element(a.starts.begin(), a.starts.end()));
  const bool stretch = random_.below(2) == 0;
  const Tick from = random_.below(span), until = from + span / 8 + random_.below(span / 2);
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    const bool mine = stretch ? a.starts[i] >= from && a.starts[i] < until : random_.below(2) == 0;
    keys_[i] = 16 * (mine ? a.starts[i] : b.starts[i]) + random_.below(8);
    if (random_.unit() < kTurned) {
      const double way = 2 * random_.unit() - 1;
      const double turn = way * way * way * kTurn * 16 * span;
      keys_[i] = std::max(0, keys_[i] + static_cast<int>(turn));
    }
  }
  const bool near = random_.unit() < kNear;
  return made(keys_, near ? static_cast<Tick>(random_.unit() * kNearest * span) : kFar);
}

void PopulationSearch::step() {
  const std::int64_t until = placings_ + kBatch;
  while (placings_ < until && !done_) {
    if (members_.size() < at(kMembers)) {
      limit_ = good_ = kFar;
      members_.push_back(
          sampled(members_.empty() ? 0 : (random_.below(8) == 0 ? 2 : 0.6) * random_.unit()));
      adopt(members_.back());
      continue;
    }
    Member child = crossed();
    ++idle_;
    adopt(child);
    if (std::any_of(members_.begin(), members_.end(), [&](const Member& m) {
          return m.score == child.score && m.starts == child.starts;
        }))
      continue;
    Member& first = members_[at(parents_[0])];
    Member& second = members_[at(parents_[1])];
    Member& worse = first.score > second.score ? first : second;
    if (child.score <= worse.score) {
      idle_ = 0;
      worse = std::move(child);
    }
  }
  if (schedules_ - last_better_ > kStale || idle_ > kIdle) {
    members_.clear();
    idle_ = 0;
    last_better_ = schedules_;
  }
}

void PopulationSearch::take(const Schedule& better) {
  Member member;
  for (const Placed& placed : better.tasks) member.starts.push_back(placed.start());
  member.score = static_cast<Tick>(better.cost.makespan);
  if (!adopt(member)) return;
  if (members_.size() < at(kMembers))
    members_.push_back(std::move(member));
  else
    *std::max_element(members_.begin(), members_.end(), [](const Member& a, const Member& b) {
      return a.score < b.score;
    }) = std::move(member);
}

}  // namespace squeezeout::schedule
