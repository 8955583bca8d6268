#pragma once
// apply: takes an event into the floor. Total for the events that decide() makes; replay uses only this, the client's mirror too.
//   Call it as squeezeout::apply: an Event is a std::variant, so the bare name would find std::apply too.

#include <cstdint>
#include <vector>

#include "common/floor/event.h"
#include "common/floor/state.h"

namespace squeezeout {

void apply(Floor& floor, const Event& event);

// The same floors have the same hash, on every machine. `since`: glue-ups that ended earlier do not count (a client does not
// hold them).
[[nodiscard]] std::uint64_t floor_hash(const Floor& floor, Instant since = Instant::min());

}  // namespace squeezeout
