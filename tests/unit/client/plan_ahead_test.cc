// The planner's long questions in the background: progress, cancel, what is asked anew, what is put away.

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <functional>
#include <semaphore>
#include <thread>

#include "client/plan_ahead/desk.h"

namespace squeezeout::plan_ahead {
namespace {

using namespace std::chrono_literals;
using State = Report::State;

Instant minute(int n) { return Instant{} + Minutes{n}; }

Ground ground(std::uint64_t revision) { return {{}, revision, minute(5), {}}; }

// One shift, told apart by its glue-up's number.
Proposal moves(std::uint32_t glue_up) {
  Proposal p;
  p.shifts = {{GlueUpId{glue_up}, minute(1), {}, {}}};
  return p;
}

// Searches until it is told to stop, and says how far it is.
Proposal search_for_ever(const Floor&, Instant, const schedule::Budget& budget) {
  schedule::Progress progress;
  while (!budget.stop()) {
    ++progress.work;
    progress.best = schedule::Cost{0, progress.work, 0};
    budget.progress(progress);
    std::this_thread::sleep_for(1ms);
  }
  Proposal p = moves(7);
  p.cancelled = true;
  return p;
}

class WorkerTest : public ::testing::Test {
 protected:
  Questions questions{[](const Floor&, Instant, const schedule::Budget&) { return moves(1); },
                      search_for_ever,
                      [](const Floor&, Span, const std::vector<Hypothesis>& changes,
                         const std::function<bool()>& stop) {
                        std::vector<WhatIf> out;
                        for (const Hypothesis& h : changes) {
                          if (stop()) break;
                          WhatIf w;
                          w.change = h;
                          out.push_back(w);
                        }
                        return out;
                      },
                      [](const Floor&) {
                        return std::vector<Hypothesis>{MoreGear{GearKindId{1}, 1}, OpenOn{0}};
                      }};
  std::atomic<int> wakes{0};
  std::function<void()> wake = [this] { ++wakes; };

  static bool wait_for(Worker& worker, const std::function<bool(const Report&)>& wanted) {
    const auto until = std::chrono::steady_clock::now() + 20s;
    while (std::chrono::steady_clock::now() < until) {
      if (wanted(worker.news())) return true;
      std::this_thread::sleep_for(1ms);
    }
    return false;
  }
  static bool wait_for(Worker& worker, State state) {
    return wait_for(worker, [&](const Report& r) { return r.state == state; });
  }
};

TEST_F(WorkerTest, NothingIsAskedAtFirst) {
  Worker worker{questions, wake};
  EXPECT_EQ(worker.news().state, State::idle);
  EXPECT_FALSE(worker.news().proposal);
}

TEST_F(WorkerTest, AnAnswerComesWholeWithTheRevisionItLookedAt) {
  Worker worker{questions, wake};
  worker.begin(Task::repair, ground(41));
  EXPECT_EQ(worker.news().revision, 41U);
  ASSERT_TRUE(wait_for(worker, State::done));
  const Report& r = worker.news();
  EXPECT_EQ(r.task, Task::repair);
  EXPECT_EQ(r.asked_at, minute(5));
  ASSERT_TRUE(r.proposal);
  EXPECT_EQ(r.proposal->shifts.front().glue_up, GlueUpId{1});
  EXPECT_GE(wakes, 1);
}

TEST_F(WorkerTest, ProgressIsToldAndCancelKeepsWhatWasFound) {
  Worker worker{questions, wake};
  worker.begin(Task::replan, ground(1));
  ASSERT_TRUE(wait_for(worker, [](const Report& r) { return r.progress.work > 0; }));
  EXPECT_EQ(worker.news().state, State::running);
  EXPECT_TRUE(worker.news().progress.best);
  EXPECT_GT(worker.news().work_most, 0);
  EXPECT_FALSE(worker.news().proposal);
  worker.stop();
  ASSERT_TRUE(wait_for(worker, State::stopped));
  ASSERT_TRUE(worker.news().proposal);
  EXPECT_TRUE(worker.news().proposal->cancelled);
  EXPECT_GT(worker.news().progress.work, 0) << "how far it had come is still told";
}

TEST_F(WorkerTest, NewsComeSeldom) {
  Worker worker{questions, wake};
  const auto begin = std::chrono::steady_clock::now();
  worker.begin(Task::replan, ground(1));
  std::this_thread::sleep_for(1s);
  const auto most = (std::chrono::steady_clock::now() - begin) / kNewsEvery + 1;
  EXPECT_GE(wakes, 1);
  EXPECT_LE(wakes, most);
}

TEST_F(WorkerTest, AskingAnewStopsTheQuestionBefore) {
  Worker worker{questions, wake};
  worker.begin(Task::replan, ground(1));
  ASSERT_TRUE(wait_for(worker, [](const Report& r) { return r.progress.work > 0; }));
  worker.begin(Task::repair, ground(2));
  EXPECT_EQ(worker.news().revision, 2U);
  EXPECT_EQ(worker.news().progress.work, 0);
  ASSERT_TRUE(wait_for(worker, State::done));
  EXPECT_EQ(worker.news().task, Task::repair);
  EXPECT_EQ(worker.news().proposal->shifts.front().glue_up, GlueUpId{1});
}

TEST_F(WorkerTest, WhatWasPutAwayDoesNotComeBack) {
  std::binary_semaphore asked{0}, go_on{0};
  questions.repair = [&](const Floor&, Instant, const schedule::Budget&) {
    asked.release();
    go_on.acquire();  // does not look at stop: as slow as can be
    return moves(3);
  };
  Worker worker{questions, wake};
  worker.begin(Task::repair, ground(1));
  asked.acquire();
  worker.put_away();
  EXPECT_EQ(worker.news().state, State::idle);
  go_on.release();
  worker.begin(Task::what_if, ground(2));
  ASSERT_TRUE(wait_for(worker, State::done));
  EXPECT_FALSE(worker.news().proposal);
  EXPECT_EQ(worker.news().task, Task::what_if);
}

TEST_F(WorkerTest, ALookNeverWaitsForTheQuestion) {
  std::binary_semaphore asked{0}, go_on{0};
  questions.replan = [&](const Floor&, Instant, const schedule::Budget&) {
    asked.release();
    go_on.acquire();
    return moves(3);
  };
  Worker worker{questions, wake};
  worker.begin(Task::replan, ground(1));
  asked.acquire();
  for (int frame = 0; frame < 1000; ++frame) EXPECT_EQ(worker.news().state, State::running);
  worker.stop();  // comes back although nobody looks at it yet
  EXPECT_EQ(worker.news().state, State::running);
  go_on.release();
  EXPECT_TRUE(wait_for(worker, State::done)) << "it had ended before it saw the stop";
}

TEST_F(WorkerTest, WhatIfCountsItsSteps) {
  Worker worker{questions, wake};
  worker.begin(Task::what_if, ground(1));
  ASSERT_TRUE(wait_for(worker, State::done));
  EXPECT_EQ(worker.news().what_if.size(), 2U);
  EXPECT_EQ(worker.news().steps_most, 2);
  EXPECT_FALSE(worker.news().demand.empty());
}

TEST_F(WorkerTest, GoesWhileItWorks) {
  const auto begin = std::chrono::steady_clock::now();
  {
    Worker worker{questions, wake};
    worker.begin(Task::replan, ground(1));
    ASSERT_TRUE(wait_for(worker, [](const Report& r) { return r.progress.work > 0; }));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 10s);
}

// Neither worker ends before the other has been told to stop, too.
TEST_F(WorkerTest, ADeskStopsBothBeforeItWaits) {
  std::atomic<int> asked{0}, told{0};
  const auto until_both_are_told = [&](const std::function<bool()>& stop) {
    ++asked;
    while (!stop()) std::this_thread::sleep_for(1ms);
    ++told;
    const auto late = std::chrono::steady_clock::now() + 5s;
    while (told < 2 && std::chrono::steady_clock::now() < late) std::this_thread::sleep_for(1ms);
  };
  questions.replan = [&](const Floor&, Instant, const schedule::Budget& budget) {
    until_both_are_told(budget.stop);
    return moves(1);
  };
  questions.what_if = [&](const Floor&, Span, const std::vector<Hypothesis>&,
                          const std::function<bool()>& stop) {
    until_both_are_told(stop);
    return std::vector<WhatIf>{};
  };
  const auto begin = std::chrono::steady_clock::now();
  {
    Desk desk{questions, wake};
    desk.of(Task::replan).begin(Task::replan, ground(1));
    desk.of(Task::what_if).begin(Task::what_if, ground(1));
    while (asked < 2) std::this_thread::sleep_for(1ms);
  }
  EXPECT_EQ(told, 2);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, 4s);
}

}  // namespace
}  // namespace squeezeout::plan_ahead
