#pragma once
// The parts of the codec, one file each: what a frame holds, to messages of wire.proto and back.
//   codec_records.cc   glue-ups, outages, air, lots, pots and plans
//   codec_events.cc    what became of the floor
//   codec_floor.cc     the whole floor
//   codec_commands.cc  what a client asks
//   codec_refusals.cc  refusals and the facts in them
// Reading is total: At (fields.h) keeps the mistakes, and a value read beside a mistake is not to be used.

#include "proto/codec.h"
#include "proto/fields.h"

namespace google::protobuf {
template <class T>
class RepeatedPtrField;
}
namespace squeezeout::v1 {
class ClimateRead;
class Command;
class Demand;
class Events;
class Floor;
class GlueUp;
class Held;
class Lot;
class Outage;
class PhaseTimes;
class Plan;
class Pot;
class Refusal;
class StockSet;
}  // namespace squeezeout::v1

namespace squeezeout {

[[nodiscard]] v1::PhaseTimes to_wire(const PhaseTimes& times);
[[nodiscard]] PhaseTimes from_wire(const At& at, const v1::PhaseTimes& m);
[[nodiscard]] v1::Held to_wire(const Held& held);
[[nodiscard]] Held from_wire(const At& at, const v1::Held& m);
[[nodiscard]] v1::GlueUp to_wire(const GlueUp& g);
[[nodiscard]] GlueUp from_wire(const At& at, const v1::GlueUp& m);
[[nodiscard]] v1::Outage to_wire(const Outage& outage);
[[nodiscard]] Outage from_wire(const At& at, const v1::Outage& m);
[[nodiscard]] v1::ClimateRead to_wire(const ClimateRead& climate);
[[nodiscard]] ClimateRead from_wire(const At& at, const v1::ClimateRead& m);
using AirPointList = google::protobuf::RepeatedPtrField<v1::ClimateRead>;
[[nodiscard]] AirPointList to_wire(const std::vector<AirPoint>& points);
[[nodiscard]] std::vector<AirPoint> from_wire(const At& message, std::string_view field,
                                              const AirPointList& list);  // refuses: not rising
[[nodiscard]] v1::Lot to_wire(const Lot& lot);
[[nodiscard]] Lot from_wire(const At& at, const v1::Lot& m);  // its id may be 0: a new bottle
[[nodiscard]] v1::Pot to_wire(const Pot& pot);
[[nodiscard]] Pot from_wire(const At& at, const v1::Pot& m);
[[nodiscard]] v1::Plan to_wire(const PlanRecord& plan);
[[nodiscard]] PlanRecord from_wire(const At& at, const v1::Plan& m);
[[nodiscard]] v1::StockSet to_wire(const StockSet& stock);
[[nodiscard]] StockSet from_wire(const At& at, const v1::StockSet& m);
[[nodiscard]] v1::Events to_wire(const std::vector<Event>& events);
[[nodiscard]] std::vector<Event> from_wire(const At& at, const v1::Events& m);

// Without the glue-ups that ended before `since`, except the steps of builds that are still in the shop: the next step of a
// build is found from those that are done.
[[nodiscard]] v1::Floor to_wire(const Floor& floor, Instant since);
[[nodiscard]] Floor from_wire(const At& at, const v1::Floor& m);

[[nodiscard]] v1::Command to_wire(const Asked& asked);
[[nodiscard]] Asked from_wire(const At& at, const v1::Command& m);

[[nodiscard]] v1::Refusal to_wire(const Refusal& refusal);
[[nodiscard]] Refusal from_wire(const At& at, const v1::Refusal& m);

inline std::int64_t seconds_of(Instant t) { return t.time_since_epoch().count(); }

}  // namespace squeezeout
