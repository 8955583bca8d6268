#include "server/store/store.h"

#include <algorithm>

namespace squeezeout {

std::optional<ClaimsPut> claims_put(const Event& event) {
  ClaimsPut put;
  if (const auto* changed = std::get_if<GlueUpChanged>(&event)) {
    put = {Holder::of(changed->after.id), claims_of(changed->after)};
  } else if (const auto* outage = std::get_if<OutageChanged>(&event)) {
    const Outage& o = outage->after;
    put = {Holder::of(o.id), {{o.kind, o.count, o.span}}};
  } else {
    return std::nullopt;
  }
  std::erase_if(put.claims, [](const Claim& c) { return c.span.empty() || c.count <= 0; });
  std::sort(put.claims.begin(), put.claims.end());
  return put;
}

}  // namespace squeezeout
