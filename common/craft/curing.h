#pragma once
// Curing: the lengths of a glue-up that hang on the hour. Open time at the hour at which it is spread, dwell and wait over the
// temperature that the joint will see.
//   Shape    asked with instants; looks at recipe and sheet, which must outlive it, and owns the weather
//   Refuses  TooCold: below the sheet's floor somewhere between spreading and the end of the dwell
//   Source   trade/SOURCES.md#cure, trade/SOURCES.md#open_time

#include "common/craft/recipe.h"
#include "common/trade/cure.h"

namespace squeezeout {

class Curing {
 public:
  Curing(const Recipe& recipe, const AdhesiveSheet& sheet, Weather weather);

  struct Lengths {
    Seconds open_limit{}, dwell{}, wait{};
    Celsius coldest;  // of the wood, between spreading and the end of the dwell
  };
  [[nodiscard]] Result<Lengths, TooCold> at(Instant open_begin, Instant clamped_begin) const;
  // Dwell alone, for clamps that are on: what cold there is makes it longer, however cold; at least the recipe's own.
  [[nodiscard]] Lengths running(Instant open_begin, Instant clamped_begin) const;
  // From here on the hour makes no difference.
  [[nodiscard]] Instant steady_from() const { return wood_.steady_from(); }

  const AdhesiveSheet& sheet() const { return sheet_; }
  const Weather& weather() const { return weather_; }
  const WoodCourse& wood() const { return wood_; }

 private:
  const Recipe& recipe_;
  const AdhesiveSheet& sheet_;
  Weather weather_;
  WoodCourse wood_;
};

}  // namespace squeezeout
