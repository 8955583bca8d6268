#include "tests/support/schedule/exhaustive.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "common/base/check.h"

namespace squeezeout::schedule::testing {
namespace {

// One way to place one task, with all of it that others or the cost can see.
struct Option {
  Placed placed;
  Tick start = 0, ready = 0;
  std::int64_t late = 0, disturbed = 0;
  std::vector<int> used;  // [resource * horizon + tick]
  auto seen() const { return std::tie(late, disturbed, ready, start, used); }
};

// Every option of one task that its own rules and what is taken allow.
class Options {
 public:
  Options(const Problem& problem, const Task& task) : p_(problem), task_(task) {
    for (mode_ = 0; mode_ < static_cast<int>(task.modes.size()); ++mode_) {
      std::set<std::vector<int>> mixes;
      mix(0, std::vector<int>(p_.capacity.size()), mixes);
      const Tick last = std::min(task.latest, p_.horizon);
      for (Tick start = task.earliest; start <= last; ++start) {
        if (!may_start(start)) continue;
        begins_.clear();
        place(start, mixes);
      }
    }
    std::sort(found_.begin(), found_.end(),
              [](const Option& a, const Option& b) { return a.seen() < b.seen(); });
    found_.erase(std::unique(found_.begin(), found_.end(),
                             [](const Option& a, const Option& b) { return a.seen() == b.seen(); }),
                 found_.end());
  }
  std::vector<Option> take() && { return std::move(found_); }

 private:
  const Mode& mode() const { return task_.modes[static_cast<std::size_t>(mode_)]; }

  // Deals the pieces of need n and all after it; `count` is of each resource.
  void mix(std::size_t n, const std::vector<int>& count, std::set<std::vector<int>>& mixes) const {
    if (n == mode().held.size()) {
      mixes.insert(count);
      return;
    }
    deal(n, 0, mode().held[n].count, count, mixes);
  }
  void deal(std::size_t n, std::size_t k, int left, std::vector<int> count,
            std::set<std::vector<int>>& mixes) const {
    const auto& good = mode().held[n].resources;
    if (left == 0) return mix(n + 1, count, mixes);
    if (k == good.size()) return;
    for (int pieces = 0; pieces <= left; ++pieces) {
      deal(n, k + 1, left - pieces, count, mixes);
      ++count[static_cast<std::size_t>(good[k])];
    }
  }

  bool may_start(Tick start) const {
    if (mode().starts.empty()) return true;
    for (const Window& w : mode().starts)
      if (w.begin <= start && start < w.end) return true;
    return false;
  }

  bool open(int calendar, Tick begin, Tick end) const {
    if (calendar < 0) return true;
    for (const Window& w : p_.calendars[static_cast<std::size_t>(calendar)].open)
      if (w.begin <= begin && begin < w.end && end <= w.end) return true;
    return false;
  }

  // Places the next part at `begin` and all after it.
  void place(Tick begin, const std::set<std::vector<int>>& mixes) {
    const Part& part = mode().parts[begins_.size()];
    const Tick end = begin + (part.by_begin ? part.by_begin->at(begin) : part.length);
    if (end > p_.horizon || !open(part.calendar, begin, end)) return;
    begins_.push_back(begin);
    ends_.push_back(end);
    if (begins_.size() == mode().parts.size()) {
      for (const auto& held : mixes) finish(held);
    } else {
      const bool elastic = mode().parts[begins_.size()].joins == Part::Joins::elastic;
      for (Tick next = end; next <= (elastic ? p_.horizon : end); ++next) place(next, mixes);
    }
    begins_.pop_back();
    ends_.pop_back();
  }

  void finish(const std::vector<int>& held) {
    Option o;
    o.placed.mode = mode_;
    o.placed.begins = begins_;
    o.start = begins_.front();
    o.ready = ends_.back();
    if (const auto& wait = mode().wait) {
      const Tick from = begins_[static_cast<std::size_t>(wait->from_part)];
      o.ready =
          std::max(o.ready, from + (wait->by_begin ? wait->by_begin->at(from) : wait->length));
    }
    if (o.ready > task_.due) o.late = std::int64_t{task_.weight} * (o.ready - task_.due);
    o.disturbed = mode().penalty;
    if (task_.announced && *task_.announced != o.start)
      o.disturbed += 1'000'000'000 + std::abs(o.start - *task_.announced);
    const auto width = static_cast<std::size_t>(p_.horizon);
    o.used.resize(p_.capacity.size() * width);
    const auto use = [&](std::size_t resource, int count, Tick begin, Tick end) {
      for (Tick t = begin; t < end; ++t)
        o.used[resource * width + static_cast<std::size_t>(t)] += count;
    };
    for (std::size_t r = 0; r < held.size(); ++r) {
      if (held[r] == 0) continue;
      o.placed.held.push_back({static_cast<int>(r), held[r]});
      use(r, held[r], o.start, ends_.back());
    }
    for (std::size_t k = 0; k < begins_.size(); ++k)
      for (const Use& u : mode().parts[k].uses)
        use(static_cast<std::size_t>(u.resource), u.count, begins_[k], ends_[k]);
    found_.push_back(std::move(o));
  }

  const Problem& p_;
  const Task& task_;
  int mode_ = 0;
  std::vector<Tick> begins_, ends_;
  std::vector<Option> found_;
};

class Search {
 public:
  explicit Search(const Problem& problem) : p_(problem), chosen_(problem.tasks.size(), nullptr) {
    const auto width = static_cast<std::size_t>(p_.horizon);
    for (const int capacity : p_.capacity) room_.insert(room_.end(), width, capacity);
    for (const Taken& taken : p_.taken)
      for (Tick t = std::max(taken.span.begin, 0); t < std::min(taken.span.end, p_.horizon); ++t)
        room_[static_cast<std::size_t>(taken.resource) * width + static_cast<std::size_t>(t)] -=
            taken.count;
    for (const Task& task : p_.tasks) options_.push_back(Options{p_, task}.take());
  }

  Exhausted run() {
    Left left(p_.tasks.size());
    for (std::size_t i = 0; i < left.size(); ++i)
      for (const Option& o : options_[i])
        if (fits(o) && keeps_lags(i, o, i, o)) left[i].push_back(&o);
    branch(left, {});
    if (out_.nodes > kMostNodes) return {Exhausted::Status::too_large, std::nullopt, out_.nodes};
    out_.status = out_.best ? Exhausted::Status::optimal : Exhausted::Status::infeasible;
    return std::move(out_);
  }

 private:
  using Left = std::vector<std::vector<const Option*>>;  // of each task, beside those chosen

  bool fits(const Option& o) const {
    for (std::size_t c = 0; c < room_.size(); ++c)
      if (o.used[c] > 0 && o.used[c] > room_[c]) return false;
    return true;
  }

  bool keeps_lags(std::size_t i, const Option& a, std::size_t j, const Option& b) const {
    for (const Lag& lag : p_.lags) {
      const auto from = static_cast<std::size_t>(lag.from), to = static_cast<std::size_t>(lag.to);
      const auto keeps = [&](const Option& first, const Option& second) {
        return second.start >=
               (lag.after == Lag::After::start ? first.start : first.ready) + lag.ticks;
      };
      if (from == i && to == j && !keeps(a, b)) return false;
      if (from == j && to == i && !keeps(b, a)) return false;
    }
    return true;
  }

  // The least that the open tasks can add, each alone.
  static Cost at_least(Cost cost, const Left& left, const std::vector<const Option*>& chosen) {
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (chosen[i]) continue;
      std::int64_t late = left[i].front()->late, disturbed = left[i].front()->disturbed;
      Tick ready = left[i].front()->ready;
      for (const Option* o : left[i]) {
        late = std::min(late, o->late);
        disturbed = std::min(disturbed, o->disturbed);
        ready = std::min(ready, o->ready);
      }
      cost = plus(cost, late, disturbed, ready);
    }
    return cost;
  }
  static Cost plus(const Cost& cost, std::int64_t late, std::int64_t disturbed, Tick ready) {
    return {cost.late + late, cost.disturbed + disturbed,
            std::max<std::int64_t>(cost.makespan, ready)};
  }

  void branch(const Left& left, Cost cost) {
    if (++out_.nodes > kMostNodes) return;
    std::size_t next = left.size();  // the open task with the fewest options
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (chosen_[i]) continue;
      if (left[i].empty()) return;
      if (next == left.size() || left[i].size() < left[next].size()) next = i;
    }
    if (next == left.size()) {
      if (out_.best && cost >= out_.best->cost) return;
      out_.best.emplace();
      for (const Option* o : chosen_) out_.best->tasks.push_back(o->placed);
      out_.best->cost = cost;
      return;
    }
    if (out_.best && at_least(cost, left, chosen_) >= out_.best->cost) return;
    for (const Option* o : left[next]) {
      chosen_[next] = o;
      for (std::size_t c = 0; c < room_.size(); ++c) room_[c] -= o->used[c];
      Left rest(left.size());
      for (std::size_t i = 0; i < left.size(); ++i) {
        if (chosen_[i]) continue;
        for (const Option* other : left[i])
          if (fits(*other) && keeps_lags(next, *o, i, *other)) rest[i].push_back(other);
      }
      branch(rest, plus(cost, o->late, o->disturbed, o->ready));
      for (std::size_t c = 0; c < room_.size(); ++c) room_[c] += o->used[c];
      chosen_[next] = nullptr;
    }
  }

  const Problem& p_;
  std::vector<int> room_;  // capacity less taken less chosen
  std::vector<std::vector<Option>> options_;
  std::vector<const Option*> chosen_;
  Exhausted out_;
};

}  // namespace

Exhausted try_everything(const Problem& problem) {
  CHECK(problem.horizon > 0 && problem.horizon <= kMostHorizon);
  for (const Task& task : problem.tasks) CHECK(task.earliest >= 0);
  return Search{problem}.run();
}

}  // namespace squeezeout::schedule::testing
