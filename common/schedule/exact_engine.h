#pragma once
// Bounds of whole-number variables, who implied them, and what is learned from conflicts.
//   Shape    a variable has two sides: itself, and its negative; both only grow, so a predicate is always "this side is at
//            least that much", and no literal is ever made. The trail records each growth with its reason; a conflict is
//            resolved to its first unique implication point, minimised, and kept as a clause that two predicates watch.
//   Units    |value| <= kFar; offsets may not carry a sum beyond 2^31
//   Source   lazy clause generation: Ohrimenko, Stuckey, Codish, Constraints 14 (2009); two watches and activity: MiniSat,
//            Een and Sorensson, SAT 2003; clauses kept by how many levels they span: Audemard and Simon, IJCAI 2009

#include <array>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "common/schedule/exact_activity.h"
#include "common/schedule/exact_predicate.h"

namespace squeezeout::schedule::exact {

class Engine;

class Propagator {
 public:
  virtual ~Propagator() = default;
  virtual bool propagate(Engine& engine) = 0;  // false: a conflict, which the engine was told
};

class Engine {
 public:
  struct Edge {
    Side from, to;
    Tick ticks;
    Pred when;  // kNone in its side: always
  };
  enum class Result { settled, conflict, interrupted };
  enum class Urgency : std::uint8_t { soon, late };

  Var add_variable(Tick least, Tick most);
  void add_edge(View from, View to, Tick ticks);  // to >= from + ticks, always
  // Only when it holds: followed as the bounds grow. Who makes it hold looks at the bounds of that moment himself.
  void add_edge(View from, View to, Tick ticks, Pred when);
  void add_clause(std::vector<Pred> any);  // before the search
  // Woken when a side of `wakes` grows.
  Index add_propagator(std::unique_ptr<Propagator> propagator, std::span<const Pred> wakes,
                       Urgency urgency);
  void wake(Index propagator);  // at the root: it was told more

  Tick at(Side side) const { return at_[side]; }
  Tick least(View view) const { return at_[2 * view.var] + view.off; }
  Tick most(View view) const { return view.off - at_[2 * view.var + 1]; }
  bool fixed(Var var) const { return at_[2 * var] == -at_[2 * var + 1]; }
  bool holds(Pred p) const { return at_[p.side] >= p.least; }
  bool broken(Pred p) const { return at_[p.side ^ 1] >= 1 - p.least; }
  bool always(Pred p) const { return root_[p.side] >= p.least; }
  Var variables() const { return static_cast<Var>(at_.size() / 2); }

  // `why` all hold, and together they imply it (imply), or cannot be (fail, always false).
  bool imply(Pred p, std::span<const Pred> why);
  bool fail(std::span<const Pred> why);

  Result propagate(const std::function<bool()>& stop);
  void decide(Pred p);
  bool resolve();    // learns from the conflict and steps back; false: nothing is left at all
  void restart();    // to the root
  void trim();       // at the root: forgets half of what helped least, when there is much
  bool fix(Pred p);  // at the root: from now on it holds; false: nothing is left
  std::uint32_t level() const { return static_cast<std::uint32_t>(levels_.size()); }

  Activity& activity() { return activity_; }
  const std::vector<Edge>& edges() const { return edges_; }
  const std::vector<Pred>& learned() const { return learned_; }  // the last clause, for tests
  void tire(std::int64_t work) { work_ += work; }                // told by long propagators
  std::int64_t work() const { return work_; }

 private:
  struct Reason {
    enum Kind : std::uint32_t { none, edge, clause, stored } kind = none;
    Index index = 0;
  };
  struct Step {
    Side side;
    Tick before, now;
    Index previous;  // of the same side
    Reason reason;
    std::uint32_t level;
  };
  struct Clause {
    Index begin, size;
    std::uint32_t span;  // how many levels; 0: not learned
    float activity;
  };
  // Who watches a side: apart from the rest, where the side must come to, as that is all that most visits read.
  struct Watches {
    struct Who {
      Index clause;
      Pred blocker;
    };
    std::vector<Tick> at;  // reached: the watched predicate is broken
    std::vector<Who> who;
  };

  void push(Pred p, Reason reason);
  bool grow(Pred p, Reason reason);
  void explain(const Step& step, Tick value, std::vector<Pred>& why) const;
  bool visit_edges(Side side);
  bool visit_clauses(Side side, Tick before);
  Index add(std::span<const Pred> any, std::uint32_t span);
  void watch(Index clause);
  void watch(Pred p, Index clause, Pred blocker);
  Index position(Pred p) const;  // the step that made it hold; kNone: at the root
  void need(Pred p);
  bool covered(Pred p, Index before) const;
  bool redundant(Pred p, int depth);
  void minimise();
  void learn();
  void pop();
  void cancel(std::uint32_t level);
  void settle_root();

  std::vector<Tick> at_, root_;
  std::vector<Index> last_;  // step of each side
  std::vector<Step> trail_;
  std::vector<Index> levels_;
  std::size_t head_ = 0;
  std::vector<Pred> stored_;
  std::vector<Index> stored_size_;

  struct Out {  // an edge, from a side
    Side to;
    Tick ticks;
    Index edge;
  };
  std::vector<std::vector<Out>> edges_of_;
  std::vector<Edge> edges_;
  std::vector<Pred> pool_;
  std::vector<Clause> clauses_;
  std::vector<Watches> watches_;
  std::vector<std::unique_ptr<Propagator>> propagators_;
  std::vector<Urgency> urgency_;
  std::vector<bool> waiting_;
  std::vector<std::vector<Index>> wakes_;
  std::array<std::vector<Index>, 2> queue_;

  std::vector<Pred> conflict_, learned_, scratch_;
  std::vector<Tick> need_;
  std::vector<bool> needed_, needed_now_;
  std::vector<Side> sides_;
  std::uint32_t open_ = 0;
  struct Known {
    std::uint32_t stamp = 0;
    Tick value = 0;
    bool follows = false;
  };
  std::vector<Known> known_;
  std::uint32_t stamp_ = 0;
  std::vector<std::uint32_t> level_stamp_;  // of levels in the clause being learned
  Activity activity_;
  float clause_gain_ = 1;
  std::size_t learned_most_ = 2000, learned_now_ = 0;
  std::int64_t work_ = 0, ask_at_ = 0;
  bool dead_ = false;
};

}  // namespace squeezeout::schedule::exact
