#include "common/craft/curing.h"

#include <algorithm>

namespace squeezeout {
namespace {

Seconds up_to_minute(Seconds s) { return std::chrono::ceil<Minutes>(s); }

}  // namespace

const WoodCourse& Climate::wood(Millimetre thickness) {
  const Seconds lag = wood_time_constant(thickness);
  const auto it = woods_.find(lag);
  return it != woods_.end() ? it->second
                            : woods_.emplace(lag, WoodCourse{weather_, lag}).first->second;
}

Curing::Curing(const Recipe& recipe, const AdhesiveSheet& sheet, std::shared_ptr<Climate> climate)
    : recipe_(recipe),
      sheet_(sheet),
      climate_(std::move(climate)),
      wood_(climate_->wood(recipe.joint.thickness)) {}

Seconds Curing::open_limit(Instant open_begin) const {
  return open_time_at(sheet_, wood_.at(open_begin), weather().air(open_begin),
                      weather().humidity(open_begin));
}

std::optional<Instant> Curing::stays_open(Seconds assembly, Instant open_begin) const {
  for (Instant t = open_begin;; t += Minutes{1}) {
    if (open_limit(t) >= assembly) return t;
    if (t >= steady_from()) return std::nullopt;
  }
}

Curing::Lengths Curing::lengths(Seconds dwell, Instant open_begin, Instant clamped_begin) const {
  Lengths out;
  // A recipe may ask for more than the sheet; the cold may ask for more than both.
  out.dwell = up_to_minute(std::max(dwell, recipe_.dwell.value_or(Seconds{0})));
  out.wait =
      up_to_minute(wait_from(sheet_, recipe_.wait.value_or(sheet_.wait), wood_, clamped_begin));
  out.open_limit = open_limit(open_begin);
  out.coldest = wood_.coldest({open_begin, clamped_begin + dwell});
  return out;
}

Result<Curing::Lengths, TooCold> Curing::at(Instant open_begin, Instant clamped_begin) const {
  const auto dwell = dwell_from(sheet_, wood_, open_begin, clamped_begin);
  if (!dwell && below_floor_ == BelowFloor::runs_on) return running(open_begin, clamped_begin);
  if (!dwell) return Unexpected{dwell.error()};
  return lengths(*dwell, open_begin, clamped_begin);
}

Curing Curing::without_floor() const {
  Curing out = *this;
  out.below_floor_ = BelowFloor::runs_on;
  return out;
}

Curing::Lengths Curing::running(Instant open_begin, Instant clamped_begin) const {
  const Seconds dwell = dwell_running(sheet_, wood_, clamped_begin);
  return lengths(std::min(dwell, kNeverSets), open_begin, clamped_begin);
}

Seconds Curing::dwell_least() const {
  // Wood is never warmer than the warmest air.
  Celsius warmest = weather().points().front().air;
  for (const AirPoint& p : weather().points()) warmest = std::max(warmest, p.air);
  double least = dwell_seconds(sheet_, warmest);
  for (const DwellPoint& p : sheet_.dwell) {  // a glue may be slower in the heat again
    if (p.wood <= warmest) least = std::min(least, dwell_seconds(sheet_, p.wood));
  }
  const Seconds dwell{static_cast<Seconds::rep>(least)};
  return std::max(dwell, recipe_.dwell.value_or(Seconds{0}));
}

}  // namespace squeezeout
