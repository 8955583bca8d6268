#include "common/craft/lot.h"

#include <algorithm>

namespace squeezeout {

std::optional<Instant> stale_from(const Lot& lot, const AdhesiveSheet& sheet) {
  std::optional<Instant> out = lot.expires;
  const auto since = lot.made ? lot.made : lot.opened;
  if (since && sheet.shelf_days > 0) {
    Seconds life = std::chrono::days{sheet.shelf_days};
    if (lot.stored == Stored::warm) life /= 2;
    out = out ? std::min(*out, *since + life) : *since + life;
  }
  return out;
}

LotAge age_of(const Lot& lot, const AdhesiveSheet& sheet, Instant t) {
  const auto end = stale_from(lot, sheet);
  if (!end) return LotAge::unknown;
  if (t >= *end) return LotAge::stale;
  const auto since = lot.made ? lot.made : lot.opened;
  const Seconds life = since && *since < *end ? *end - *since : Seconds{std::chrono::days{300}};
  return t >= *end - life / 10 ? LotAge::old : LotAge::fresh;
}

}  // namespace squeezeout
