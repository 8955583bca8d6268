#include "common/schedule/generate_place.h"

#include <algorithm>
#include <limits>

namespace squeezeout::schedule {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

int used(const Part& part, int resource) {
  int count = 0;
  for (const Use& use : part.uses) count += use.resource == resource ? use.count : 0;
  return count;
}

// Needs met from resources, each need's shortfall moved along to where there is more (augmenting paths).
class Mixer {
 public:
  Mixer(const std::vector<Need>& needs, std::vector<int> free)
      : needs_(needs), free_(std::move(free)), given_(needs.size()), seen_(free_.size()) {
    for (std::size_t q = 0; q < needs.size(); ++q) given_[q].resize(needs[q].resources.size());
  }

  Mix run() {
    std::vector<std::size_t> by_choice(needs_.size());  // who has the fewest to choose from first
    for (std::size_t q = 0; q < by_choice.size(); ++q) by_choice[q] = q;
    std::stable_sort(by_choice.begin(), by_choice.end(), [&](std::size_t a, std::size_t b) {
      return needs_[a].resources.size() < needs_[b].resources.size();
    });
    for (const std::size_t q : by_choice) {
      for (int left = needs_[q].count; left > 0;) {
        std::fill(seen_.begin(), seen_.end(), 0);
        const int got = more(q, left);
        if (got == 0) return {{}, short_of()};
        left -= got;
      }
    }
    std::vector<int> sum(free_.size());
    for (std::size_t q = 0; q < needs_.size(); ++q)
      for (std::size_t k = 0; k < given_[q].size(); ++k)
        sum[at(needs_[q].resources[k])] += given_[q][k];
    Mix mixed;
    for (std::size_t r = 0; r < sum.size(); ++r)
      if (sum[r] > 0) mixed.held.push_back({static_cast<int>(r), sum[r]});
    return mixed;
  }

 private:
  // Gives need q up to `most` more; how many it got.
  int more(std::size_t q, int most) {
    const std::vector<int>& resources = needs_[q].resources;
    for (std::size_t k = 0; k < resources.size(); ++k) {
      const std::size_t r = at(resources[k]);
      if (free_[r] <= 0) continue;
      const int got = std::min(most, free_[r]);
      free_[r] -= got;
      given_[q][k] += got;
      return got;
    }
    for (std::size_t k = 0; k < resources.size(); ++k) {
      const std::size_t r = at(resources[k]);
      if (seen_[r]) continue;
      seen_[r] = 1;
      for (std::size_t other = 0; other < needs_.size(); ++other) {
        const std::vector<int>& theirs = needs_[other].resources;
        for (std::size_t j = 0; j < theirs.size(); ++j) {
          if (at(theirs[j]) != r || given_[other][j] == 0) continue;
          const int got = more(other, std::min(most, given_[other][j]));
          if (got == 0) continue;
          given_[other][j] -= got;
          given_[q][k] += got;
          return got;
        }
      }
    }
    return 0;
  }

  std::vector<int> short_of() const {
    std::vector<int> resources;
    for (std::size_t r = 0; r < seen_.size(); ++r)
      if (seen_[r]) resources.push_back(static_cast<int>(r));
    return resources;
  }

  const std::vector<Need>& needs_;
  std::vector<int> free_;
  std::vector<std::vector<int>> given_;  // by need, by its resources
  std::vector<char> seen_;
};

class Placer {
 public:
  Placer(const Problem& problem, const Timetable& timetable, const Mode& mode)
      : problem_(problem), timetable_(timetable), mode_(mode), begins_(mode.parts.size()) {}

  std::optional<Placed> run(Tick from) {
    std::vector<int> free(problem_.capacity.size());
    for (Tick start = from; start < problem_.horizon;) {
      if (!lay(start)) return std::nullopt;
      start = begins_.front();
      const Window span{start, end()};
      if (mode_.held.empty()) return done({});
      std::fill(free.begin(), free.end(), -1);
      for (const Need& need : mode_.held)
        for (const int r : need.resources)
          if (free[at(r)] < 0) free[at(r)] = std::max(0, lowest(r, span).free);
      Mix mixed = mix(mode_.held, free);
      if (mixed.short_of.empty()) return done(std::move(mixed.held));
      // Before the lowest stretch of one of them is behind it, none has more.
      Tick later = kFar;
      for (const int r : mixed.short_of) later = std::min(later, lowest(r, span).until);
      start = std::max(start + 1, later);
    }
    return std::nullopt;
  }

 private:
  Tick length(std::size_t p, Tick begin) const { return mode_.parts[p].length_at(begin); }
  Tick end() const { return begins_.back() + length(begins_.size() - 1, begins_.back()); }

  std::optional<Placed> done(std::vector<Use> held) {
    if (end() > problem_.horizon) return std::nullopt;
    return Placed{0, std::move(begins_), std::move(held)};
  }

  // What is free for holding, the task's own uses on top of it set apart.
  Timetable::Low lowest(int resource, Window span) const {
    Timetable::Low low = timetable_.lowest(resource, span);
    for (std::size_t p = 0; p < begins_.size(); ++p) {
      const int own = used(mode_.parts[p], resource);
      if (own == 0) continue;
      Timetable::Low part =
          timetable_.lowest(resource, {begins_[p], begins_[p] + length(p, begins_[p])});
      part.free -= own;
      low = {std::min(low.free, part.free), std::min(low.until, part.until)};
    }
    return low;
  }

  // All parts from `start` on; false when they do not fit before the horizon.
  bool lay(Tick start) {
    Tick from = start;
    for (std::size_t first = 0; first < begins_.size();) {
      std::size_t last = first + 1;
      while (last < begins_.size() && mode_.parts[last].joins == Part::Joins::at_once) ++last;
      if (!lay_run(first, last, from)) return false;
      from = begins_[last - 1] + length(last - 1, begins_[last - 1]);
      first = last;
    }
    return true;
  }

  // Parts [first, last), one at once after another, not before `from`.
  bool lay_run(std::size_t first, std::size_t last, Tick from) {
    while (from < problem_.horizon) {
      if (first == 0) from = next_allowed(mode_, from);
      Tick begin = from;
      std::size_t p = first;
      for (; p < last; ++p) {
        const Tick fits = fit(mode_.parts[p], begin);
        if (fits == kFar) return false;
        if (fits != begin) {
          from = first_reaching(first, p, from + 1, fits);
          break;
        }
        begins_[p] = begin;
        begin += length(p, begin);
      }
      if (p == last) return begin <= problem_.horizon;
    }
    return false;
  }

  // The earliest begin >= from by the part's calendar and uses.
  Tick fit(const Part& part, Tick from) const {
    for (Tick begin = next_open(problem_, part, from); begin <= problem_.horizon;) {
      const Window span{begin, begin + part.length_at(begin)};
      Tick free = begin;
      for (const Use& use : part.uses)
        free =
            std::max(free, timetable_.blocked_until(use.resource, used(part, use.resource), span));
      if (free == begin) return begin;
      begin = next_open(problem_, part, free);
    }
    return kFar;
  }

  // The first start >= least from which parts [first, p) end at or after `end`: it never falls as the start grows.
  Tick first_reaching(std::size_t first, std::size_t p, Tick least, Tick end) const {
    const auto ends = [&](Tick begin) {
      for (std::size_t k = first; k < p; ++k) begin += length(k, begin);
      return begin;
    };
    Tick low = least, high = std::max(least, end);
    while (low < high) {
      const Tick middle = low + (high - low) / 2;
      if (ends(middle) >= end)
        high = middle;
      else
        low = middle + 1;
    }
    return low;
  }

  const Problem& problem_;
  const Timetable& timetable_;
  const Mode& mode_;
  std::vector<Tick> begins_;
};

}  // namespace

Mix mix(const std::vector<Need>& needs, const std::vector<int>& free) {
  return Mixer{needs, free}.run();
}

std::optional<Placed> place(const Problem& problem, const Timetable& timetable, const Mode& mode,
                            Tick from) {
  return Placer{problem, timetable, mode}.run(from);
}

}  // namespace squeezeout::schedule
