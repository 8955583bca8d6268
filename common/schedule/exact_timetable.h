#pragma once
// One resource over time: what surely runs at an hour takes its share, and nothing may begin or end where the rest does not
// suffice. Explained by single hours: who surely covers that hour.
//   Source   pointwise explanations: Schutt, Feydy, Stuckey, Wallace, Constraints 16 (2011)

#include "common/schedule/exact_engine.h"

namespace squeezeout::schedule::exact {

// Holds `count` of the resource from `begin` to `end`.
struct Holding {
  View begin, end;
  View count;                // at least 0
  std::optional<Pred> when;  // only then; none: always
};

class Timetable final : public Propagator {
 public:
  Timetable(int capacity, std::vector<Holding> holdings);
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;

 private:
  struct Now {                 // of a holding, as bounds stand
    Tick first = 0, last = 0;  // surely held in between: from the latest begin to the earliest end
    int count = 0;
    bool runs = false;
    bool counts() const { return runs && count > 0 && first < last; }
    friend bool operator==(const Now&, const Now&) = default;
  };
  struct
      Filtered {  // by which profile a holding was last filtered to no effect, and its bounds then
    std::int64_t profile = -1;
    Tick begin = 0, end = 0;
    Now now;
    friend bool operator==(const Filtered&, const Filtered&) = default;
  };
  struct Stretch {
    Tick begin, end;
    int height;
  };
  Now now(const Engine& engine, std::size_t h) const;
  Filtered filtered(const Engine& engine, std::size_t h) const;
  bool look(const Engine& engine);  // whether what surely runs is not what it was
  bool build(Engine& engine);
  std::size_t stretch_at(Tick tick) const;
  // Who covers the tick beside `self`, with at least `count` together.
  void cover(const Engine& engine, Tick tick, int count, std::size_t self);
  bool begins_later(Engine& engine, std::size_t h);
  bool ends_sooner(Engine& engine, std::size_t h);
  bool suits(Engine& engine,
             std::size_t h);  // whether it may run at all, and with how many at most

  int capacity_;
  std::vector<Holding> holdings_;
  std::vector<Now> now_;
  std::vector<std::size_t> by_first_, by_last_;
  std::vector<Stretch> stretches_;
  int highest_ = 0;
  bool whole_ = false;  // the profile is that of now_
  std::int64_t profile_ = 0;
  std::vector<Filtered> filtered_;
  std::vector<Pred> why_;
};

}  // namespace squeezeout::schedule::exact
