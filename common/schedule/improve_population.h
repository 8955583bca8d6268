#pragma once
// A population of schedules of a flat problem, crossed by the times of their tasks: what is known of good schedules is carried
// over as a key a task, and a schedule is made from keys by the two kinds of searches.
//   Source   crossing stretches of one schedule into another: Valls, Ballestin, Quintanilla, EJOR 185 (2008)

#include "common/schedule/improve_flat.h"
#include "common/schedule/improve_random.h"
#include "common/schedule/improve_search.h"

namespace squeezeout::schedule {

class PopulationSearch : public Search {
 public:
  void take(const Schedule& better) override;

 protected:
  struct Member {
    std::vector<Tick> starts;
    Tick score = kFar;  // the makespan; beyond kFar: not whole, and by how many tasks
  };
  PopulationSearch(const Problem& problem, Flat flat, std::uint64_t seed);

  // The next schedule of a new population, and one from keys, 16 a tick: the lowest first, and where starts hang on each other
  // none earlier than its key less `slack`.
  virtual Member sampled(double spread) = 0;
  virtual Member made(std::vector<int>& keys, Tick slack) = 0;

  // Tasks into list_ by key, those alike by rank_.
  void sort_by(const std::vector<int>& keys);

  const Problem& problem_;
  const Flat flat_;
  Ticks ticks_;
  Random random_;
  std::vector<int> rank_,
      ranked_;  // of each task, so that what must go before does; and tasks by it
  std::vector<int> list_, keys_;
  std::int64_t placings_ = 0;        // of a task: what time goes into
  std::int64_t placing_ = 40;        // work of one, in thousandths
  Tick limit_ = kFar, good_ = kFar;  // no use for a longer one before, and after it is justified

  std::int64_t work() const final { return placings_ * placing_ / 1'000; }

 private:
  void step() override;
  Member crossed();
  int picked();
  bool adopt(const Member& member);

  std::vector<std::uint64_t> sorted_;
  std::vector<int> count_;
  std::vector<Member> members_;
  int parents_[2] = {};
  std::int64_t last_better_ = 0;  // schedules_ then
  int idle_ = 0;                  // children since one was taken in
};

}  // namespace squeezeout::schedule
