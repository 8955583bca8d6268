#pragma once
// The costs that are sums over tasks: lateness, and disturbance. Each task costs at least what its bounds say.

#include "common/schedule/exact_engine.h"

namespace squeezeout::schedule::exact {

// sum of weight * (ticks ready after due) <= most.
class Lateness final : public Propagator {
 public:
  struct Term {
    View ready;
    Tick due;
    int weight;
  };
  Lateness(std::vector<Term> terms, std::int64_t most) : terms_(std::move(terms)), most_(most) {}
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;
  void lower(std::int64_t most) { most_ = most; }
  std::int64_t least(const Engine& engine) const;

 private:
  std::int64_t of(const Engine& engine, const Term& term) const;
  std::vector<Pred> beside(const Engine& engine, const Term* self, std::int64_t spare) const;

  std::vector<Term> terms_;
  std::int64_t most_;
};

// sum of the penalties of the chosen ways, and of kMoved + distance for each start that is not the announced one, <= most.
class Disturbance final : public Propagator {
 public:
  struct Way {
    std::optional<Pred> chosen;  // none: the only one
    int penalty;
  };
  struct Term {
    View start;
    std::optional<Tick> announced;
    std::vector<Way> ways;
  };
  Disturbance(std::vector<Term> terms, std::int64_t most)
      : terms_(std::move(terms)), most_(most), least_(terms_.size()) {}
  std::vector<Pred> wakes() const;
  bool propagate(Engine& engine) override;
  void lower(std::int64_t most) { most_ = most; }
  std::int64_t least(const Engine& engine) const;

 private:
  struct Least {
    std::int64_t moved = 0, penalty = 0;
  };
  Least of(const Engine& engine, const Term& term) const;
  void explain_moved(const Engine& engine, std::size_t t);
  void explain_penalty(std::size_t t);
  enum class Half { moved, penalty };
  void explain_others(const Engine& engine, std::size_t self, Half half);

  std::vector<Term> terms_;
  std::int64_t most_;
  std::vector<Least> least_;
  std::vector<Pred> why_;
};

}  // namespace squeezeout::schedule::exact
