// What became of the floor, to message Events and back: the journal and the deltas.
#include "proto/codec_parts.h"
#include "proto/shop_convert.h"
#include "wire.pb.h"

namespace squeezeout {

v1::Events to_wire(const std::vector<Event>& events) {
  v1::Events m;
  for (const Event& event : events) {
    v1::Event* e = m.add_event();
    if (const auto* loaded = std::get_if<ShopLoaded>(&event)) {
      *e->mutable_shop_loaded()->mutable_shop() = to_wire(loaded->shop);
    }
    if (const auto* changed = std::get_if<GlueUpChanged>(&event)) {
      e->mutable_glue_up()->set_change(1 + static_cast<std::uint32_t>(changed->what));
      *e->mutable_glue_up()->mutable_after() = to_wire(changed->after);
    }
    if (const auto* outage = std::get_if<OutageChanged>(&event))
      *e->mutable_outage() = to_wire(outage->after);
    if (const auto* stock = std::get_if<StockSet>(&event)) *e->mutable_stock() = to_wire(*stock);
    if (const auto* climate = std::get_if<ClimateRead>(&event))
      *e->mutable_climate() = to_wire(*climate);
    if (const auto* forecast = std::get_if<ForecastSet>(&event)) {
      e->mutable_forecast()->set_at(seconds_of(forecast->at));
      *e->mutable_forecast()->mutable_point() = to_wire(forecast->points);
    }
    if (const auto* lot = std::get_if<LotChanged>(&event)) *e->mutable_lot() = to_wire(lot->after);
    if (const auto* mixed = std::get_if<PotMixed>(&event)) *e->mutable_pot() = to_wire(mixed->pot);
    if (const auto* plan = std::get_if<PlanChanged>(&event))
      *e->mutable_plan() = to_wire(plan->after);
  }
  return m;
}

std::vector<Event> from_wire(const At& at, const v1::Events& m) {
  std::vector<Event> events;
  for (int i = 0; i < m.event_size(); ++i) {
    const At here = at("event", i);
    const v1::Event& e = m.event(i);
    switch (e.what_case()) {
      case v1::Event::kShopLoaded: {
        const At loaded = here("shop_loaded");
        events.push_back(
            ShopLoaded{from_wire(loaded("shop"), e.shop_loaded().shop(), Ids::as_given)});
        break;
      }
      case v1::Event::kGlueUp: {
        const At changed = here("glue_up");
        events.push_back(
            GlueUpChanged{one_of<Change>(changed("change"), e.glue_up().change(), kChanges),
                          from_wire(changed("after"), e.glue_up().after())});
        break;
      }
      case v1::Event::kOutage:
        events.push_back(OutageChanged{from_wire(here("outage"), e.outage())});
        break;
      case v1::Event::kStock:
        events.push_back(from_wire(here("stock"), e.stock()));
        break;
      case v1::Event::kClimate:
        events.push_back(from_wire(here("climate"), e.climate()));
        break;
      case v1::Event::kForecast: {
        const At forecast = here("forecast");
        events.push_back(ForecastSet{instant(forecast("at"), e.forecast().at()),
                                     from_wire(forecast, "point", e.forecast().point())});
        break;
      }
      case v1::Event::kLot: {
        const At lot = here("lot");
        if (e.lot().id() == 0) lot("id").wrong("is 0", "number lots from 1");
        events.push_back(LotChanged{from_wire(lot, e.lot())});
        break;
      }
      case v1::Event::kPot:
        events.push_back(PotMixed{from_wire(here("pot"), e.pot())});
        break;
      case v1::Event::kPlan:
        events.push_back(PlanChanged{from_wire(here("plan"), e.plan())});
        break;
      case v1::Event::WHAT_NOT_SET:
        here.wrong("is an event that this program does not know", "update this program",
                   ErrorCode::unknown);
    }
  }
  return events;
}

}  // namespace squeezeout
