#include "tools/cli/fact_json.h"

namespace squeezeout::cli {
namespace {

Json of(const words::Context& c, const GearShort& f) {
  Json kinds = Json::array(), holders = Json::array();
  for (GearKindId k : f.kinds) kinds.push_back(key_json(c.floor.kind(k)));
  for (const HeldBy& h : f.holders) holders.push_back(holder_json(c, h));
  return {{"fact", "gear_short"}, {"kinds", kinds},   {"wanted", f.wanted},
          {"free", f.free},       {"owned", f.owned}, {"holders", holders}};
}

Json of(const words::Context& c, const HeldGear& f) {
  Json held = holder_json(c, f.held);
  held["fact"] = "held_gear";
  held["pieces"] = held_json(c, f.pieces);
  return held;
}

Json of(const words::Context&, const OwnsTooFew& f) {
  return {{"fact", "owns_too_few"}, {"wanted", f.wanted}, {"owned", f.owned}};
}

Json of(const words::Context& c, const ShopClosed& f) {
  return {{"fact", "closed"}, {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const ClosedHours& f) {
  return {{"fact", "closed"},
          {"builder", key_json(c.floor.builder(f.builder))},
          {"from", time_json(c, f.closed.begin)},
          {"until", time_json(c, f.closed.end)}};
}

Json of(const words::Context& c, const BuilderBusy& f) {
  return {{"fact", "builder_busy"},
          {"builder", key_json(c.floor.builder(f.builder))},
          {"with", f.with.value},
          {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const NotReadyYet& f) {
  return {
      {"fact", "waits_for"}, {"waits_for", f.waits_for.value}, {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const TooCold& f) {
  return {{"fact", "too_cold"},           {"glue", key_json(c.floor.sheet(f.sheet))},
          {"wood_celsius", f.wood.value}, {"floor_celsius", f.floor.value},
          {"from", time_json(c, f.at)},   {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const SkinsFirst& f) {
  return {{"fact", "skins_first"},
          {"glue", key_json(c.floor.sheet(f.sheet))},
          {"assembly_seconds", f.assembly.count()},
          {"open_seconds", f.open.count()},
          {"air_celsius", f.air.value}};
}

Json of(const words::Context& c, const BesideHeat& f) {
  return {{"fact", "beside_heat"}, {"with", f.with.value}, {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const PotGels& f) {
  return {{"fact", "pot_gels"},
          {"pot", f.pot.value},
          {"glue", key_json(c.floor.sheet(f.sheet))},
          {"until", time_json(c, f.until)}};
}

Json of(const words::Context& c, const BenchBusy& f) {
  return {{"fact", "bench_busy"},
          {"bench", key_json(c.floor.bench(f.bench))},
          {"with", f.with.value},
          {"until", time_json(c, f.until)}};
}

template <class Facts>
Json of_any(const words::Context& c, const Facts& facts) {
  return std::visit([&](const auto& f) { return of(c, f); }, facts);
}

}  // namespace

Json fact_json(const words::Context& c, const Fact& f) { return of_any(c, f); }
Json fact_json(const words::Context& c, const Blocker& b) { return of_any(c, b); }

}  // namespace squeezeout::cli
