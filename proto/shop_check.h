#pragma once
// Does a shop file make sense as a whole? Every field is in its limits already (shop_convert.h).
//   Shape    `shop` was read from the message `m` at `at`, so recipe i is its field recipe[i]
//   Refuses  no hours; a glue's floor above its coldest point, a solvent that is unknown or refused, a reaction told twice; a
//            recipe that outlasts its usual glue, or needs gear that the shop could never lay out or that cannot be worked out;
//            a joint without its size or a face, unknown materials; heat without a hot form; a build without steps, woods of
//            parts that it does not have

#include "common/floor/shop.h"
#include "proto/fields.h"

namespace squeezeout::v1 {
class Shop;
}

namespace squeezeout {

void check_shop(const At& at, const Shop& shop, const v1::Shop& m);

}  // namespace squeezeout
