#pragma once
// Usage: how many of one thing are taken at each instant, as a step function.
//   Shape    level(t) is the sum of what was added over spans that contain t; spans are half-open
//   Cost     add: the steps it covers; peak: the steps in the window

#include <map>

#include "common/time/span.h"

namespace squeezeout {

class Usage {
 public:
  void add(Span span, int count);  // a negative count takes back what was added
  int level(Instant t) const;

  struct Peak {
    int level = 0;
    Instant last_end{};  // the highest level is left for good, within the window, at this instant
  };
  // The highest level within `window`, less what `own` (claims of the asker himself) puts there.
  struct Own {
    Span span;
    int count = 0;
  };
  Peak peak(Span window, Own own) const;

  // Calls f(Span, level) for each step within the window.
  template <class F>
  void each_step(Span window, F f) const {
    auto it = steps_.upper_bound(window.begin);
    int now = it == steps_.begin() ? 0 : std::prev(it)->second;
    for (Instant t = window.begin; t < window.end;) {
      const Instant next = it == steps_.end() ? window.end : std::min(it->first, window.end);
      f(Span{t, next}, now);
      if (it != steps_.end()) now = it->second, ++it;
      t = next;
    }
  }

 private:
  std::map<Instant, int> steps_;  // level from this instant on; equal neighbours are merged
};

}  // namespace squeezeout
