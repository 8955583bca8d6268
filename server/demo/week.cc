#include "server/demo/week.h"

namespace squeezeout {

extern const char kDemoShop[];

std::string_view demo_shop_text() { return kDemoShop; }

std::vector<Stamped> demo_week(const Shop& shop, Instant now) {
  return {{{}, {}, now, LoadShop{shop}}};
}

}  // namespace squeezeout
