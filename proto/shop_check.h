#pragma once
// Does a shop file make sense as a whole? Every field is in its limits already (shop_convert.h).
//   Shape    `shop` was read from the message at `at`, so recipe i is its field recipe[i]
//   Refuses  no hours; a glue's floor above its coldest point; a recipe that outlasts its usual glue, or needs gear that the
//            shop could never lay out; a build without steps

#include "common/floor/shop.h"
#include "proto/fields.h"

namespace squeezeout {

void check_shop(const At& at, const Shop& shop);

}  // namespace squeezeout
