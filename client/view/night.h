#pragma once
// A cold night as a person tells it, "9 C from 22:00 to 7:00", made a forecast.

#include <vector>

#include "client/look/intent.h"
#include "common/floor/state.h"

namespace squeezeout {

// The draft before anything is stepped: the air as it was read last, and a night 8 degrees colder.
[[nodiscard]] AirDraft air_draft(const Floor& floor);
// The night that is meant: the first that is not over at `now`. Hours are the shop's.
[[nodiscard]] Span night_of(const Floor& floor, const AirDraft& air, Instant now);
// As cold as it says over the whole night; before and after an hour's slope, the air as read. Instants rise, from `now`.
[[nodiscard]] SetForecast cold_night(const Floor& floor, const AirDraft& air, Instant now);

}  // namespace squeezeout
