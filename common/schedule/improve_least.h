#pragma once
// Plain problems with least lags only: serial generation, each schedule justified twice.
//   Source   double justification: Valls, Ballestin, Quintanilla, EJOR 165 (2005)

#include "common/schedule/improve_population.h"

namespace squeezeout::schedule {

class LeastLagSearch final : public PopulationSearch {
 public:
  LeastLagSearch(const Problem& problem, Flat flat, std::uint64_t seed);  // flat.least_order is set

 private:
  Member sampled(double spread) override;
  Member made(std::vector<int>& keys, Tick slack) override;
  bool forward(Member& member, Tick most);
  void backward(Member& member);

  std::vector<Tick> tail_;  // from each start to the end, at least
};

}  // namespace squeezeout::schedule
