#include "common/schedule/improve_most.h"

#include <algorithm>
#include <numeric>

namespace squeezeout::schedule {
namespace {

constexpr double kMoves = 2;  // of what is in the way, a generation, for each task
constexpr Tick kNoPath = -(1 << 28);
constexpr std::size_t kBlock = 4;  // whole registers, for quick bounds

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

MostLagSearch::MostLagSearch(const Problem& problem, Flat flat, std::uint64_t seed)
    : PopulationSearch(problem, std::move(flat), seed) {
  const std::size_t n = flat_.length.size();
  stride_ = (n + kBlock - 1) / kBlock * kBlock;
  path_.assign(n * stride_, kNoPath);
  htap_.assign(n * stride_, kNoPath);
  for (std::size_t i = 0; i < n; ++i) {
    path_[i * stride_ + i] = 0;
    for (const Flat::Arc& arc : flat_.after[i]) {
      Tick& path = path_[i * stride_ + at(arc.task)];
      path = std::max(path, arc.lag);
    }
  }
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t i = 0; i < n; ++i) {
      const Tick first = path_[i * stride_ + k];
      if (first == kNoPath) continue;
      for (std::size_t j = 0; j < n; ++j) {
        const Tick second = path_[k * stride_ + j];
        if (second == kNoPath) continue;
        path_[i * stride_ + j] = std::max(path_[i * stride_ + j], first + second);
      }
    }
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) htap_[j * stride_ + i] = path_[i * stride_ + j];

  // i goes before j when it starts before it, or no later and not bound by it.
  const auto goes_before = [&](std::size_t i, std::size_t j) {
    const Tick there = path_[i * stride_ + j], back = path_[j * stride_ + i];
    return i != j && (there > 0 || (there == 0 && back < 0));
  };
  first_.resize(n);
  component_.assign(n, -1);
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t i = 0; i < n; ++i) {
      if (goes_before(i, j)) {
        ++rank_[j];
        first_[j].push_back(static_cast<int>(i));
      }
      if (component_[j] < 0 && path_[i * stride_ + j] > kNoPath && path_[j * stride_ + i] > kNoPath)
        component_[j] = static_cast<int>(i);
    }
  }
  bound_both_ways_.assign(n, 0);
  for (std::size_t j = 0; j < n; ++j)
    if (component_[j] != static_cast<int>(j))
      bound_both_ways_[j] = bound_both_ways_[at(component_[j])] = 1;
  for (std::size_t j = 0; j < n; ++j) {  // only those with none between
    std::vector<int> direct;
    for (const int i : first_[j])
      if (std::none_of(first_[j].begin(), first_[j].end(),
                       [&](int k) { return goes_before(at(i), at(k)); }))
        direct.push_back(i);
    first_[j] = std::move(direct);
  }

  placing_ = 10 + 2 * static_cast<std::int64_t>(n) / 3;  // each looks at all
  base_early_.assign(stride_, 0);
  base_late_.assign(stride_, flat_.horizon);
  tail_.assign(n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    base_early_[i] = flat_.earliest[i];
    base_late_[i] = std::min(flat_.latest[i], flat_.horizon);
    for (std::size_t j = 0; j < n; ++j)
      if (path_[i * stride_ + j] > kNoPath)
        tail_[i] = std::max(tail_[i], path_[i * stride_ + j] + flat_.ready[j]);
  }
  placed_.resize(n);
  start_.resize(n);
  pushes_.resize(stride_);
  holds_.resize(stride_);
  ranked_.resize(n);
  std::iota(ranked_.begin(), ranked_.end(), 0);
  std::stable_sort(ranked_.begin(), ranked_.end(),
                   [&](int a, int b) { return rank_[at(a)] < rank_[at(b)]; });
}

// What the placed ones leave for the start of this one.
Window MostLagSearch::room(int task) const {
  const Tick* there = from(task);
  const Tick* back = to(task);
  Window room{floor_early_[at(task)], base_late_[at(task)]};
  for (std::size_t j = 0; j < stride_; ++j) room.begin = std::max(room.begin, pushes_[j] + back[j]);
  for (std::size_t j = 0; j < stride_; ++j) room.end = std::min(room.end, holds_[j] - there[j]);
  return room;
}

void MostLagSearch::put(int task, Tick start) {
  ++placings_;
  --left_;
  ticks_.take(task, start);
  start_[at(task)] = pushes_[at(task)] = holds_[at(task)] = start;
  placed_[at(task)] = 1;
}

void MostLagSearch::take_back(int task) {
  ++left_;
  ticks_.give_back(task, start_[at(task)]);
  pushes_[at(task)] = kNoPath;
  holds_[at(task)] = -kNoPath;
  placed_[at(task)] = 0;
}

// The task is to begin at `start`, later than what is placed allows: that moves later, and all that begin after it are placed
// anew. False when it cannot.
bool MostLagSearch::make_way(int task, Tick start) {
  Tick since = kFar;
  const std::size_t n = placed_.size();
  for (std::size_t j = 0; j < n; ++j) {
    if (!placed_[j]) continue;
    const Tick least = start + from(task)[j];
    if (start_[j] >= least) continue;
    if (least > base_late_[j]) return false;
    since = std::min(since, start_[j]);
    const Tick* there = from(static_cast<int>(j));
    for (std::size_t k = 0; k < n; ++k)
      floor_early_[k] = std::max(floor_early_[k], least + there[k]);
  }
  if (since == kFar) return false;  // its own bound
  for (std::size_t j = 0; j < n; ++j)
    if (placed_[j] && (start_[j] >= since || start_[j] < floor_early_[j]))
      take_back(static_cast<int>(j));
  return true;
}

// Tasks bound both ways begin near their keys, as far as nothing else is bounded by that.
void MostLagSearch::set_floors(const std::vector<int>& keys, Tick slack) {
  floor_early_ = base_early_;
  if (slack == kFar) return;
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (!bound_both_ways_[i]) continue;
    const Tick floor = std::min(keys[i] / 16 - slack, base_late_[i]);
    if (floor <= floor_early_[i]) continue;
    const Tick* there = from(static_cast<int>(i));
    for (std::size_t k = 0; k < keys.size(); ++k)
      floor_early_[k] = std::max(floor_early_[k], floor + there[k]);
  }
}

// From list_; false when it is not whole: then the starts are of what was placed, and bounds of the rest.
bool MostLagSearch::generate(Member& member) {
  ++schedules_;
  ++placings_;  // also when none can be placed
  ticks_.clear();
  std::fill(placed_.begin(), placed_.end(), 0);
  std::fill(pushes_.begin(), pushes_.end(), kNoPath);
  std::fill(holds_.begin(), holds_.end(), -kNoPath);
  left_ = static_cast<int>(placed_.size());
  int fewest = left_;
  int moves = static_cast<int>(kMoves * left_);
  for (std::size_t k = 0; k < list_.size();) {
    const int i = list_[k];
    if (placed_[at(i)]) {
      ++k;
      continue;
    }
    const auto [early, late] = room(i);
    const Tick start = ticks_.first_fit(i, std::min(early, flat_.horizon));
    if (start <= late && start + tail_[at(i)] <= limit_) {
      put(i, start);
      fewest = std::min(fewest, left_);
      ++k;
      continue;
    }
    if (start + tail_[at(i)] > limit_ || start > base_late_[at(i)] || moves-- == 0 ||
        !make_way(i, start)) {
      for (std::size_t j = 0; j < placed_.size(); ++j)
        member.starts[j] =
            placed_[j] ? start_[j] : std::min(room(static_cast<int>(j)).begin, flat_.horizon);
      // Whoever failed comes earlier in what is made of it.
      member.starts[at(i)] = std::max(0, member.starts[at(i)] - flat_.length[at(i)]);
      member.score = kFar + fewest;
      return false;
    }
    k = 0;
  }
  member.starts = start_;
  member.score = makespan(member);
  return true;
}

Tick MostLagSearch::makespan(const Member& member) const {
  Tick last = 0;
  for (std::size_t i = 0; i < member.starts.size(); ++i)
    last = std::max(last, member.starts[i] + flat_.ready[i]);
  return last;
}

// Each as late as the others allow where they stand, the last first.
void MostLagSearch::shift_late(Member& member) {
  ++schedules_;
  placings_ += flat_.tasks();
  for (std::size_t i = 0; i < keys_.size(); ++i) keys_[i] = member.starts[i] + flat_.length[i];
  sort_by(keys_);
  for (auto it = list_.rbegin(); it != list_.rend(); ++it) {
    const int i = *it;
    Tick& start = member.starts[at(i)];
    Tick most = std::min(member.score - flat_.ready[at(i)], base_late_[at(i)]);
    for (const Flat::Arc& arc : flat_.after[at(i)])
      most = std::min(most, member.starts[at(arc.task)] - arc.lag);
    if (most == start) continue;
    ticks_.give_back(i, start);
    start = ticks_.last_fit(i, most);
    ticks_.take(i, start);
  }
}

// Each as early as the others allow where they stand, the first first.
void MostLagSearch::shift_early(Member& member) {
  ++schedules_;
  placings_ += flat_.tasks();
  sort_by(member.starts);
  for (const int i : list_) {
    Tick& start = member.starts[at(i)];
    Tick least = flat_.earliest[at(i)];
    for (const Flat::Arc& arc : flat_.before[at(i)])
      least = std::max(least, member.starts[at(arc.task)] + arc.lag);
    if (least == start) continue;
    ticks_.give_back(i, start);
    start = ticks_.first_fit(i, least);
    ticks_.take(i, start);
  }
  member.score = makespan(member);
}

MostLagSearch::Member MostLagSearch::made(std::vector<int>& keys, Tick slack) {
  set_floors(keys, slack);
  Member member{std::vector<Tick>(keys.size())};
  for (const int j : ranked_)
    for (const int i : first_[at(j)]) keys[at(j)] = std::max(keys[at(j)], keys[at(i)]);
  sort_by(keys);
  if (!generate(member)) return member;
  for (;;) {
    const Tick before = member.score;
    shift_late(member);
    shift_early(member);
    if (member.score == before) return member;
  }
}

// By how late each can be, with some noise; those bound both ways together, or each by itself.
MostLagSearch::Member MostLagSearch::sampled(double spread) {
  const double longest = *std::max_element(tail_.begin(), tail_.end());
  for (std::size_t i = 0; i < keys_.size(); ++i) {
    const double latest = longest - tail_[i] + flat_.length[i];
    keys_[i] = static_cast<int>(16 * (latest + spread * longest * random_.unit()));
  }
  if (random_.below(2) == 0) {
    std::vector<int> first(keys_.size(), kFar);
    for (std::size_t i = 0; i < keys_.size(); ++i)
      first[at(component_[i])] = std::min(first[at(component_[i])], keys_[i]);
    for (std::size_t i = 0; i < keys_.size(); ++i)
      keys_[i] = first[at(component_[i])] + keys_[i] / 16;
  }
  return made(keys_, kFar);
}

}  // namespace squeezeout::schedule
