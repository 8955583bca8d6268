#pragma once
// The keys of the reserve screen: RESERVE, or the reasons that a glue which does not suit is taken for; beside them another time,
// somebody else, where the figures come from.

#include "client/view/offer.h"

namespace squeezeout::bench {

// Lays the keys beside the big one out, at the foot of `area`. Returns the place of the big key, or of the reasons.
[[nodiscard]] look::Rect cut_keys(look::Canvas& canvas, look::Rect& area, const Scene& scene,
                                  const Offer& offer);
void reserve_key(look::Canvas& canvas, look::Rect at, const Scene& scene);
void no_reserve(look::Canvas& canvas, look::Rect at);
// The glue does not suit: reserved all the same, for a reason that goes on record.
void reason_keys(look::Canvas& canvas, look::Rect at, const Scene& scene);

}  // namespace squeezeout::bench
