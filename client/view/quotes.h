#pragma once
// Quotes: what the floor's own questions ("earliest?", "what does the joint need?") answer for the screens, asked once a minute
// and once a revision, not once a frame.

#include <cstdint>
#include <map>
#include <tuple>

#include "common/floor/ask.h"

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

 private:
  enum class Reason { none, given };
  using Wanted = std::tuple<RecipeId, BuildId, int, BuilderId, SheetId, LotId, Instant, Reason>;
  static Wanted key_of(const Reserve& wanted);
  std::uint64_t revision_ = 0;
  Instant minute_{};
  std::map<Wanted, Answer> wanted_;
  std::map<std::tuple<GlueUpId, Instant>, Answer> again_;
  std::map<std::pair<Wanted, Instant>, Joint> joints_;
};

}  // namespace squeezeout
