#pragma once
// Quotes: what the floor's own questions ("earliest?", "why not sooner?", "what does the joint need?") answer for the screens,
// asked once a minute and once a revision, not once a frame.

#include <cstdint>
#include <map>
#include <tuple>

#include "client/view/free_starts.h"
#include "common/floor/ask.h"
#include "common/floor/replan.h"
#include "common/floor/why.h"

namespace squeezeout {

class Quotes {
 public:
  using Answer = Result<Quote, Refusal>;

  // Forget what was asked of another revision or minute.
  void look_at(std::uint64_t revision, Instant now);
  const Answer& earliest_for_wanted(const Floor& floor, const Reserve& wanted, Instant now);
  using Joint = Result<JointAnswer, Refusal>;
  const Joint& joint(const Floor& floor, const Reserve& wanted, Instant at, Instant now);
  const Answer& earliest_again(const Floor& floor, GlueUpId glue_up, Instant after, Instant now);
  // That glue-up moved to exactly `start`.
  const Answer& at(const Floor& floor, GlueUpId glue_up, Instant start, Instant now);
  FreeStarts& free_starts() { return free_starts_; }  // of what is being moved on the board
  using Reason = Result<Why, Refusal>;
  const Reason& why(const Floor& floor, const Reserve& wanted, Instant now);
  const Reason& why(const Floor& floor, GlueUpId glue_up, Instant now);
  const std::vector<Alternative>& others(const Floor& floor, const Reserve& wanted, Instant now);
  // Of that glue-up; 0: of the whole plan.
  const std::vector<ChainLink>& chain(const Floor& floor, GlueUpId last, Instant now);
  const std::vector<AtRisk>& at_risk(const Floor& floor, Instant now);

 private:
  enum class Given { none, reason };
  using Wanted = std::tuple<RecipeId, BuildId, int, BuilderId, SheetId, LotId, Instant, Given>;
  static Wanted key_of(const Reserve& wanted);
  std::uint64_t revision_ = 0;
  Instant minute_{};
  std::map<Wanted, Answer> wanted_;
  std::map<std::tuple<GlueUpId, Instant>, Answer> again_, at_;
  FreeStarts free_starts_;
  std::map<std::pair<Wanted, Instant>, Joint> joints_;
  std::map<Wanted, Reason> why_wanted_;
  std::map<GlueUpId, Reason> why_;
  std::map<Wanted, std::vector<Alternative>> others_;
  std::map<GlueUpId, std::vector<ChainLink>> chains_;
  std::optional<std::vector<AtRisk>> at_risk_;
};

}  // namespace squeezeout
