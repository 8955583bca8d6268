#pragma once
// The shop as its file describes it: who works there, when, with what gear, glues and recipes, and what is being built.
//   Shape    every vector is ordered by id; ids are given by the floor when a shop is loaded (keys keep their ids for good)

#include <optional>
#include <string>
#include <vector>

#include "common/craft/recipe.h"
#include "common/gear/kind.h"
#include "common/time/hours.h"
#include "common/trade/adhesive.h"
#include "common/trade/exposure.h"

namespace squeezeout {

struct Bench {
  BenchId id;
  std::string key, name;
  bool one_at_a_time = false;  // no two builders are planned to work at it at once
  friend bool operator==(const Bench&, const Bench&) = default;
};

struct Builder {
  BuilderId id;
  std::string key, name;
  BenchId bench;                   // where this builder usually stands
  std::optional<WeekHours> hours;  // none: the shop's
  friend bool operator==(const Builder&, const Builder&) = default;
};

struct Build {
  BuildId id;
  std::string key, name;  // "No. 14", a person reads it
  BuilderId builder;
  std::vector<RecipeId> steps;  // the chain, first glue-up first
  int done_before = 0;          // steps finished before the shop used squeezeout
  std::optional<Instant> due;
  Woods woods;  // of its parts, where they differ from the recipes' own
  friend bool operator==(const Build&, const Build&) = default;
};

// The air of the shop, for solvent sums.
struct Room {
  double volume_m3 = 0;          // 0: not said, no sums
  double air_m3_per_minute = 0;  // that the ventilation changes
  LimitSet limits = LimitSet::niosh;
  friend bool operator==(const Room&, const Room&) = default;
};

// The air at a time of each day, until a reading or a forecast says better: a heating schedule.
struct DailyAir {
  int minute = 0;  // after local midnight
  Celsius air;
  Percent humidity;
  friend bool operator==(const DailyAir&, const DailyAir&) = default;
};

// How figures are written for the people of this shop. They are kept and reckoned in SI.
struct Display {
  enum class Clock { hours_24, hours_12 };
  enum class Lengths { mm, inch };  // inch: in fractions, down to 1/16
  enum class Degrees { celsius, fahrenheit };
  Clock clock = Clock::hours_24;
  Lengths lengths = Lengths::mm;
  Degrees degrees = Degrees::celsius;
  friend bool operator==(const Display&, const Display&) = default;
};

struct Shop {
  std::string name;
  std::string zone;  // IANA
  Display display;
  WeekHours hours;
  Celsius climate_celsius{20};
  Percent climate_humidity{50};
  std::vector<DailyAir> daily;  // by minute, rising; none: as last read
  ServiceAir service;           // where the instruments will live
  Room room;
  std::vector<Bench> benches;
  std::vector<Builder> builders;
  std::vector<GearKind> gear;
  std::vector<AdhesiveSheet> sheets;
  std::vector<Recipe> recipes;
  std::vector<Build> builds;
  friend bool operator==(const Shop&, const Shop&) = default;
};

}  // namespace squeezeout
