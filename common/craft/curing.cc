#include "common/craft/curing.h"

#include <algorithm>

namespace squeezeout {
namespace {

constexpr int kColder = 64;  // a longer dwell sees more of a night, each time a little colder

}  // namespace

Curing::Curing(const Recipe& recipe, const AdhesiveSheet& sheet, Weather weather)
    : recipe_(recipe),
      sheet_(sheet),
      weather_(std::move(weather)),
      wood_(weather_, wood_time_constant(recipe.joint.thickness)) {}

Result<Curing::Lengths, TooCold> Curing::at(Instant open_begin, Instant clamped_begin) const {
  const auto dwell = dwell_from(sheet_, wood_, open_begin, clamped_begin);
  if (!dwell) return Unexpected{dwell.error()};
  Lengths out;
  // A recipe may ask for more than the sheet; the cold may ask for more than both.
  out.dwell = std::max(*dwell, recipe_.dwell.value_or(Seconds{0}));
  out.wait = wait_from(sheet_, recipe_.wait.value_or(sheet_.wait), wood_, clamped_begin);
  out.open_limit = open_time_at(sheet_, wood_.at(open_begin), weather_.air(open_begin),
                                weather_.humidity(open_begin));
  out.coldest = wood_.coldest({open_begin, clamped_begin + *dwell});
  return out;
}

Curing::Lengths Curing::running(Instant open_begin, Instant clamped_begin) const {
  auto lengths = at(open_begin, clamped_begin);
  if (lengths) return *lengths;
  // The glue is in the joint: the floor gives way to the coldest that it sees, until it sees no colder.
  AdhesiveSheet any = sheet_;
  auto dwell = dwell_from(any, wood_, open_begin, clamped_begin);
  Lengths out;
  for (int i = 0; i < kColder && !dwell; ++i) {
    out.coldest = dwell.error().wood;
    any.floor = out.coldest - Celsius{0.01};
    dwell = dwell_from(any, wood_, open_begin, clamped_begin);
  }
  out.dwell = std::max(dwell ? *dwell : kMaxClaim / 2, recipe_.dwell.value_or(Seconds{0}));
  out.wait = wait_from(sheet_, recipe_.wait.value_or(sheet_.wait), wood_, clamped_begin);
  out.open_limit = open_time_at(sheet_, wood_.at(open_begin), weather_.air(open_begin),
                                weather_.humidity(open_begin));
  return out;
}

}  // namespace squeezeout
