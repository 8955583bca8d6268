#include "client/draft/starter.h"

#include "proto/shop_file.h"

namespace squeezeout {

extern const char kStarterShop[];

namespace draft {

const Shop& starter() {
  static const Shop shop = [] {
    auto read = read_shop_file("starter set", kStarterShop);
    CHECK(read.has_value());
    return std::move(*read);
  }();
  return shop;
}

}  // namespace draft
}  // namespace squeezeout
