#pragma once
// Curing: the lengths of a glue-up that hang on the hour. Open time at the hour at which it is spread, dwell and wait over the
// temperature that the joint will see.
//   Shape    asked with instants; looks at recipe and sheet, which must outlive it, and shares the climate
//   Refuses  TooCold: below the sheet's floor somewhere between spreading and the end of the dwell
//   Source   trade/SOURCES.md#cure, trade/SOURCES.md#open_time

#include <map>
#include <memory>
#include <optional>

#include "common/craft/recipe.h"
#include "common/trade/cure.h"

namespace squeezeout {

// The weather with the courses of wood in it, each made once, at its first asking.
class Climate {
 public:
  explicit Climate(Weather weather) : weather_(std::move(weather)) {}
  const Weather& weather() const { return weather_; }
  const WoodCourse& wood(Millimetre thickness);

 private:
  Weather weather_;
  std::map<Seconds, WoodCourse> woods_;  // by time constant
};

inline constexpr Seconds kNeverSets = std::chrono::hours{24 * 14};

class Curing {
 public:
  Curing(const Recipe& recipe, const AdhesiveSheet& sheet, std::shared_ptr<Climate> climate);

  struct Lengths {
    Seconds open_limit{};     // rounded down to the second
    Seconds dwell{}, wait{};  // rounded UP to the minute: what people read
    Celsius coldest;          // of the wood, between spreading and the end of the dwell
  };
  [[nodiscard]] Result<Lengths, TooCold> at(Instant open_begin, Instant clamped_begin) const;
  // As if the sheet had no floor: where at() would refuse, the joint goes on as one that runs does.
  [[nodiscard]] Curing without_floor() const;
  // For clamps that are on: no floor can refuse them any more. A glue by points does not get on while the wood is below its floor,
  // and one that never gets there within the weather that is known is held for kNeverSets; a reacting glue gets on slowly.
  [[nodiscard]] Lengths running(Instant open_begin, Instant clamped_begin) const;
  // The first instant, minute by minute from `open_begin` on, at which spread glue stays open for `assembly`. nullopt: never.
  [[nodiscard]] std::optional<Instant> stays_open(Seconds assembly, Instant open_begin) const;
  // No dwell is shorter in this weather.
  [[nodiscard]] Seconds dwell_least() const;
  // From here on the hour makes no difference.
  [[nodiscard]] Instant steady_from() const { return wood_.steady_from(); }

  const AdhesiveSheet& sheet() const { return sheet_; }
  const Weather& weather() const { return climate_->weather(); }

 private:
  const Recipe& recipe_;
  const AdhesiveSheet& sheet_;
  enum class BelowFloor { refused, runs_on } below_floor_ = BelowFloor::refused;
  Seconds open_limit(Instant open_begin) const;
  Lengths lengths(Seconds dwell, Instant open_begin, Instant clamped_begin) const;

  std::shared_ptr<Climate> climate_;
  const WoodCourse& wood_;  // of the climate
};

}  // namespace squeezeout
