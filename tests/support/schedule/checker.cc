#include "tests/support/schedule/checker.h"

#include <algorithm>
#include <set>
#include <sstream>

namespace squeezeout::schedule::testing {
namespace {

template <class... Words>
std::string say(const Words&... words) {
  std::ostringstream out;
  (out << ... << words);
  return out.str();
}

// What a placed task is, worked out once by the judge's own arithmetic.
struct Seen {
  const Mode* mode = nullptr;
  Tick start = 0, end = 0, ready = 0;
  std::vector<Window> parts;
};

class Judge {
 public:
  Judge(const Problem& problem, const Schedule& schedule) : p_(problem), s_(schedule) {}

  std::vector<std::string> run() {
    if (s_.tasks.size() != p_.tasks.size()) {
      fault("places ", s_.tasks.size(), " tasks of ", p_.tasks.size());
      return faults_;
    }
    for (std::size_t i = 0; i < p_.tasks.size(); ++i) see(i);
    if (!faults_.empty()) return faults_;  // without its shape nothing else can be said
    for (std::size_t i = 0; i < p_.tasks.size(); ++i) {
      check_times(i);
      check_held(i);
    }
    check_lags();
    if (faults_.empty()) check_capacity();  // resources that there are not have no count
    check_cost();
    return faults_;
  }

 private:
  template <class... Words>
  void fault(const Words&... words) {
    faults_.push_back(say(words...));
  }

  void see(std::size_t i) {
    seen_.emplace_back();
    const Placed& placed = s_.tasks[i];
    const auto& modes = p_.tasks[i].modes;
    if (placed.mode < 0 || placed.mode >= static_cast<int>(modes.size()))
      return fault("task ", i, " is done in mode ", placed.mode, ", which it has not");
    const Mode& mode = modes[static_cast<std::size_t>(placed.mode)];
    if (placed.begins.size() != mode.parts.size())
      return fault("task ", i, " has ", placed.begins.size(), " begins for ", mode.parts.size(),
                   " parts");
    Seen& seen = seen_.back();
    seen.mode = &mode;
    for (std::size_t k = 0; k < mode.parts.size(); ++k) {
      const Part& part = mode.parts[k];
      const Tick begin = placed.begins[k];
      seen.parts.push_back(
          {begin, begin + (part.by_begin ? part.by_begin->at(begin) : part.length)});
    }
    seen.start = seen.parts.front().begin;
    seen.end = seen.ready = seen.parts.back().end;
    if (mode.wait) {
      const Tick from = seen.parts.at(static_cast<std::size_t>(mode.wait->from_part)).begin;
      const Tick wait = mode.wait->by_begin ? mode.wait->by_begin->at(from) : mode.wait->length;
      seen.ready = std::max(seen.ready, from + wait);
    }
  }

  void check_times(std::size_t i) {
    const Task& task = p_.tasks[i];
    const Seen& seen = seen_[i];
    for (std::size_t k = 0; k < seen.parts.size(); ++k) {
      const Part& part = seen.mode->parts[k];
      const Window& at = seen.parts[k];
      if (k > 0) {
        const Tick before = seen.parts[k - 1].end;
        if (part.joins == Part::Joins::at_once && at.begin != before)
          fault("task ", i, " part ", k, " begins at ", at.begin, ", not at once at ", before);
        if (part.joins == Part::Joins::elastic && at.begin < before)
          fault("task ", i, " part ", k, " begins at ", at.begin,
                ", before the end of the part before at ", before);
      }
      if (at.end > p_.horizon)
        fault("task ", i, " part ", k, " ends at ", at.end, ", after the horizon");
      if (part.calendar >= 0) {
        // A part of no length has a moment, which must be open as well.
        const auto& open = p_.calendars.at(static_cast<std::size_t>(part.calendar)).open;
        const bool lies = std::any_of(open.begin(), open.end(), [&](const Window& w) {
          return w.begin <= at.begin && at.begin < w.end && at.end <= w.end;
        });
        if (!lies)
          fault("task ", i, " part ", k, " lies at ", at.begin, "..", at.end,
                ", not within one open window of calendar ", part.calendar);
      }
    }
    if (seen.start < task.earliest || seen.start > task.latest)
      fault("task ", i, " starts at ", seen.start, ", outside its earliest and latest");
    const auto& starts = seen.mode->starts;
    if (!starts.empty() && std::none_of(starts.begin(), starts.end(), [&](const Window& w) {
          return w.begin <= seen.start && seen.start < w.end;
        }))
      fault("task ", i, " starts at ", seen.start, ", outside the windows of its mode's starts");
  }

  // The pieces held can be dealt to the needs exactly: no piece is left over, and each set of needs finds enough among the
  // resources that are good enough for any of them (Hall's theorem: then all of them do at once).
  void check_held(std::size_t i) {
    const auto& held = s_.tasks[i].held;
    const auto& needs = seen_[i].mode->held;
    long pieces = 0, wanted = 0;
    for (std::size_t k = 0; k < held.size(); ++k) {
      if (held[k].resource < 0 || held[k].resource >= static_cast<int>(p_.capacity.size()))
        return fault("task ", i, " holds of resource ", held[k].resource, ", which is none");
      if (held[k].count <= 0) fault("task ", i, " holds ", held[k].count, " pieces");
      if (k > 0 && held[k].resource <= held[k - 1].resource)
        fault("task ", i, " does not name what it holds by resource, each once, in order");
      pieces += held[k].count;
    }
    for (const Need& need : needs) wanted += need.count;
    if (pieces != wanted)
      return fault("task ", i, " holds ", pieces, " pieces, needed are ", wanted);
    for (std::size_t set = 0; set < std::size_t{1} << needs.size(); ++set) {
      std::set<int> good;
      long asked = 0, found = 0;
      for (std::size_t n = 0; n < needs.size(); ++n) {
        if (!(set >> n & 1)) continue;
        asked += needs[n].count;
        good.insert(needs[n].resources.begin(), needs[n].resources.end());
      }
      for (const Use& use : held)
        if (good.contains(use.resource)) found += use.count;
      if (found < asked)
        return fault("task ", i, " holds ", found, " pieces that are good enough where ", asked,
                     " are needed");
    }
  }

  void check_lags() {
    for (const Lag& lag : p_.lags) {
      const Seen& from = seen_.at(static_cast<std::size_t>(lag.from));
      const Seen& to = seen_.at(static_cast<std::size_t>(lag.to));
      const Tick after = lag.after == Lag::After::start ? from.start : from.ready;
      if (to.start < after + lag.ticks)
        fault("task ", lag.to, " starts at ", to.start, ", the lag of ", lag.ticks, " after the ",
              lag.after == Lag::After::start ? "start" : "ready", " of task ", lag.from, " at ",
              after, " forbids it");
    }
  }

  // At each moment at which anything begins to be in use. A resource of which too much is taken already is no fault of a
  // schedule that uses none of it meanwhile.
  void check_capacity() {
    struct InUse {
      Use use;
      Window span;
    };
    std::vector<InUse> all;
    std::set<Tick> moments;
    const auto put = [&](Use use, Window span) {
      all.push_back({use, span});
      moments.insert(span.begin);
    };
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      for (const Use& use : s_.tasks[i].held) put(use, {seen_[i].start, seen_[i].end});
      for (std::size_t k = 0; k < seen_[i].parts.size(); ++k)
        for (const Use& use : seen_[i].mode->parts[k].uses) put(use, seen_[i].parts[k]);
    }
    for (const Taken& taken : p_.taken) moments.insert(taken.span.begin);
    for (const Tick at : moments) {
      const auto runs = [&](const Window& w) { return w.begin <= at && at < w.end; };
      std::vector<long> used(p_.capacity.size()), taken(p_.capacity.size());
      for (const InUse& one : all)
        if (runs(one.span)) used.at(static_cast<std::size_t>(one.use.resource)) += one.use.count;
      for (const Taken& one : p_.taken)
        if (runs(one.span)) taken.at(static_cast<std::size_t>(one.resource)) += one.count;
      for (std::size_t r = 0; r < used.size(); ++r)
        if (used[r] > 0 && used[r] + taken[r] > p_.capacity[r])
          fault("at ", at, " ", used[r], " of resource ", r, " are in use and ", taken[r],
                " taken, there are ", p_.capacity[r]);
    }
  }

  void check_cost() {
    std::int64_t late = 0, disturbed = 0, makespan = 0;
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      const Task& task = p_.tasks[i];
      const Seen& seen = seen_[i];
      if (seen.ready > task.due)
        late += static_cast<std::int64_t>(task.weight) * (seen.ready - task.due);
      disturbed += seen.mode->penalty;
      if (task.announced && seen.start != *task.announced)
        disturbed += 1'000'000'000 + std::abs(std::int64_t{seen.start} - *task.announced);
      makespan = std::max<std::int64_t>(makespan, seen.ready);
    }
    const Cost& said = s_.cost;
    if (said.late != late) fault("says lateness ", said.late, ", it is ", late);
    if (said.disturbed != disturbed)
      fault("says disturbance ", said.disturbed, ", it is ", disturbed);
    if (said.makespan != makespan) fault("says makespan ", said.makespan, ", it is ", makespan);
  }

  const Problem& p_;
  const Schedule& s_;
  std::vector<Seen> seen_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faults_of(const Problem& problem, const Schedule& schedule) {
  return Judge{problem, schedule}.run();
}

}  // namespace squeezeout::schedule::testing
