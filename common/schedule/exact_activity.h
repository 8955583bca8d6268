#pragma once
// Which predicates take part in conflicts of late: the search decides those first.
//   Shape    an atom is "variable >= value", made when a conflict first names it; atoms of little activity are forgotten
//   Source   VSIDS: Moskewicz et al., DAC 2001

#include <unordered_map>
#include <vector>

#include "common/schedule/exact_predicate.h"

namespace squeezeout::schedule::exact {

class Activity {
 public:
  void bump(Pred p);
  void decay() { gain_ *= 1.0 / 0.95; }
  void step_back(std::uint32_t level);  // what was set aside above this level may be open again
  void forget();                        // at the root: keeps the better half when there are many

  // The most active atom that is open, as `variable >= value`; none: kNone in side. `open` tells; what is not is set aside.
  template <typename Open>
  Pred next(std::uint32_t level, const Open& open) {
    while (!heap_.empty()) {
      const Atom& atom = atoms_[heap_.front()];
      if (open(atom.pred)) return atom.pred;
      aside_.push_back({heap_.front(), level});
      pop();
    }
    return {kNone, 0};
  }

 private:
  struct Atom {
    Pred pred;
    double activity = 0;
    Index place = kNone;  // in the heap
  };
  struct Aside {
    Index atom;
    std::uint32_t level;
  };
  void pop();
  void insert(Index atom);
  void rise(Index place);
  void sink(Index place);

  std::vector<Atom> atoms_;
  std::vector<Index> heap_;
  std::vector<Aside> aside_;
  std::unordered_map<std::uint64_t, Index> of_;
  double gain_ = 1;
};

}  // namespace squeezeout::schedule::exact
