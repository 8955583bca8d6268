#pragma once
// The demo: an invented shop and the week that lies behind it. Pure: the same shop and time give the same week.

#include <string_view>
#include <vector>

#include "common/floor/command.h"
#include "common/floor/shop.h"

namespace squeezeout {

// The shop file of the demo, as text.
[[nodiscard]] std::string_view demo_shop_text();

// What the benches sent from the morning of the Monday before `now` until `now`, in order: loading the shop, glue-ups reserved,
// started, clamped, released and scraped, some late, one spoiled, a clamp broken and mended. At `now` the floor is in full
// work: some glue-ups run, one of them wet and one over its time, some wait, some are reserved, and two have
// lost their place, one of which can have another.
[[nodiscard]] std::vector<Stamped> demo_week(const Shop& shop, Instant now);

}  // namespace squeezeout
