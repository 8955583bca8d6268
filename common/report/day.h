#pragma once
// The day sheet: what was glued, what it held, and what it waited for.
//   Shape    a day is local midnight to local midnight of the shop's zone (23 to 25 hours)
//   Figures  see report/README.md; gear that dwells is busy though nobody works

#include <optional>
#include <string>
#include <vector>

#include "common/floor/state.h"

namespace squeezeout {

struct DayLine {  // one glue-up that was touched on the day
  GlueUpId glue_up;
  std::optional<Seconds> open_planned{}, open_actual{};    // spread until clamps on
  std::optional<Seconds> dwell_planned{}, dwell_actual{};  // clamps on until off
  std::optional<Seconds> release_late{};  // off later than promised (negative: earlier)
};
struct KindLine {
  GearKindId kind;
  Seconds held{};  // gear-time: count x elapsed, within the day, of glue-ups
  Seconds out_of_use{};
  double utilisation = 0;  // held / (stock x open time); above 1 when gear works through the night
  int peak = 0;
  Seconds
      waited{};  // waiting for gear of glue-ups that hold this kind and were promised a start on this day
};
struct NextCall {  // when somebody next has to do something about a glue-up
  Instant at{};
  GlueUpId glue_up;
  friend auto operator<=>(const NextCall&, const NextCall&) = default;
};
struct DaySheet {
  Date date{};
  Span span{};
  Seconds open_time{};  // of the shop, as far as the day has gone
  std::vector<DayLine> lines{};
  int started = 0, finished = 0, spoiled = 0, displaced = 0, cancelled = 0;
  std::vector<KindLine> kinds{};
  Seconds waited_for_gear{};
  std::vector<GlueUpId> curing_overnight{};  // clamped or waiting at the day's last closing
  std::vector<NextCall> first_tomorrow{};    // at most five, the earliest first
};

// Facts up to `now` count; later instants of the same day are plan and do not.
[[nodiscard]] DaySheet day_sheet(const Floor& floor, Date date, Instant now);

}  // namespace squeezeout
