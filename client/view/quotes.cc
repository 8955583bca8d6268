#include "client/view/quotes.h"

namespace squeezeout {

void Quotes::look_at(std::uint64_t revision, Instant now) {
  const Instant minute = std::chrono::floor<Minutes>(now);
  if (revision == revision_ && minute == minute_) return;
  revision_ = revision, minute_ = minute;
  wanted_.clear();
  again_.clear();
  joints_.clear();
}

Quotes::Wanted Quotes::key_of(const Reserve& w) {
  return {w.recipe, w.build, w.step,  w.builder,
          w.sheet,  w.lot,   w.after, w.reason.empty() ? Reason::none : Reason::given};
}

const Quotes::Answer& Quotes::earliest_for_wanted(const Floor& floor, const Reserve& wanted,
                                                  Instant now) {
  const Wanted key = key_of(wanted);
  const auto known = wanted_.find(key);
  if (known != wanted_.end()) return known->second;
  return wanted_.emplace(key, earliest(floor, wanted, now)).first->second;
}

const Quotes::Joint& Quotes::joint(const Floor& floor, const Reserve& wanted, Instant at,
                                   Instant now) {
  const std::pair key{key_of(wanted), at};
  const auto known = joints_.find(key);
  if (known != joints_.end()) return known->second;
  return joints_.emplace(key, joint_answer(floor, wanted, at, now)).first->second;
}

const Quotes::Answer& Quotes::earliest_again(const Floor& floor, GlueUpId glue_up, Instant after,
                                             Instant now) {
  const std::tuple key{glue_up, after};
  const auto known = again_.find(key);
  if (known != again_.end()) return known->second;
  return again_.emplace(key, earliest_for(floor, glue_up, after, now)).first->second;
}

}  // namespace squeezeout
