#pragma once
// Plain problems with most lags: serial generation over the longest paths between all tasks; what starts too early for a task in
// line moves later and what follows is placed anew; then each task is shifted late and early where it stands.
//   Source   unscheduling: Franck, Neumann, Schwindt, OR Spektrum 23 (2001); shifts: Ballestin, Barrios, Valls, EJOR 210 (2011)

#include "common/schedule/improve_population.h"

namespace squeezeout::schedule {

class MostLagSearch final : public PopulationSearch {
 public:
  MostLagSearch(const Problem& problem, Flat flat, std::uint64_t seed);

 private:
  Member sampled(double spread) override;
  Member made(std::vector<int>& keys, Tick slack) override;
  void set_floors(const std::vector<int>& keys, Tick slack);
  bool generate(Member& member);
  bool make_way(int task, Tick start);
  void put(int task, Tick start);
  void take_back(int task);
  Window room(int task) const;
  void shift_late(Member& member);
  void shift_early(Member& member);
  Tick makespan(const Member& member) const;
  const Tick* from(int task) const { return &path_[static_cast<std::size_t>(task) * stride_]; }
  const Tick* to(int task) const { return &htap_[static_cast<std::size_t>(task) * stride_]; }

  std::size_t stride_ = 0;               // tasks, rounded up to whole blocks
  std::vector<Tick> path_, htap_;        // longest paths from a task to each, and from each to it
  std::vector<std::vector<int>> first_;  // of each task: those that are placed before it
  std::vector<int> component_;           // tasks with lags both ways are one
  std::vector<char> bound_both_ways_;    // of each task: its component has others
  std::vector<Tick> tail_;               // from each start to the end, at least
  std::vector<Tick> base_early_, base_late_;  // with nothing placed
  std::vector<Tick> floor_early_;             // and with what was moved later
  std::vector<Tick> start_;
  std::vector<Tick> pushes_, holds_;  // start_ of the placed; else so that it bounds none
  std::vector<char> placed_;
  int left_ = 0;
};

}  // namespace squeezeout::schedule
