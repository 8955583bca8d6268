#pragma once
// Lots and pots: one bottle, with its age; one mix, with its running working life.
//   Source   trade/SOURCES.md#lot_age (common practice)

#include <optional>
#include <string>

#include "common/base/ids.h"
#include "common/time/span.h"
#include "common/trade/adhesive.h"

namespace squeezeout {

enum class Stored { cool, warm };  // warm: above about 25 C; storage life counts half

struct Lot {
  LotId id;
  SheetId sheet;
  std::string label;  // what is written on the bottle
  std::optional<Instant> made, opened, expires;
  Stored stored = Stored::cool;
  bool used_up = false;  // kept on record, offered no more
  friend bool operator==(const Lot&, const Lot&) = default;
};

enum class LotAge { unknown, fresh, old, stale };  // old: the last tenth of its life
// From when the bottle is stale: its own date, or the sheet's storage life after it was made (else opened), halved when warm.
// None: nothing is known of its age.
[[nodiscard]] std::optional<Instant> stale_from(const Lot& lot, const AdhesiveSheet& sheet);
[[nodiscard]] LotAge age_of(const Lot& lot, const AdhesiveSheet& sheet, Instant t);

// Glue mixed in one go. Every glue-up that is spread from it must have its clamps on before it sets in the pot.
struct Pot {
  PotId id;
  SheetId sheet;
  LotId lot;  // 0: not said
  BenchId bench;
  Instant mixed_at{}, until{};  // working life, as the temperature was at the mix
  friend bool operator==(const Pot&, const Pot&) = default;
};

}  // namespace squeezeout
