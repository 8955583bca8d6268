#include "common/schedule/solve.h"

#include <algorithm>

#include "common/schedule/exact.h"
#include "common/schedule/improve.h"

namespace squeezeout::schedule {
namespace {

constexpr std::int64_t kFirst = 1'000;  // generation before anything is proven
constexpr std::int64_t kSlice = 4'000;  // of a round of turns at first
constexpr std::int64_t kLongestSlice = 16'000;
constexpr int kLeastShare = 1, kShares = 16;  // of a round, to who found nothing lately

// Two searchers at one problem: generation finds good schedules quickly, the exact search proves, and finds where room is tight.
// They take turns; who finds better ones gets more of them.
class Turns {
 public:
  Turns(const Problem& problem, Bounds bounds, const Budget& budget)
      : budget_(budget),
        stop_([&budget] { return budget.stop && budget.stop(); }),
        improver_(problem, bounds, budget.seed) {
    generate(kFirst);  // a first plan does not wait for the exact search to be set up
    exact_.emplace(problem, std::move(bounds), budget.seed);
    if (out_.best) exact_->take(*out_.best);
    out_.lower_bound = exact_->lower_bound();
  }

  Outcome run() {
    std::int64_t slice = kSlice;
    int share = kShares / 4;  // of kShares, for the exact search
    while (!over()) {
      const bool proving_found = prove(slice * share / kShares);
      if (over()) break;
      const bool generating_found = generate(slice * (kShares - share) / kShares);
      if (proving_found && !generating_found) share = std::min(share + 1, kShares - kLeastShare);
      if (generating_found && !proving_found) share = std::max(share - 1, kLeastShare);
      slice = std::min(slice * 2, kLongestSlice);
    }
    return std::move(out_);
  }

 private:
  bool over() {
    if (out_.status == Outcome::Status::optimal || out_.status == Outcome::Status::infeasible)
      return true;
    if (out_.best && out_.best->cost <= out_.lower_bound) {
      out_.status = Outcome::Status::optimal;
      return true;
    }
    return out_.work >= budget_.work || stop_();
  }

  bool generate(std::int64_t work) {
    const std::int64_t before = improver_.work();
    const bool better = improver_.run(std::min(work, budget_.work - out_.work), stop_);
    out_.work += std::max<std::int64_t>(improver_.work() - before, 1);
    if (better && exact_) exact_->take(*improver_.best());
    return tell(better ? improver_.best() : std::nullopt);
  }

  bool prove(std::int64_t work) {
    const std::int64_t before = exact_->work();
    const Exact::Answer answer = exact_->run(std::min(work, budget_.work - out_.work), stop_);
    out_.work += std::max<std::int64_t>(exact_->work() - before, 1);
    out_.lower_bound = std::max(out_.lower_bound, exact_->lower_bound());
    const bool better = answer == Exact::Answer::better;
    if (better) improver_.take(*exact_->best());
    const bool told = tell(better ? exact_->best() : std::nullopt);
    if (answer == Exact::Answer::exhausted) {
      out_.status = out_.best ? Outcome::Status::optimal : Outcome::Status::infeasible;
      if (out_.best) out_.lower_bound = out_.best->cost;
    }
    return told;
  }

  bool tell(const std::optional<Schedule>& found) {
    const bool better = found && (!out_.best || found->cost < out_.best->cost);
    if (better) {
      out_.best = found;
      out_.status = Outcome::Status::feasible;
      if (budget_.on_better) budget_.on_better(*out_.best);
    }
    if (budget_.progress) {
      budget_.progress({out_.work, improver_.schedules() + (exact_ ? exact_->conflicts() : 0),
                        out_.best ? std::optional{out_.best->cost} : std::nullopt,
                        out_.lower_bound});
    }
    return better;
  }

  const Budget& budget_;
  const std::function<bool()> stop_;
  Improver improver_;
  std::optional<Exact> exact_;
  Outcome out_;
};

}  // namespace

Outcome solve(const Problem& problem, const Budget& budget) {
  Outcome out;
  auto bounds = bounds_of(problem);
  if (auto* cycle = std::get_if<Cycle>(&bounds)) {
    out.status = Outcome::Status::infeasible;
    out.cycle = std::move(*cycle);
    return out;
  }
  if (auto* no_room = std::get_if<NoRoom>(&bounds)) {
    out.status = Outcome::Status::infeasible;
    out.no_room = *no_room;
    return out;
  }
  return Turns{problem, std::move(std::get<Bounds>(bounds)), budget}.run();
}

}  // namespace squeezeout::schedule
