#include "client/plan_ahead/worker.h"

#include <algorithm>
#include <chrono>
#include <utility>

namespace squeezeout::plan_ahead {
namespace {

using Clock = std::chrono::steady_clock;
using State = Report::State;

constexpr std::int64_t kMostWork = 30'000'000;  // some half a minute

}  // namespace

Worker::Worker(Questions questions, std::function<void()> wake)
    : questions_(std::move(questions)), wake_(std::move(wake)), thread_([this] { run(); }) {}

Worker::~Worker() {
  stop_before_ = last_ + 1;
  {
    const std::lock_guard lock{mutex_};
    leaving_ = true;
  }
  something_.notify_one();
  thread_.join();
}

void Worker::begin(Task task, Ground ground) {
  const std::uint64_t number = ++last_;
  stop_before_ = number;
  {
    const std::lock_guard lock{mutex_};
    report_ = Report{
        .task = task, .state = State::running, .revision = ground.revision, .asked_at = ground.now};
    asked_ = Asked{number, task, std::move(ground)};
    told_ = number;
    fresh_ = true;
  }
  something_.notify_one();
}

void Worker::stop() { stop_before_ = last_ + 1; }

void Worker::put_away() {
  stop_before_ = ++last_;
  const std::lock_guard lock{mutex_};
  asked_.reset();
  told_ = last_;
  report_ = Report{.task = report_.task};
  fresh_ = true;
}

const Report& Worker::news() {
  const std::lock_guard lock{mutex_};
  if (std::exchange(fresh_, false)) seen_ = report_;
  return seen_;
}

void Worker::tell(std::uint64_t number, const std::function<void(Report&)>& change) {
  {
    const std::lock_guard lock{mutex_};
    if (told_ != number) return;
    change(report_);
    fresh_ = true;
  }
  wake_();
}

void Worker::run() {
  while (true) {
    std::unique_lock lock{mutex_};
    something_.wait(lock, [this] { return leaving_ || asked_; });
    if (leaving_) return;
    const Asked asked = std::move(*asked_);
    asked_.reset();
    lock.unlock();
    answer(asked);
  }
}

void Worker::answer(const Asked& asked) {
  switch (asked.task) {
    case Task::repair:
      return plan(asked, questions_.repair);
    case Task::replan:
      return plan(asked, questions_.replan);
    case Task::what_if:
      return weigh(asked);
  }
}

void Worker::plan(const Asked& asked, const Questions::Plan& question) {
  const Clock::time_point until = Clock::now() + kLongest;
  schedule::Budget budget;
  budget.work = kMostWork;
  budget.stop = [&] { return stopped(asked.number) || Clock::now() > until; };
  Clock::time_point told{};
  budget.progress = [&](const schedule::Progress& progress) {
    if (Clock::now() < told + kNewsEvery) return;
    told = Clock::now();
    tell(asked.number, [&](Report& r) {
      r.progress = progress;
      r.work_most = budget.work;
    });
  };
  Proposal found = question(asked.ground.floor, asked.ground.now, budget);
  tell(asked.number, [&](Report& r) {
    r.state = !found.cancelled        ? State::done
              : stopped(asked.number) ? State::stopped
                                      : State::out_of_time;
    r.proposal = std::move(found);
  });
}

void Worker::weigh(const Asked& asked) {
  const Clock::time_point until = Clock::now() + kLongest;
  const std::vector<Hypothesis> changes = questions_.hypotheses(asked.ground.floor);
  const Span demand = demand_span(asked.ground.now, asked.ground.whole_since);
  const int most = static_cast<int>(changes.size());
  int steps = 0;
  Clock::time_point told{};
  std::vector<WhatIf> found = questions_.what_if(asked.ground.floor, demand, changes, [&] {
    if (Clock::now() >= told + kNewsEvery) {
      told = Clock::now();
      tell(asked.number, [&](Report& r) {
        r.steps = std::min(steps, most);
        r.steps_most = most;
      });
    }
    ++steps;
    return stopped(asked.number) || Clock::now() > until;
  });
  tell(asked.number, [&](Report& r) {
    const bool whole = found.size() == changes.size();
    r.state = whole ? State::done : stopped(asked.number) ? State::stopped : State::out_of_time;
    r.what_if = std::move(found);
    r.demand = demand;
  });
}

}  // namespace squeezeout::plan_ahead
