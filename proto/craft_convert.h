#pragma once
// What the craft works with, as messages of shop.proto and back: joints, heated forms, and the air of the shop.
//   Refuses  figures out of their limits; times of the day that do not rise. Whether a joint makes sense is asked by
//            shop_check.h

#include "common/floor/shop.h"
#include "proto/fields.h"

namespace squeezeout::v1 {
class Heat;
class Joint;
class Shop;
}  // namespace squeezeout::v1

namespace squeezeout {

[[nodiscard]] v1::Joint to_wire(const Joint& joint);
[[nodiscard]] Joint from_wire(const At& at, const v1::Joint& m);
[[nodiscard]] v1::Heat to_wire(const Heat& heat);
[[nodiscard]] Heat from_wire(const At& at, const v1::Heat& m);

// Fields `daily`, `service` and `room` of a shop.
void write_air(const Shop& shop, v1::Shop* m);
void read_air(const At& at, const v1::Shop& m, Shop& shop);

}  // namespace squeezeout
