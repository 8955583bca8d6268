#include "tests/bench/schedule/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace squeezeout::schedule::testing {
namespace {

double percent_over(std::int64_t value, std::int64_t base) {
  return base == 0 ? 0 : 100.0 * static_cast<double>(value - base) / static_cast<double>(base);
}

const char* word_of(Outcome::Status status) {
  switch (status) {
    case Outcome::Status::optimal:
      return "optimal";
    case Outcome::Status::feasible:
      return "feasible";
    case Outcome::Status::infeasible:
      return "infeasible";
    case Outcome::Status::unknown:
      return "unknown";
  }
  return "";
}

// Why there is no schedule; empty: that is not what it says.
std::string proof_of(const Outcome& o) {
  if (o.status != Outcome::Status::infeasible) return "";
  if (o.no_room) return fmt::format("no room for task {}", o.no_room->task);
  if (!o.cycle) return "search";
  std::string tasks;
  for (const Lag& lag : o.cycle->lags) tasks += fmt::format("{} > ", lag.from);
  return fmt::format("cycle {}{}", tasks, o.cycle->lags.front().from);
}

std::string or_dash(const std::optional<double>& value) {
  return value ? fmt::format("{:.2f}", *value) : "-";
}

}  // namespace

std::optional<double> Entry::over_best_known() const {
  if (!finish.outcome.best || !known.best_makespan) return std::nullopt;
  return percent_over(finish.outcome.best->cost.makespan, *known.best_makespan);
}

std::optional<double> Entry::over_critical_path() const {
  if (!finish.outcome.best || !known.best_makespan) return std::nullopt;
  return percent_over(finish.outcome.best->cost.makespan, known.critical_path);
}

std::vector<std::string> Entry::failures() const {
  std::vector<std::string> failures = finish.faults;
  const Outcome& o = finish.outcome;
  if (!known.feasible) {
    if (o.best) failures.push_back("a schedule of what is known to be infeasible");
    return failures;
  }
  if (o.status == Outcome::Status::infeasible)
    failures.push_back("is called infeasible and is known to be feasible");
  if (known.best_makespan && o.status != Outcome::Status::infeasible &&
      o.lower_bound.makespan > *known.best_makespan)
    failures.push_back(fmt::format("the lower bound {} is above the known makespan {}",
                                   o.lower_bound.makespan, *known.best_makespan));
  if (o.best && o.best->cost.makespan < known.lower_bound)
    failures.push_back(fmt::format("the makespan {} is below the known lower bound {}",
                                   o.best->cost.makespan, known.lower_bound));
  return failures;
}

Summary summary_of(const std::vector<Entry>& entries) {
  Summary s;
  int compared = 0;
  for (const Entry& e : entries) {
    const Outcome& o = e.finish.outcome;
    ++s.instances;
    if (!e.known.feasible) {
      ++s.infeasible;
      ++(o.status == Outcome::Status::infeasible ? s.infeasible_proven : s.infeasible_missed);
      s.by_cycle += o.cycle.has_value();
      s.by_no_room += o.no_room.has_value();
      continue;
    }
    if (o.status == Outcome::Status::infeasible) ++s.infeasible_wrong;
    if (o.status == Outcome::Status::optimal) ++s.proven;
    if (!o.best) {
      ++s.feasible_missed;
      continue;
    }
    ++s.solved;
    s.mean_first_seconds += e.finish.first_seconds;
    s.worst_first_seconds = std::max(s.worst_first_seconds, e.finish.first_seconds);
    s.mean_best_seconds += e.finish.best_seconds;
    if (!e.known.best_makespan) continue;
    const double deviation = *e.over_best_known();
    s.worst_deviation = compared == 0 ? deviation : std::max(s.worst_deviation, deviation);
    ++compared;
    if (deviation < 0) ++s.better;
    s.mean_deviation += deviation;
    s.over_critical_path += *e.over_critical_path();
    s.best_known_over_critical_path += percent_over(*e.known.best_makespan, e.known.critical_path);
  }
  for (double* sum : {&s.mean_deviation, &s.over_critical_path, &s.best_known_over_critical_path})
    *sum /= std::max(compared, 1);
  for (double* sum : {&s.mean_first_seconds, &s.mean_best_seconds}) *sum /= std::max(s.solved, 1);
  return s;
}

std::vector<Yardstick> yardsticks_for(const std::string& first_instance) {
  if (first_instance.starts_with("j120"))
    return {{30.47, "published, 4 workers and 600 s"}, {30.00, "wanted at 10 s"}};
  if (first_instance.starts_with("j60")) return {{10.51, "published, 4 workers and 600 s"}};
  return {};
}

std::string line_of(const Entry& e) {
  const Outcome& o = e.finish.outcome;
  const auto makespan = o.best ? std::to_string(o.best->cost.makespan) : "-";
  const auto known = !e.known.feasible       ? "infeasible"
                     : e.known.best_makespan ? std::to_string(*e.known.best_makespan)
                                             : "-";
  return fmt::format("{:<12} {:>8} {:>10} {:>8} {:>7} {:<10} {:>8.3f} {:>8.3f} {:>8.3f}  {}",
                     e.name, makespan, known, or_dash(e.over_best_known()), o.lower_bound.makespan,
                     word_of(o.status), o.best ? e.finish.first_seconds : 0.0,
                     o.best ? e.finish.best_seconds : 0.0, e.finish.seconds, proof_of(o));
}

std::string table_of(const Summary& s, const std::vector<Yardstick>& yardsticks) {
  std::string out = fmt::format(
      "instances                     {}\n"
      "solved of the feasible        {} of {}\n"
      "deviation from best known     mean {:.3f} %, worst {:.2f} %, {} better than it\n"
      "proven optimal                {} of {}\n"
      "infeasible proven             {} of {} ({} missed); by a cycle of lags {}, by no room for a "
      "task {}, by search {}\n"
      "feasible called infeasible    {}\n"
      "time to first schedule        mean {:.4f} s, worst {:.4f} s; to the best: mean {:.3f} s\n"
      "mean over the critical path   {:.2f} % (best known of these instances: {:.2f} %)\n",
      s.instances, s.solved, s.instances - s.infeasible, s.mean_deviation, s.worst_deviation,
      s.better, s.proven, s.instances - s.infeasible, s.infeasible_proven, s.infeasible,
      s.infeasible_missed, s.by_cycle, s.by_no_room,
      s.infeasible_proven - s.by_cycle - s.by_no_room, s.infeasible_wrong, s.mean_first_seconds,
      s.worst_first_seconds, s.mean_best_seconds, s.over_critical_path,
      s.best_known_over_critical_path);
  for (const Yardstick& y : yardsticks)
    out += fmt::format("  yardstick of the whole set  {:.2f} % ({})\n", y.percent, y.of);
  return out;
}

std::string json_of(const Race& race, const std::vector<Entry>& entries) {
  using nlohmann::json;
  const Summary s = summary_of(entries);
  json out{{"seconds", race.seconds},
           {"clock", race.clock == RaceClock::cpu ? "cpu" : "wall"},
           {"threads", race.threads},
           {"seed", race.seed},
           {"as_floor", race.as_floor},
           {"solved", s.solved},
           {"feasible_missed", s.feasible_missed},
           {"mean_deviation_percent", s.mean_deviation},
           {"worst_deviation_percent", s.worst_deviation},
           {"better_than_best_known", s.better},
           {"mean_over_critical_path_percent", s.over_critical_path},
           {"best_known_over_critical_path_percent", s.best_known_over_critical_path},
           {"proven", s.proven},
           {"infeasible", s.infeasible},
           {"infeasible_proven", s.infeasible_proven},
           {"infeasible_missed", s.infeasible_missed},
           {"feasible_called_infeasible", s.infeasible_wrong},
           {"instances", json::array()}};
  for (const Entry& e : entries) {
    const Outcome& o = e.finish.outcome;
    json one{
        {"instance", e.name},
        {"status", word_of(o.status)},
        {"proven", o.status == Outcome::Status::optimal || o.status == Outcome::Status::infeasible},
        {"lower_bound", o.lower_bound.makespan},
        {"work", o.work},
        {"seconds", e.finish.seconds},
        {"failures", e.failures()}};
    if (o.status == Outcome::Status::infeasible) one["infeasible_by"] = proof_of(o);
    if (e.known.best_makespan) one["best_known"] = *e.known.best_makespan;
    if (o.best) {
      one["makespan"] = o.best->cost.makespan;
      one["first_seconds"] = e.finish.first_seconds;
      one["best_seconds"] = e.finish.best_seconds;
    }
    if (e.over_best_known()) one["deviation_percent"] = *e.over_best_known();
    out["instances"].push_back(std::move(one));
  }
  return out.dump(2);
}

}  // namespace squeezeout::schedule::testing
