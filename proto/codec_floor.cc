// The whole floor. What apply() keeps from the records (ledgers, chain, due) does not travel: reading applies the records as
// events, so that one place knows how it is kept.
#include <fmt/format.h>

#include <set>

#include "common/floor/apply.h"
#include "proto/codec_parts.h"
#include "proto/shop_convert.h"
#include "wire.pb.h"

namespace squeezeout {
namespace {

// What a record refers to must be there, or apply() and everything after it would stumble.
template <class Thing, class IdType>
bool refers(const At& at, const Thing* thing, IdType id) {
  if (thing) return true;
  at.wrong(fmt::format("is {}, and the shop has none of that id", id.value),
           "name a thing of the shop");
  return false;
}

bool travels(const Floor& floor, const GlueUp& g, Instant since) {
  if (!g.ended_at || *g.ended_at >= since) return true;
  const auto chain = floor.chain.find(g.build);
  if (!floor.build(g.build) || chain == floor.chain.end()) return false;
  const auto step = chain->second.find(g.step);
  return step != chain->second.end() && step->second == g.id;
}

bool refers(const At& at, const Floor& floor, const GlueUp& g) {
  bool all = refers(at("recipe"), floor.recipe(g.recipe), g.recipe);
  if (g.sheet) all = refers(at("sheet"), floor.sheet(g.sheet), g.sheet) && all;
  if (g.builder) all = refers(at("builder"), floor.builder(g.builder), g.builder) && all;
  if (g.bench) all = refers(at("bench"), floor.bench(g.bench), g.bench) && all;
  if (g.build) all = refers(at("build"), floor.build(g.build), g.build) && all;
  return all;
}

// The ledger stops the program on a claim that breaks its invariant, as that is a bug; bytes from outside are asked first.
bool fits(const At& at, const Floor& floor, const std::vector<Claim>& claims) {
  std::set<GearKindId> kinds;
  for (const Claim& claim : claims) {
    if (claim.span.empty() || claim.count == 0) continue;
    const Span counted = claim.span.intersect({floor.gear.stock_since(claim.kind), kNever});
    const int stock = floor.gear.stock(claim.kind),
              taken = floor.gear.peak(claim.kind, counted).level;
    if (!floor.kind(claim.kind))
      at.wrong(fmt::format("holds kind {}, which the shop does not have", claim.kind.value),
               "name gear of the shop");
    else if (!kinds.insert(claim.kind).second)
      at.wrong(fmt::format("holds kind {} twice", claim.kind.value),
               "add up what it holds of a kind");
    else if (claim.span.length() > kMaxClaim)
      at.wrong("holds gear for more than 366 days", "use 366 days at most");
    else if (!counted.empty() && claim.count > stock - taken)
      at.wrong(fmt::format("holds {} of kind {}, of which {} are free", claim.count,
                           claim.kind.value, stock - taken),
               "claim no more than is free");
    else
      continue;
    return false;
  }
  return true;
}

// Lots and pots. A pot outlives the bottle and the sheet that it names; a lot does not.
void read_bottles(const At& at, const v1::Floor& m, Floor& floor) {
  const auto once = [](const At& here, bool fresh) {
    if (!fresh) here("id").wrong("comes twice", "number them apart");
  };
  for (int i = 0; i < m.lot_size(); ++i) {
    const At here = at("lot", i);
    const Lot lot = from_wire(here, m.lot(i));
    if (!lot.id) here("id").wrong("is 0", "number lots from 1");
    if (refers(here("sheet"), floor.sheet(lot.sheet), lot.sheet))
      once(here, floor.lots.emplace(lot.id, lot).second);
  }
  for (int i = 0; i < m.pot_size(); ++i) {
    const At here = at("pot", i);
    const Pot pot = from_wire(here, m.pot(i));
    once(here, floor.pots.emplace(pot.id, pot).second);
  }
  floor.last_lot = m.last_lot();
  floor.last_pot = m.last_pot();
  if (!floor.lots.empty() && floor.lots.rbegin()->first.value > floor.last_lot)
    at("last_lot").wrong("is less than a lot's id", "name the last id that was given");
  if (!floor.pots.empty() && floor.pots.rbegin()->first.value > floor.last_pot)
    at("last_pot").wrong("is less than a pot's id", "name the last id that was given");
}

void read_plans(const At& at, const v1::Floor& m, Floor& floor) {
  for (int i = 0; i < m.plan_size(); ++i) {
    const At here = at("plan", i);
    const PlanRecord plan = from_wire(here, m.plan(i));
    if (!floor.plans.emplace(plan.id, plan).second)
      here("id").wrong("comes twice", "number plans apart");
  }
  floor.last_plan = m.last_plan();
  if (!floor.plans.empty() && floor.plans.rbegin()->first.value > floor.last_plan)
    at("last_plan").wrong("is less than a plan's id", "name the last id that was given");
}

// What the glue-ups of a floor tell of assembly times is less than what it knows: some of them do not travel. A floor that was
// written before these times were kept says nothing of them.
void read_assembly(const At& at, const v1::Floor& m, Floor& floor) {
  if (m.assembly_size() > 0) floor.assembly.clear();
  for (int i = 0; i < m.assembly_size(); ++i) {
    const At here = at("assembly", i);
    const v1::Assembly& a = m.assembly(i);
    auto& samples = floor.assembly[{{a.recipe()}, {a.builder()}}];
    if (!samples.emplace(GlueUpId{a.glue_up()}, length(here("seconds"), a.seconds())).second)
      here("glue_up").wrong("comes twice", "name each glue-up once");
  }
}

}  // namespace

v1::Floor to_wire(const Floor& floor, Instant since) {
  v1::Floor m;
  if (floor.shop) *m.mutable_shop() = to_wire(*floor.shop);
  for (const auto& [id, g] : floor.glue_ups)
    if (travels(floor, g, since)) *m.add_glue_up() = to_wire(g);
  for (const auto& [id, g] : floor.before)
    if (const GlueUp* now = floor.glue_up(id); now && travels(floor, *now, since))
      *m.add_before() = to_wire(g);
  for (const auto& [id, outage] : floor.outages) *m.add_outage() = to_wire(outage);
  for (const auto& [kind, stock] : floor.stock) *m.add_stock() = to_wire(stock);
  *m.mutable_climate() = to_wire(floor.climate);
  m.set_last_glue_up(floor.last_glue_up);
  m.set_last_outage(floor.last_outage);
  *m.mutable_reading() = to_wire(floor.readings);
  *m.mutable_forecast() = to_wire(floor.forecast);
  for (const auto& [id, lot] : floor.lots) *m.add_lot() = to_wire(lot);
  for (const auto& [id, pot] : floor.pots) *m.add_pot() = to_wire(pot);
  for (const auto& [who, samples] : floor.assembly)
    for (const auto& [glue_up, took] : samples) {
      v1::Assembly* a = m.add_assembly();
      a->set_recipe(who.first.value);
      a->set_builder(who.second.value);
      a->set_glue_up(glue_up.value);
      a->set_seconds(took.count());
    }
  m.set_last_lot(floor.last_lot);
  m.set_last_pot(floor.last_pot);
  for (const auto& [id, plan] : floor.plans) *m.add_plan() = to_wire(plan);
  m.set_last_plan(floor.last_plan);
  return m;
}

Floor from_wire(const At& at, const v1::Floor& m) {
  Floor floor;
  if (m.has_shop()) {
    const At here = at("shop");
    Shop shop = from_wire(here, m.shop(), Ids::as_given);
    if (here.any()) return floor;
    apply(floor, ShopLoaded{std::move(shop)});
  } else if (m.glue_up_size() + m.before_size() + m.outage_size() + m.stock_size() > 0) {
    at("shop").wrong("is missing", "what is on the floor belongs to a shop");
    return floor;
  }
  for (int i = 0; i < m.stock_size(); ++i) {
    const StockSet stock = from_wire(at("stock", i), m.stock(i));
    apply(floor, stock);
  }
  if (floor.shop)
    for (const GearKind& kind : floor.shop->gear)
      if (!floor.stock.contains(kind.id))
        at("stock").wrong(fmt::format("leaves out kind {}", kind.id.value),
                          "say how many there are");
  if (m.has_climate()) floor.climate = from_wire(at("climate"), m.climate());
  floor.readings = from_wire(at, "reading", m.reading());
  floor.forecast = from_wire(at, "forecast", m.forecast());
  read_bottles(at, m, floor);
  for (int i = 0; i < m.outage_size(); ++i) {
    const At here = at("outage", i);
    const Outage outage = from_wire(here, m.outage(i));
    if (floor.outages.contains(outage.id)) here("id").wrong("comes twice", "number outages apart");
    if (!here.any() && fits(here, floor, {{outage.kind, outage.count, outage.span}}))
      apply(floor, OutageChanged{outage});
  }
  for (int i = 0; i < m.glue_up_size(); ++i) {
    const At here = at("glue_up", i);
    const GlueUp g = from_wire(here, m.glue_up(i));
    if (floor.glue_up(g.id)) here("id").wrong("comes twice", "number glue-ups apart");
    if (refers(here, floor, g) && !here.any() && fits(here, floor, claims_of(g)))
      apply(floor, GlueUpChanged{Change::reserved, g});
  }
  floor.before.clear();
  for (int i = 0; i < m.before_size(); ++i) {
    const At here = at("before", i);
    GlueUp g = from_wire(here, m.before(i));
    const GlueUp* now = floor.glue_up(g.id);
    if (refers(here("id"), now, g.id) && refers(here, floor, g) &&
        !floor.before.emplace(g.id, g).second)
      here("id").wrong("comes twice", "number glue-ups apart");
  }
  read_assembly(at, m, floor);
  read_plans(at, m, floor);
  floor.last_glue_up = m.last_glue_up();
  floor.last_outage = m.last_outage();
  if (!floor.glue_ups.empty() && floor.glue_ups.rbegin()->first.value > floor.last_glue_up)
    at("last_glue_up").wrong("is less than a glue-up's id", "name the last id that was given");
  if (!floor.outages.empty() && floor.outages.rbegin()->first.value > floor.last_outage)
    at("last_outage").wrong("is less than an outage's id", "name the last id that was given");
  return floor;
}

}  // namespace squeezeout
