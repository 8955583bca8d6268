#pragma once
// Sides bent on a heated form: strain of the bend, and when the form may be touched.
//   Units    millimetre, percent, Celsius, whole seconds rounded UP (down burns)
//   Refuses  OutOfRange: zero, negative, NaN; air in which the form never comes to be safe
//   Limits   people differ; where it can hurt someone the maker's sheet and licensed practice decide
//   Source   trade/SOURCES.md#bend_strain, trade/SOURCES.md#touch

#include "common/base/quantity.h"
#include "common/base/result.h"
#include "common/time/span.h"
#include "common/trade/range.h"

namespace squeezeout {

// Stretch of the outer face: t / (2 R + t).
[[nodiscard]] Result<Percent, OutOfRange> bend_strain(Millimetre thickness,
                                                      Millimetre inner_radius);
inline constexpr Percent kStrainNeedsStrap{2};  // above it: a backing strap. From memory

enum class Touch { safe, warm, hot };
inline constexpr Celsius kSafeToTouch{43}, kHotToTouch{48};  // from memory
// Safe at or below 43 C, hot from 48 C; between them warm: not yet safe. NaN, an unread thermometer, is hot.
[[nodiscard]] Touch touch(Celsius surface);

// How long until it is safe to touch: Newton's cooling, our model. 0: it is already.
[[nodiscard]] Result<Seconds, OutOfRange> safe_to_touch_in(Celsius now, Celsius air,
                                                           Seconds time_constant);

}  // namespace squeezeout
