#pragma once
// Random numbers that are the same on every machine: splitmix64.

#include <cstdint>
#include <vector>

namespace squeezeout::schedule {

class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
  }
  // In [0, bound); bound > 0.
  int below(int bound) {
    return static_cast<int>(((next() >> 32) * static_cast<std::uint64_t>(bound)) >> 32);
  }
  double unit() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace squeezeout::schedule
