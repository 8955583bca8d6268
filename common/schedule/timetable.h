#pragma once
// How many pieces of each resource are free, as steps over time.
//   Shape    free(t) of a resource is constant between steps; taking more than is free is a bug of the caller's (unless `taken`
//            of the problem itself says so: then it is below zero there)

#include <vector>

#include "common/schedule/problem.h"

namespace squeezeout::schedule {

class Timetable {
 public:
  explicit Timetable(const Problem& problem);  // all free but what is taken already

  void take(int resource, int count, Window span);
  void give_back(int resource, int count, Window span);

  struct Low {
    int free = 0;    // the least over the window; of an empty one: any number
    Tick until = 0;  // where the last stretch that is so low ends: kFar, when it never does
  };
  Low lowest(int resource, Window window) const;
  // The end of the last stretch in the window with less than `count` free; window.begin when there is none.
  Tick blocked_until(int resource, int count, Window window) const;

 private:
  struct Step {
    Tick at = 0;
    int free = 0;  // from here to the next step
  };
  void change(int resource, int by, Window span);
  std::size_t split(std::vector<Step>& steps, Tick at);
  std::vector<std::vector<Step>> steps_;
};

}  // namespace squeezeout::schedule
