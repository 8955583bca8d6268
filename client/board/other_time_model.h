#pragma once
// Another time for the picked glue-up: a lane above the others shows the stretches in which it could start and, where it is being
// moved to, its ghost; the strip below says whether it fits there or what is in the way, and the Next key moves it.
//   Shape   the ghost goes by keys, in quarters of an hour and days, and to where the pointer presses; nothing changes until
//           the Next key asks the server. What does not fit, the Next key moves to the first time after that does

#include "client/board/chain_model.h"
#include "client/board/time_axis.h"

namespace squeezeout::board {

// What is sought, judged by the floor at its wished time.
struct Sought {
  const GlueUp* glue_up = nullptr;
  Instant wish{};
  const Quotes::Answer& answer;
  [[nodiscard]] bool fits() const { return answer.has_value(); }
  [[nodiscard]] PhaseTimes times() const;  // there; as it lasts now, where it does not fit
  [[nodiscard]] std::optional<Instant> can() const;  // there, or the first after it
  [[nodiscard]] std::vector<GlueUpId> in_the_way() const;
};
// nullopt: nothing is sought, or it can no longer be moved.
[[nodiscard]] std::optional<Sought> sought_of(const Scene& scene);

// `window`: what the axis shows. Returns whether there is more to work out.
[[nodiscard]] look::Frame::Work find_stretches(const Scene& scene, const Sought& sought,
                                               Span window);
[[nodiscard]] float ghost_lane_px(const look::Canvas& canvas);
void ghost_lane(look::Canvas& canvas, look::Rect header, look::Rect lane, const Scene& scene,
                const Sought& sought, const TimeAxis& axis, float now_x);
void in_the_way_marks(look::Canvas& canvas, const Sought& sought, const Places& places);

[[nodiscard]] float other_time_px(const look::Canvas& canvas);
void other_time_strip(look::Canvas& canvas, look::Rect at, const Scene& scene, const Sought& sought,
                      const Outlook& here, const TimeAxis& axis);

}  // namespace squeezeout::board
