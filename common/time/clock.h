#pragma once
// What time is it: one of the four seams. Only server, client and tools hold a Clock; the core gets instants as data.

#include "common/time/span.h"

namespace squeezeout {

class Clock {
 public:
  virtual ~Clock() = default;
  virtual Instant now() = 0;
};

}  // namespace squeezeout
