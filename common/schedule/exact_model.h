#pragma once
// The planning problem as variables, bounds and propagators.
//   Shape    one variable for the start of a task, one for each part that does not follow the one before at a fixed distance.
//            A task of several modes has a 0/1 variable and its own begins for each; they count only when it is chosen. A need
//            that several resources can meet has one variable for each: how many pieces of it.

#include "common/schedule/exact_cost.h"
#include "common/schedule/exact_engine.h"
#include "common/schedule/exact_order.h"
#include "common/schedule/exact_rules.h"
#include "common/schedule/exact_timetable.h"
#include "common/schedule/lags.h"

namespace squeezeout::schedule::exact {

// What the search decides, first to last: towards its least or its greatest value.
struct Pick {
  Var var = 0;
  enum class Toward { least, most } toward = Toward::least;
};

class Model {
 public:
  Model(const Problem& problem, const Bounds& bounds);

  Engine engine;
  View makespan;
  struct TaskPicks {
    View start;
    std::vector<Pick> picks;
  };
  std::vector<TaskPicks> tasks;
  std::vector<Pick> last;  // when all tasks are decided

  Schedule read() const;  // all variables are fixed
  // The value of each variable in that schedule; kFar: it does not say.
  std::vector<Tick> values_of(const Schedule& schedule) const;

  void late_at_most(std::int64_t most);  // at the root, as all that tightens
  void disturbed_at_most(std::int64_t most);
  Cost least_cost() const;  // as the root's bounds stand

 private:
  struct NeedVars {
    std::vector<int> resources;
    std::vector<View> counts;
  };
  struct ModeVars {
    std::optional<Pred> chosen;
    std::vector<View> begins;  // of each part; empty: the mode is not possible
    std::vector<NeedVars> needs;
    View end;
  };
  struct TaskVars {
    View start, ready;
    std::vector<ModeVars> modes;
  };

  TaskVars add_task(const Task& task, Tick earliest, Tick latest);
  ModeVars add_mode(const Mode& mode, Tick earliest, Tick latest, std::optional<Pred> chosen);
  bool add_begins(const Mode& mode, Tick earliest, Tick latest, ModeVars& vars);
  View end_of_part(const Part& part, View begin, std::optional<Pred> chosen);
  bool add_uses(const Mode& mode, ModeVars& vars);
  bool hold(int resource, const Holding& holding);  // false: more than there is
  void add_ready(const Task& task, TaskVars& vars);
  void add_taken();
  void add_picks(const TaskVars& vars);
  void add_costs();
  void add_energy();
  void follow(Follows::Rule rule);
  View constant(Tick value) const { return {zero_, value}; }

  const Problem& problem_;
  Tick horizon_;
  Var zero_;
  std::vector<std::vector<Holding>> holdings_;  // of each resource
  std::vector<TaskVars> vars_;
  std::vector<Ordered> ordered_;
  Lateness* lateness_ = nullptr;
  Disturbance* disturbance_ = nullptr;
  Index lateness_index_ = kNone, disturbance_index_ = kNone;
};

}  // namespace squeezeout::schedule::exact
