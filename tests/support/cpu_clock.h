#pragma once
// Seconds of CPU time of the calling thread: on a machine that does other work, measurements stay comparable.

#include <time.h>

namespace squeezeout::testing {

[[nodiscard]] inline double thread_cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_nsec) * 1e-9;
}

}  // namespace squeezeout::testing
