#include "client/view/quotes.h"

namespace squeezeout {
namespace {

// What is known under that key, or else what `ask` says.
template <class Map, class Ask>
const typename Map::mapped_type& known_or(Map& map, const typename Map::key_type& key, Ask ask) {
  const auto known = map.find(key);
  return known != map.end() ? known->second : map.emplace(key, ask()).first->second;
}

}  // namespace

void Quotes::look_at(std::uint64_t revision, Instant now) {
  const Instant minute = std::chrono::floor<Minutes>(now);
  if (revision == revision_ && minute == minute_) return;
  revision_ = revision, minute_ = minute;
  wanted_.clear();
  again_.clear();
  at_.clear();
  free_starts_.clear();
  joints_.clear();
  why_wanted_.clear();
  why_.clear();
  others_.clear();
  chains_.clear();
  at_risk_.reset();
}

Quotes::Wanted Quotes::key_of(const Reserve& w) {
  return {w.recipe, w.build, w.step,  w.builder,
          w.sheet,  w.lot,   w.after, w.reason.empty() ? Given::none : Given::reason};
}

const Quotes::Answer& Quotes::earliest_for_wanted(const Floor& floor, const Reserve& wanted,
                                                  Instant now) {
  return known_or(wanted_, key_of(wanted), [&] { return earliest(floor, wanted, now); });
}

const Quotes::Joint& Quotes::joint(const Floor& floor, const Reserve& wanted, Instant at,
                                   Instant now) {
  return known_or(joints_, {key_of(wanted), at},
                  [&] { return joint_answer(floor, wanted, at, now); });
}

const Quotes::Answer& Quotes::earliest_again(const Floor& floor, GlueUpId glue_up, Instant after,
                                             Instant now) {
  return known_or(again_, {glue_up, after},
                  [&] { return earliest_for(floor, glue_up, after, now); });
}

const Quotes::Answer& Quotes::at(const Floor& floor, GlueUpId glue_up, Instant start, Instant now) {
  return known_or(at_, {glue_up, start}, [&]() -> Answer {
    const GlueUp* g = floor.glue_up(glue_up);
    if (g == nullptr) return Unexpected{Refusal{NoSuch{Thing::glue_up, glue_up.value}}};
    const auto query = query_to_move(floor, *g, now);
    if (!query) return Unexpected{query.error()};
    return quote_at(floor, *query, g->sheet, start, now);
  });
}

const Quotes::Reason& Quotes::why(const Floor& floor, const Reserve& wanted, Instant now) {
  return known_or(why_wanted_, key_of(wanted), [&] { return why_not_earlier(floor, wanted, now); });
}

const Quotes::Reason& Quotes::why(const Floor& floor, GlueUpId glue_up, Instant now) {
  return known_or(why_, glue_up, [&] { return why_not_earlier(floor, glue_up, now); });
}

const std::vector<Alternative>& Quotes::others(const Floor& floor, const Reserve& wanted,
                                               Instant now) {
  return known_or(others_, key_of(wanted), [&] { return alternatives(floor, wanted, now); });
}

const std::vector<ChainLink>& Quotes::chain(const Floor& floor, GlueUpId last, Instant now) {
  return known_or(chains_, last, [&] {
    return last ? critical_chain(floor, last, now) : critical_chain(floor, now);
  });
}

const std::vector<AtRisk>& Quotes::at_risk(const Floor& floor, Instant now) {
  if (!at_risk_) at_risk_ = builds_at_risk(floor, now);
  return *at_risk_;
}

}  // namespace squeezeout
