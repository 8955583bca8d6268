#pragma once
// A shop in the form that people keep in files: tagged units gathered under one key, dwell in minutes, due dates in the shop's
// zone, no ids, and nothing said that is so by itself.

#include "common/floor/shop.h"

namespace squeezeout::v1 {
class Shop;
}

namespace squeezeout {

[[nodiscard]] v1::Shop to_file_form(const Shop& shop);

}  // namespace squeezeout
