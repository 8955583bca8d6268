#pragma once
// CHECK: a bug stops the program, in release builds too.
//   A broken invariant is never a refusal and never an I/O failure: those have Result and error_code.

#include <cstdio>
#include <cstdlib>

namespace squeezeout::detail {
[[noreturn]] inline void check_failed(const char* condition, const char* file, int line) {
  std::fprintf(stderr, "squeezeout: bug: %s does not hold (%s:%d)\n", condition, file, line);
  std::abort();
}
}  // namespace squeezeout::detail

#define CHECK(condition) \
  ((condition) ? void(0) : ::squeezeout::detail::check_failed(#condition, __FILE__, __LINE__))
