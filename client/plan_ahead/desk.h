#pragma once
// Desk: the workers of one device. Plans and what-ifs do not drive each other away.

#include "client/plan_ahead/worker.h"

namespace squeezeout::plan_ahead {

// The floor's own questions.
[[nodiscard]] Questions of_the_floor();

struct Desk {
  Desk(const Questions& questions, const std::function<void()>& wake)
      : plans(questions, wake), what_ifs(questions, wake) {}
  // Both are told before either is waited for.
  ~Desk() {
    plans.stop();
    what_ifs.stop();
  }
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;
  Worker& of(Task task) { return task == Task::what_if ? what_ifs : plans; }
  Worker plans, what_ifs;
};

}  // namespace squeezeout::plan_ahead
