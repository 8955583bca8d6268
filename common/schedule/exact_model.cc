#include "common/schedule/exact_model.h"

#include <algorithm>
#include <map>

namespace squeezeout::schedule::exact {
namespace {

// Where a schedule can end at the latest. Where nothing hangs on the hour, what runs after a gap in which nothing runs or waits
// can be drawn forward: some best schedule has no gap after all that is announced.
Tick horizon_of(const Problem& problem) {
  std::int64_t end = 0;
  for (const Task& task : problem.tasks) {
    end = std::max<std::int64_t>({end, task.earliest, task.announced.value_or(0)});
    for (const Mode& mode : task.modes) {
      if (!mode.starts.empty() || (mode.wait && mode.wait->by_begin)) return problem.horizon;
      for (const Part& part : mode.parts)
        if (part.by_begin || part.calendar >= 0) return problem.horizon;
    }
  }
  for (const Taken& taken : problem.taken) end = std::max<std::int64_t>(end, taken.span.end);
  std::vector<std::array<std::int64_t, 2>> reach(problem.tasks.size(), {0, 0});
  for (const Lag& lag : problem.lags) {
    auto& most = reach[static_cast<std::size_t>(lag.from)][lag.after == Lag::After::start ? 0 : 1];
    most = std::max<std::int64_t>(most, lag.ticks);
  }
  for (std::size_t i = 0; i < problem.tasks.size(); ++i) {
    std::int64_t longest = 0;
    for (const Mode& mode : problem.tasks[i].modes) {
      std::int64_t length = mode.wait ? mode.wait->length : 0;
      for (const Part& part : mode.parts) length += part.length;
      longest = std::max(longest, length);
    }
    end += longest + reach[i][0] + reach[i][1];
  }
  return static_cast<Tick>(std::min<std::int64_t>(problem.horizon, end));
}

// The last begin in [from, to] whose end is not after `limit`; before `from`: none.
Tick last_begin(const Part& part, Tick from, Tick to, Tick limit) {
  if (!part.by_begin) return std::max(from - 1, std::min(to, limit - part.length));
  Tick low = from - 1, high = to;
  while (low < high) {
    const Tick middle = low + (high - low + 1) / 2;
    if (middle + part.length_at(middle) <= limit)
      low = middle;
    else
      high = middle - 1;
  }
  return low;
}

// Where the part can begin within [from, to]: open, and done by the horizon.
Runs begins_of(const Problem& problem, const Part& part, Tick from, Tick to, Tick horizon) {
  Runs runs;
  const auto add = [&](Tick first, Tick last, Tick limit) {
    if (first > last) return;
    const Tick until = last_begin(part, first, last, limit);
    if (first <= until) runs.push_back({first, until});
  };
  if (part.calendar < 0) {
    add(from, to, horizon);
  } else {
    for (const Window& open : problem.calendars[static_cast<std::size_t>(part.calendar)].open)
      add(std::max(from, open.begin), std::min(to, open.end - 1), std::min(open.end, horizon));
  }
  return runs;
}

Runs both(const Runs& a, const Runs& b) {
  Runs runs;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    const Run run{std::max(a[i].first, b[j].first), std::min(a[i].last, b[j].last)};
    if (run.first <= run.last) runs.push_back(run);
    a[i].last < b[j].last ? ++i : ++j;
  }
  return runs;
}

}  // namespace

Model::Model(const Problem& problem, const Bounds& bounds)
    : problem_(problem),
      horizon_(horizon_of(problem)),
      zero_(engine.add_variable(0, 0)),
      holdings_(problem.capacity.size()) {
  for (std::size_t i = 0; i < problem.tasks.size(); ++i)
    vars_.push_back(
        add_task(problem.tasks[i], bounds.earliest[i], std::min(bounds.latest[i], horizon_)));
  for (const Lag& lag : problem.lags) {
    const TaskVars& from = vars_[static_cast<std::size_t>(lag.from)];
    engine.add_edge(lag.after == Lag::After::start ? from.start : from.ready,
                    vars_[static_cast<std::size_t>(lag.to)].start, lag.ticks);
  }
  Tick most = 0;
  for (const TaskVars& vars : vars_) most = std::max(most, engine.most(vars.ready));
  makespan = {engine.add_variable(0, most)};
  for (const TaskVars& vars : vars_) engine.add_edge(vars.ready, makespan, 0);
  add_taken();
  add_costs();
  add_energy();
  ordered_ = add_orders(engine, problem.capacity, holdings_);
  for (std::size_t r = 0; r < holdings_.size(); ++r) {
    if (holdings_[r].empty()) continue;
    auto timetable = std::make_unique<Timetable>(problem.capacity[r], std::move(holdings_[r]));
    const std::vector<Pred> wakes = timetable->wakes();
    engine.add_propagator(std::move(timetable), wakes, Engine::Urgency::late);
  }
  for (const TaskVars& vars : vars_) add_picks(vars);
  for (Var var = 0; var < engine.variables(); ++var) last.push_back({var});
}

Model::TaskVars Model::add_task(const Task& task, Tick earliest, Tick latest) {
  TaskVars vars;
  if (task.modes.size() == 1) {
    vars.modes.push_back(add_mode(task.modes.front(), earliest, latest, {}));
    const ModeVars& mode = vars.modes.front();
    if (mode.begins.empty()) engine.add_clause({});
    vars.start = mode.begins.empty() ? constant(earliest) : mode.begins.front();
  } else {
    vars.start = {engine.add_variable(earliest, std::max(earliest, latest))};
    std::vector<Pred> any;
    for (const Mode& mode : task.modes) {
      const Pred chosen = at_least(View{engine.add_variable(0, 1)}, 1);
      vars.modes.push_back(add_mode(mode, earliest, latest, chosen));
      if (vars.modes.back().begins.empty())
        engine.add_clause({!chosen});
      else
        follow({.from = vars.start,
                .after = vars.modes.back().begins.front(),
                .how = Follows::How::exactly,
                .when = chosen});
      for (const Pred& other : any) engine.add_clause({!other, !chosen});
      any.push_back(chosen);
    }
    engine.add_clause(any);
  }
  add_ready(task, vars);
  return vars;
}

Model::ModeVars Model::add_mode(const Mode& mode, Tick earliest, Tick latest,
                                std::optional<Pred> chosen) {
  ModeVars vars;
  vars.chosen = chosen;
  if (!add_begins(mode, earliest, latest, vars) || !add_uses(mode, vars)) vars.begins.clear();
  return vars;
}

bool Model::add_begins(const Mode& mode, Tick earliest, Tick latest, ModeVars& vars) {
  std::vector<Runs> runs;                        // of each variable
  std::vector<std::pair<std::size_t, Tick>> at;  // of each part: its variable, how far after it
  for (std::size_t p = 0; p < mode.parts.size(); ++p) {
    const Part& part = mode.parts[p];
    Runs begins = begins_of(problem_, part, earliest, p == 0 ? latest : horizon_, horizon_);
    if (p == 0 && !mode.starts.empty()) {
      Runs starts;
      for (const Window& window : mode.starts)
        if (window.begin < window.end) starts.push_back({window.begin, window.end - 1});
      begins = both(begins, starts);
    }
    const bool fresh = p == 0 || part.joins == Part::Joins::elastic || mode.parts[p - 1].by_begin;
    at.push_back(fresh ? std::pair{runs.size(), Tick{0}}
                       : std::pair{at.back().first, at.back().second + mode.parts[p - 1].length});
    if (fresh) {
      runs.push_back(std::move(begins));
    } else {
      for (Run& run : begins) run = {run.first - at.back().second, run.last - at.back().second};
      runs.back() = both(runs.back(), begins);
    }
  }
  std::vector<View> views;
  for (const Runs& each : runs) {
    if (each.empty()) return false;
    views.push_back({engine.add_variable(each.front().first, each.back().last)});
    if (each.size() == 1) continue;
    auto allowed = std::make_unique<Allowed>(views.back(), each);
    const std::vector<Pred> wakes = allowed->wakes();
    engine.add_propagator(std::move(allowed), wakes, Engine::Urgency::soon);
  }
  for (std::size_t p = 0; p < mode.parts.size(); ++p) {
    vars.begins.push_back(views[at[p].first] + at[p].second);
    if (p == 0 || at[p].first == at[p - 1].first) continue;
    const Part& before = mode.parts[p - 1];
    follow({.from = vars.begins[p - 1],
            .after = vars.begins[p],
            .length = before.length,
            .by_begin = before.by_begin,
            .how = mode.parts[p].joins == Part::Joins::elastic ? Follows::How::not_before
                                                               : Follows::How::exactly,
            .when = vars.chosen});
  }
  return true;
}

void Model::follow(Follows::Rule rule) {
  if (!rule.when && !rule.by_begin && rule.how == Follows::How::not_before) {
    engine.add_edge(rule.from, rule.after, rule.length);
    return;
  }
  auto follows = std::make_unique<Follows>(std::move(rule));
  const std::vector<Pred> wakes = follows->wakes();
  engine.add_propagator(std::move(follows), wakes, Engine::Urgency::soon);
}

View Model::end_of_part(const Part& part, View begin, std::optional<Pred> chosen) {
  if (!part.by_begin) return begin + part.length;
  const Tick least = engine.least(begin), most = engine.most(begin);
  const View end{engine.add_variable(least + part.length_at(least), most + part.length_at(most))};
  follow({.from = begin,
          .after = end,
          .by_begin = part.by_begin,
          .how = Follows::How::exactly,
          .when = chosen});
  return end;
}

bool Model::hold(int resource, const Holding& holding) {
  const bool rigid = holding.begin.var == holding.end.var;
  if (rigid && holding.begin.off == holding.end.off) return true;
  const auto r = static_cast<std::size_t>(resource);
  if (rigid && engine.least(holding.count) > problem_.capacity[r]) return false;
  if (engine.most(holding.count) > 0) holdings_[r].push_back(holding);
  return true;
}

bool Model::add_uses(const Mode& mode, ModeVars& vars) {
  for (std::size_t p = 0; p < mode.parts.size(); ++p) {
    const Part& part = mode.parts[p];
    if (part.uses.empty() && p + 1 < mode.parts.size()) continue;
    vars.end = end_of_part(part, vars.begins[p], vars.chosen);
    for (const Use& use : part.uses)
      if (!hold(use.resource, {vars.begins[p], vars.end, constant(use.count), vars.chosen}))
        return false;
  }
  for (const Need& need : mode.held) {
    NeedVars counts{need.resources, {}};
    std::vector<Var> sum;
    for (std::size_t r = 0; r < need.resources.size(); ++r) {
      if (need.resources.size() == 1) {
        counts.counts.push_back(constant(need.count));
      } else {
        sum.push_back(engine.add_variable(0, need.count));
        counts.counts.push_back({sum.back()});
      }
      if (!hold(need.resources[r],
                {vars.begins.front(), vars.end, counts.counts.back(), vars.chosen}))
        return false;
    }
    if (!sum.empty()) {
      auto add_up = std::make_unique<AddUp>(std::move(sum), need.count);
      const std::vector<Pred> wakes = add_up->wakes();
      engine.add_propagator(std::move(add_up), wakes, Engine::Urgency::soon);
    }
    vars.needs.push_back(std::move(counts));
  }
  return true;
}

void Model::add_ready(const Task& task, TaskVars& vars) {
  std::vector<Follows::Rule> rules;
  for (std::size_t m = 0; m < task.modes.size(); ++m) {
    const ModeVars& mode = vars.modes[m];
    if (mode.begins.empty()) continue;
    rules.push_back({.from = mode.end, .when = mode.chosen});
    if (const auto& wait = task.modes[m].wait)
      rules.push_back({.from = mode.begins[static_cast<std::size_t>(wait->from_part)],
                       .length = wait->length,
                       .by_begin = wait->by_begin,
                       .when = mode.chosen});
  }
  vars.ready = constant(0);
  if (rules.empty()) return;
  const auto rigid = [&](const Follows::Rule& rule) {
    return !rule.when && !rule.by_begin && rule.from.var == rules.front().from.var;
  };
  if (std::all_of(rules.begin(), rules.end(), rigid)) {
    vars.ready = rules.front().from;
    for (const Follows::Rule& rule : rules)
      vars.ready.off = std::max(vars.ready.off, rule.from.off + rule.length);
    return;
  }
  Tick least = kFar, most = -kFar;
  for (const Follows::Rule& rule : rules) {
    const auto reached = [&](Tick from) {
      return from + (rule.by_begin ? rule.by_begin->at(from) : rule.length);
    };
    least = std::min(least, reached(engine.least(rule.from)));
    most = std::max(most, reached(engine.most(rule.from)));
  }
  vars.ready = {engine.add_variable(least, most)};
  for (Follows::Rule& rule : rules) {
    rule.after = vars.ready;
    follow(std::move(rule));
  }
  engine.add_edge(vars.start, vars.ready, least_length(task));
}

// What is taken, in stretches apart; more than there is counts as all there is.
void Model::add_taken() {
  std::vector<std::map<Tick, int>> change(holdings_.size());
  for (const Taken& taken : problem_.taken) {
    if (taken.span.begin >= taken.span.end) continue;
    auto& of = change[static_cast<std::size_t>(taken.resource)];
    of[taken.span.begin] += taken.count;
    of[taken.span.end] -= taken.count;
  }
  for (std::size_t r = 0; r < change.size(); ++r) {
    int count = 0;
    for (auto it = change[r].begin(); it != change[r].end(); ++it) {
      count += it->second;
      const int counted = std::min(count, problem_.capacity[r]);
      if (counted > 0)
        holdings_[r].push_back(
            {constant(it->first), constant(std::next(it)->first), constant(counted), {}});
    }
  }
}

void Model::add_picks(const TaskVars& vars) {
  TaskPicks picks{vars.start, {}};
  for (const ModeVars& mode : vars.modes)
    if (mode.chosen) picks.picks.push_back({mode.chosen->side / 2, Pick::Toward::most});
  picks.picks.push_back({vars.start.var});
  for (const ModeVars& mode : vars.modes) {
    for (const View& begin : mode.begins)
      if (begin.var != picks.picks.back().var) picks.picks.push_back({begin.var});
    for (const NeedVars& need : mode.needs)
      for (const View& count : need.counts)
        if (count.var != zero_) picks.picks.push_back({count.var, Pick::Toward::most});
  }
  tasks.push_back(std::move(picks));
}

void Model::add_costs() {
  std::vector<Lateness::Term> late;
  std::vector<Disturbance::Term> disturbed;
  for (std::size_t i = 0; i < vars_.size(); ++i) {
    const Task& task = problem_.tasks[i];
    if (task.weight > 0 && task.due < kFar) late.push_back({vars_[i].ready, task.due, task.weight});
    Disturbance::Term term{vars_[i].start, task.announced, {}};
    int most = 0;
    for (std::size_t m = 0; m < task.modes.size(); ++m) {
      term.ways.push_back({vars_[i].modes[m].chosen, task.modes[m].penalty});
      most = std::max(most, task.modes[m].penalty);
    }
    if (task.announced || most > 0) disturbed.push_back(std::move(term));
  }
  constexpr std::int64_t kAny = std::int64_t{1} << 60;
  if (!late.empty()) {
    auto lateness = std::make_unique<Lateness>(std::move(late), kAny);
    lateness_ = lateness.get();
    const std::vector<Pred> wakes = lateness_->wakes();
    lateness_index_ = engine.add_propagator(std::move(lateness), wakes, Engine::Urgency::late);
  }
  if (!disturbed.empty()) {
    auto disturbance = std::make_unique<Disturbance>(std::move(disturbed), kAny);
    disturbance_ = disturbance.get();
    const std::vector<Pred> wakes = disturbance_->wakes();
    disturbance_index_ =
        engine.add_propagator(std::move(disturbance), wakes, Engine::Urgency::late);
  }
}

// A resource has so many piece-ticks to give from the first start on: the makespan is not less.
void Model::add_energy() {
  std::vector<std::int64_t> energy(holdings_.size(), 0);
  Tick first = kFar;
  for (const TaskVars& vars : vars_) first = std::min(first, engine.least(vars.start));
  for (std::size_t r = 0; r < holdings_.size(); ++r) {
    for (const Holding& holding : holdings_[r]) {
      if (holding.when || holding.begin.var != holding.end.var || holding.begin.var == zero_)
        continue;
      energy[r] += std::int64_t{holding.end.off - holding.begin.off} * engine.least(holding.count);
    }
    if (energy[r] == 0 || problem_.capacity[r] <= 0) continue;
    const std::int64_t capacity = problem_.capacity[r];
    const std::int64_t least = first + (energy[r] + capacity - 1) / capacity;
    engine.add_clause({at_least(makespan, static_cast<Tick>(std::min<std::int64_t>(least, kFar)))});
  }
}

Schedule Model::read() const {
  Schedule schedule;
  for (const TaskVars& vars : vars_) {
    Placed placed;
    std::size_t m = 0;
    while (vars.modes[m].chosen && !engine.holds(*vars.modes[m].chosen)) ++m;
    const ModeVars& mode = vars.modes[m];
    placed.mode = static_cast<int>(m);
    for (const View& begin : mode.begins) placed.begins.push_back(engine.least(begin));
    std::map<int, int> held;
    for (const NeedVars& need : mode.needs)
      for (std::size_t r = 0; r < need.resources.size(); ++r)
        if (const int count = engine.least(need.counts[r]); count > 0)
          held[need.resources[r]] += count;
    for (const auto& [resource, count] : held) placed.held.push_back({resource, count});
    schedule.tasks.push_back(std::move(placed));
  }
  schedule.cost = cost_of(problem_, schedule.tasks);
  return schedule;
}

std::vector<Tick> Model::values_of(const Schedule& schedule) const {
  std::vector<Tick> values(engine.variables(), kFar);
  const auto say = [&](View view, Tick tick) { values[view.var] = tick - view.off; };
  for (std::size_t i = 0; i < vars_.size(); ++i) {
    const Placed& placed = schedule.tasks[i];
    const auto chosen = static_cast<std::size_t>(placed.mode);
    const TaskVars& vars = vars_[i];
    for (std::size_t m = 0; m < vars.modes.size(); ++m)
      if (vars.modes[m].chosen) values[vars.modes[m].chosen->side / 2] = m == chosen ? 1 : 0;
    const ModeVars& mode = vars.modes[chosen];
    if (mode.begins.empty()) continue;
    say(vars.ready, ready_of(problem_.tasks[i].modes[chosen], placed));
    say(vars.start, placed.start());
    for (std::size_t p = 0; p < mode.begins.size(); ++p) say(mode.begins[p], placed.begins[p]);
    if (mode.needs.size() != 1) continue;
    const NeedVars& need = mode.needs.front();
    for (std::size_t r = 0; r < need.resources.size(); ++r) {
      int count = 0;
      for (const Use& use : placed.held)
        if (use.resource == need.resources[r]) count = use.count;
      say(need.counts[r], count);
    }
  }
  say(makespan, static_cast<Tick>(schedule.cost.makespan));
  values[zero_] = 0;
  for (const Ordered& pair : ordered_) {
    const Tick one = values[pair.one.start.var], two = values[pair.two.start.var];
    if (one == kFar || two == kFar) continue;
    const bool first = one + pair.one.start.off + pair.one.length <= two + pair.two.start.off;
    values[pair.one_first.side / 2] = first ? 1 : 0;
  }
  return values;
}

void Model::late_at_most(std::int64_t most) {
  if (!lateness_) return;
  lateness_->lower(most);
  engine.wake(lateness_index_);
}

void Model::disturbed_at_most(std::int64_t most) {
  if (!disturbance_) return;
  disturbance_->lower(most);
  engine.wake(disturbance_index_);
}

Cost Model::least_cost() const {
  return {lateness_ ? lateness_->least(engine) : 0, disturbance_ ? disturbance_->least(engine) : 0,
          engine.least(makespan)};
}

}  // namespace squeezeout::schedule::exact
