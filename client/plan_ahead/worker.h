#pragma once
// Worker: one thread that asks the floor's long questions of a copy of the mirror, while the screens go on.
//   Shape   begin, stop, put_away and news are for the session's thread; reports come back by news(). One question at a time: the
//           next one stops the one before. Nothing here waits for the thread, but the destructor: until the question hears
//           that it is to stop
//   Wake    called from the worker's thread when there is news, at most kNewsEvery, and when a question has ended

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "client/plan_ahead/report.h"

namespace squeezeout::plan_ahead {

// What is asked: the floor's own functions, or a test's.
struct Questions {
  using Plan = std::function<Proposal(const Floor&, Instant, const schedule::Budget&)>;
  Plan repair, replan;
  std::function<std::vector<WhatIf>(const Floor&, Span demand, const std::vector<Hypothesis>&,
                                    const std::function<bool()>& stop)>
      what_if;
  std::function<std::vector<Hypothesis>(const Floor&)> hypotheses;
};

// What is looked at: a copy of the mirror as it stands.
struct Ground {
  Floor floor;
  std::uint64_t revision = 0;
  Instant now{};
  Instant whole_since{};  // the record holds all that ended later
};

inline constexpr std::chrono::milliseconds kNewsEvery{250};

class Worker {
 public:
  Worker(Questions questions, std::function<void()> wake);
  ~Worker();
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  void begin(Task task, Ground ground);
  void stop();      // what was found until now comes back
  void put_away();  // stops, and forgets
  // The latest report; the reference is good until the next call of a function of this class.
  const Report& news();

 private:
  struct Asked {
    std::uint64_t number = 0;
    Task task = Task::repair;
    Ground ground;
  };
  void run();
  void answer(const Asked& asked);
  void plan(const Asked& asked, const Questions::Plan& question);
  void weigh(const Asked& asked);
  bool stopped(std::uint64_t number) const { return number < stop_before_.load(); }
  // Changes the shared report, unless another question has been asked since.
  void tell(std::uint64_t number, const std::function<void(Report&)>& change);

  Questions questions_;
  std::function<void()> wake_;
  std::uint64_t last_ = 0;  // number of the last question
  Report seen_;             // the session's
  std::atomic<std::uint64_t> stop_before_{0};
  std::mutex mutex_;
  std::condition_variable something_;
  bool leaving_ = false;        // by mutex_, as what follows
  std::optional<Asked> asked_;  // the next, not taken yet
  std::uint64_t told_ = 0;      // the question that report_ is of
  bool fresh_ = false;          // report_ has not been seen
  Report report_;
  std::thread thread_;  // the last: it begins when all else is there
};

}  // namespace squeezeout::plan_ahead
