// Other ways to an earlier moment, each worked out to its place.

#include <algorithm>

#include "common/craft/gear_count.h"
#include "common/floor/ask.h"
#include "common/floor/why.h"

namespace squeezeout {
namespace {

// What is asked for, and the plain earliest that an alternative has to beat.
struct Asked {
  const Floor& floor;
  Reserve wanted;  // from its start on, when it names one
  SlotQuery query;
  Instant now{};
  std::optional<PhaseTimes> plain;

  bool sooner(Instant start) const { return !plain || start < plain->stage_begin; }
  bool sooner_ready(const PhaseTimes& t) const {
    return sooner(t.stage_begin) ||
           (t.stage_begin == plain->stage_begin && t.ready_at < plain->ready_at);
  }
};

std::optional<PhaseTimes> first(const Floor& f, const SlotQuery& query) {
  const Hours hours = f.hours_for(query.builder);
  const auto slot = earliest_slot(view_of(f, hours), query);
  return slot ? std::optional{slot->times} : std::nullopt;
}

void other_glues(const Asked& a, std::vector<Alternative>& to) {
  const std::vector<SheetId>& glues = a.floor.recipe(a.wanted.recipe)->glues;
  for (const SheetId glue : glues) {
    if (glue == (a.wanted.sheet ? a.wanted.sheet : glues.front())) continue;
    Reserve other = a.wanted;
    other.sheet = glue;
    other.lot = {};
    other.reason.clear();  // without one the rules refuse what does not suit
    const auto quote = earliest(a.floor, other, a.now);
    if (!quote || !a.sooner_ready(quote->slot.times)) continue;
    const PhaseTimes& t = quote->slot.times;
    to.push_back({OtherGlue{glue}, t.stage_begin, t.ready_at});
  }
}

void fewer_pieces(const Asked& a, std::vector<Alternative>& to) {
  const Recipe& recipe = *a.floor.recipe(a.wanted.recipe);
  const std::vector<GearKind>& gear = a.floor.shop->gear;
  const Build* build = a.wanted.build ? a.floor.build(a.wanted.build) : nullptr;
  const Joint joint = build ? recipe.joint.of(build->woods) : recipe.joint;
  for (std::size_t n = 0; n < recipe.needs.size(); ++n) {
    const GearNeed& need = recipe.needs[n];
    const GearKind* kind = plainest(need, gear);
    const bool counted =
        need.gear_class == GearClass::clamp || need.gear_class == GearClass::go_bar;
    if (!counted || need.count == 0 || !kind) continue;
    const auto least = gear_count(joint, *kind, need.count, deck_gap_of(recipe, gear));
    if (!least || least->count >= need.count) continue;
    SlotQuery query = a.query;
    query.demand.needs.at(n).count = least->count;
    const auto times = first(a.floor, query);
    if (!times || !a.sooner(times->stage_begin)) continue;
    to.push_back(
        {FewerPieces{query.demand.needs[n], need.count}, times->stage_begin, times->ready_at});
  }
}

// The floor around one query, with somebody more in it than is on record.
class Beside {
 public:
  Beside(const Floor& f, const SlotQuery& query, const Slot& more, const SlotQuery& of)
      : floor_(f), query_(query), bench_of_more_(of.bench) {
    const Span window{query.after, query.after + 2 * kHorizon + kMaxClaim};
    std::map<Holder, std::vector<Claim>> claims;
    for (const GearKind& kind : f.shop->gear) {
      gear_.set_stock(kind.id, f.gear.stock(kind.id), f.gear.stock_since(kind.id));
      for (const HeldBy& h : f.gear.holders(kind.id, window))
        claims[h.holder].push_back({kind.id, h.count, h.span});
    }
    claims.erase(Holder::of(query.ignoring));
    for (auto& [holder, held] : claims) gear_.put(holder, std::move(held));
    std::vector<Claim> taken;
    for (const Held& h : more.held) taken.push_back({h.kind, h.count, more.times.held()});
    gear_.put(Holder::of(kAsker), std::move(taken));

    for (const Builder& b : f.shop->builders) {
      std::map<GlueUpId, std::vector<Span>> busy;
      for (const BusyWith& w : f.builders.within(b.id, window))
        if (w.glue_up != query.ignoring) busy[w.glue_up].push_back(w.span);
      for (auto& [id, spans] : busy) builders_.put(b.id, id, std::move(spans));
    }
    const PhaseTimes& t = more.times;
    builders_.put(of.builder, kAsker,
                  {{t.stage_begin, t.clamped_begin}, {t.release_begin, t.release_end}});
    fumes_ = f.fumes;
    const Instant open = more.times.open_begin;
    if (of.demand.fumes > Seconds{0}) fumes_[kAsker] = {open, open + of.demand.fumes};
  }

  std::optional<PhaseTimes> earliest() const {
    const Hours hours = floor_.hours_for(query_.builder);
    const auto slot = earliest_slot(view(hours), query_);
    return slot ? std::optional{slot->times} : std::nullopt;
  }
  std::optional<PhaseTimes> at(Instant start) const {
    const Hours hours = floor_.hours_for(query_.builder);
    const auto slot = slot_at(view(hours), query_, start);
    return slot ? std::optional{slot->times} : std::nullopt;
  }

 private:
  static constexpr GlueUpId kAsker{UINT32_MAX};  // no id of the floor

  SlotView view(const Hours& hours) const {
    const auto bench_of = [this](GlueUpId id) {
      return id == kAsker ? bench_of_more_ : floor_.glue_ups.at(id).bench;
    };
    return {gear_, builders_, floor_.shop->gear, hours, fumes_, bench_of};
  }

  const Floor& floor_;
  const SlotQuery& query_;
  const BenchId bench_of_more_;
  GearLedger gear_;
  BuilderLedger builders_;
  std::map<GlueUpId, Span> fumes_;
};

// Its build's next step, when it has a place, still comes after it.
bool keeps_its_build(const Floor& f, const GlueUp& g, Instant ready) {
  const GlueUp* after = f.step_of(g.build, g.step + 1);
  return !after || after->progress == Progress::displaced || ready <= after->times.stage_begin;
}

void ask_holder(const Asked& a, const GlueUp& holder, std::vector<Alternative>& to) {
  SlotQuery without = a.query;
  without.ignoring = holder.id;
  const Hours hours = a.floor.hours_for(without.builder);
  const SlotView view = view_of(a.floor, hours);
  const auto slot = earliest_slot(view, without);
  if (!slot || !a.sooner(slot->times.stage_begin)) return;

  const Instant from = holder.times.stage_begin;
  auto its = query_again(a.floor, holder, std::max(from, a.now) + Minutes{1}, a.now);
  if (!its) return;
  const Hours its_hours = a.floor.hours_for(its->builder);
  const auto place = Beside{a.floor, *its, *slot, without}.earliest();
  if (!place) return;
  // As it is pressed: the holder moves first, and comes off as soon as it can; then the wish takes its place.
  const auto moved = slot_at(view_of(a.floor, its_hours), *its, place->stage_begin);
  if (!moved || !keeps_its_build(a.floor, holder, moved->times.ready_at)) return;
  const auto start = Beside{a.floor, without, *moved, *its}.at(slot->times.stage_begin);
  if (!start) return;
  to.push_back(
      {AskHolder{holder.id, from, place->stage_begin}, start->stage_begin, start->ready_at});
}

void ask_holders(const Asked& a, std::vector<Alternative>& to) {
  if (a.query.ignoring) return;
  const auto why = why_not_earlier(a.floor, a.wanted, a.now);
  if (!why) return;
  std::vector<GlueUpId> asked;
  for (const Blocker& b : why->blockers) {
    const GlueUp* holder = a.floor.glue_up(glue_up_of(b));
    if (!holder || holder->progress != Progress::reserved) continue;
    if (holder->build && holder->build == a.wanted.build) continue;  // the wish waits for it
    if (std::find(asked.begin(), asked.end(), holder->id) != asked.end()) continue;
    asked.push_back(holder->id);
    ask_holder(a, *holder, to);
  }
}

}  // namespace

std::vector<Alternative> alternatives(const Floor& f, const Reserve& wanted, Instant now) {
  auto query = query_of(f, wanted, now);
  if (!query) return {};
  Asked a{.floor = f, .wanted = wanted, .query = std::move(*query), .now = now, .plain = {}};
  if (wanted.start) a.wanted.after = a.query.after = *wanted.start;
  a.wanted.start.reset();
  a.plain = first(f, a.query);

  std::vector<Alternative> out;
  if (a.plain && a.plain->stage_begin <= std::chrono::ceil<Minutes>(a.query.after)) return out;
  other_glues(a, out);
  fewer_pieces(a, out);
  ask_holders(a, out);
  std::stable_sort(out.begin(), out.end(), [](const Alternative& x, const Alternative& y) {
    return std::tie(x.start, x.ready) < std::tie(y.start, y.ready);
  });
  if (out.size() > kMaxAlternatives) out.resize(kMaxAlternatives);
  return out;
}

}  // namespace squeezeout
