#pragma once
// Free starts: when one glue-up could start instead, as the floor's own slot finder says. Worked out a piece at a time, so that no
// frame waits for it.
//   Shape   stretches of starts, in order, apart; within one, a start was tried every kStartGrid
//   Units   a stretch ends kStartGrid after the last start that fits, or where the next one was found not to

#include <algorithm>
#include <vector>

#include "common/floor/ask.h"

namespace squeezeout {

inline constexpr Seconds kStartGrid = Minutes{15};

class FreeStarts {
 public:
  // Forget what was worked out: another floor, another minute.
  void clear() { *this = {}; }
  // Goes on with the window, at most `tries` questions to the floor; later ones begin where this one ended.
  void look(const Floor& floor, GlueUpId glue_up, Span window, Instant now, int tries);
  [[nodiscard]] const std::vector<Span>& stretches() const { return stretches_; }
  // Whether all of that window has been worked out.
  [[nodiscard]] bool knows(Span window) const {
    return began_ && from_ <= window.begin && done_to_ >= window.end;
  }
  [[nodiscard]] Instant known_to() const { return done_to_; }

 private:
  GlueUpId glue_up_;
  bool began_ = false;
  Instant from_{}, done_to_{};
  std::vector<Span> stretches_;
};

// The last start in a stretch that is known to fit.
[[nodiscard]] inline Instant last_start(const Span& stretch) {
  return std::max(stretch.begin, stretch.end - kStartGrid);
}

// Whether it can be given another time: it has not been started.
[[nodiscard]] bool movable(const GlueUp& g);

// Its query, as Move will ask it.
[[nodiscard]] Result<SlotQuery, Refusal> query_to_move(const Floor& floor, const GlueUp& g,
                                                       Instant now);

}  // namespace squeezeout
