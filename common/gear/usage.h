#pragma once
// Usage: how many of one thing are taken at each instant, as a step function.
//   Shape    level(t) is the sum of what was added over spans that contain t; spans are half-open
//   Cost     add and peak: the steps of two blocks, and one look at each block between

#include <vector>

#include "common/gear/blocks.h"
#include "common/time/span.h"

namespace squeezeout {

class Usage {
 public:
  void add(Span span, int count);  // a negative count takes back what was added
  int level(Instant t) const;

  struct Peak {
    int level = 0;
    Instant last_end{};  // the highest level is left for good, within the window, at this instant
    friend bool operator==(const Peak&, const Peak&) = default;
  };
  // The highest level within `window`, less what `own` (claims of the asker himself) puts there.
  struct Own {
    Span span;
    int count = 0;
  };
  Peak peak(Span window, Own own) const;

 private:
  struct Step {
    Instant at{};
    int level = 0;  // from `at` on; what waits in the block's summary is not yet in it
  };
  struct Summary {
    int waiting = 0;  // to be added to every level of the block
    int most = 0;     // the highest level, with what waits
    void push(std::vector<Step>& steps);
    void pull(const std::vector<Step>& steps);
  };
  using Steps = Blocks<Step, Summary>;

  Steps::Place at_or_after(Instant t) const;
  // The level just before a place, 0 before the first step.
  int level_before(Steps::Place p) const;
  void split(Instant t);
  void merge(Instant t);
  Peak highest(Span window) const;

  Steps steps_;  // equal neighbours are merged
};

}  // namespace squeezeout
