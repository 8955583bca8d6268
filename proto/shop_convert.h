#pragma once
// Message Shop of shop.proto to the domain's Shop and back: for the wire and for the shop file.
//   Shape    to_wire writes the wire's form: ids given, a tagged unit by itself, dwell in seconds, due in RFC 3339.
//            from_wire reads that form and the file's: `unit` lists, dwell in minutes, a due date without a time (the end of
//            that day in the shop's zone)
//   Refuses  every field out of its limits, unknown and doubled keys, an unknown zone. Whether the shop makes sense as a
//            whole is asked by shop_check.h

#include "common/floor/shop.h"
#include "proto/fields.h"

namespace squeezeout::v1 {
class Need;
class Shop;
}  // namespace squeezeout::v1

namespace squeezeout {

// By order: from 1; what stands in the message is not looked at.
enum class Ids { as_given, by_order };

[[nodiscard]] v1::Shop to_wire(const Shop& shop);
[[nodiscard]] Shop from_wire(const At& at, const v1::Shop& m, Ids ids);

// The gear of a message alone: what a table of gear is read by.
[[nodiscard]] std::vector<GearKind> gear_from_wire(const At& at, const v1::Shop& m, Ids ids);

[[nodiscard]] v1::Need to_wire(const GearNeed& need);
[[nodiscard]] GearNeed from_wire(const At& at, const v1::Need& m);

}  // namespace squeezeout
