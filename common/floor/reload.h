#pragma once
// A shop file taken into a floor that may already run: keys keep their ids, nothing in use is lost.
//   Refuses  BadShop: a thing that glue-ups on record use is missing from it; an unknown zone
//            BelowClaims: less of a kind than is promised from now on

#include "common/floor/decide.h"

namespace squeezeout {

[[nodiscard]] Result<std::vector<Event>, Refusal> reload(const Floor& floor, const Shop& shop,
                                                         Instant at);

}  // namespace squeezeout
