#pragma once
// Open spans from an instant on, worked out as far as they are asked for, so that one question looks at no day twice.

#include <optional>
#include <vector>

#include "common/time/hours.h"

namespace squeezeout {

class OpenLine {
 public:
  // Open spans within [from, limit); for a null `hours` every instant is open.
  OpenLine(const Hours* hours, Instant from, Instant limit);

  // The earliest s >= t at which `length` on end is open; nullopt: none before the limit. t is at `from` or later.
  std::optional<Instant> next(Seconds length, Instant t);

 private:
  bool grow();

  const Hours* hours_;
  std::vector<Span> spans_;
  Instant known_, limit_;
  Seconds step_ = std::chrono::days{3};  // what the next look adds; most questions end in the first
};

}  // namespace squeezeout
