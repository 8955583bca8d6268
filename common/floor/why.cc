#include "common/floor/why.h"

#include <algorithm>

#include "common/floor/ask.h"
#include "common/floor/why_facts.h"

namespace squeezeout {
namespace {

using Facts = std::vector<WhyFacts::Index>;

// QuickXplain: of the facts that together leave no start, a least set that does, preferred ones kept.
class Explanation {
 public:
  Explanation(WhyFacts& facts, Instant wanted) : facts_(facts), wanted_(wanted) {}

  Facts of(const Facts& all) {
    if (blocked({})) return {};
    return among({}, {}, all);
  }

 private:
  bool blocked(const Facts& kept) {
    facts_.keep_only(kept);
    return !facts_.earliest(wanted_);
  }
  // A least part of `some` that, beside `kept`, leaves no start. `added`: what `kept` has more than when it was asked last.
  Facts among(const Facts& kept, const Facts& added, const Facts& some) {
    if (!added.empty() && blocked(kept)) return {};
    if (some.size() == 1) return some;
    const auto middle = some.begin() + static_cast<std::ptrdiff_t>(some.size() / 2);
    const Facts preferred{some.begin(), middle}, rest{middle, some.end()};
    const Facts of_rest = among(joined(kept, preferred), preferred, rest);
    const Facts of_preferred = among(joined(kept, of_rest), of_rest, preferred);
    return joined(of_rest, of_preferred);
  }
  static Facts joined(Facts a, const Facts& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
  }

  WhyFacts& facts_;
  Instant wanted_;
};

// Facts that leave no start in [wanted, end), as they are met on the way.
struct Met {
  Facts facts;
  std::optional<Instant> start;  // that nothing rules out: the finder had given up before it
};
Met met(WhyFacts& facts, Instant wanted) {
  Met out;
  for (auto times = facts.earliest(wanted); times; times = facts.earliest(times->stage_begin)) {
    const Facts more = facts.rule_out(*times);
    if (more.empty()) {
      out.start = times->stage_begin;
      break;
    }
    out.facts.insert(out.facts.end(), more.begin(), more.end());
  }
  return out;
}

struct Ends {
  std::optional<Instant> operator()(const HeldGear& b) const {
    return b.held.holder.what == Holder::What::outage ? std::nullopt
                                                      : std::optional{b.held.span.end};
  }
  std::optional<Instant> operator()(const OwnsTooFew&) const { return std::nullopt; }
  std::optional<Instant> operator()(const ClosedHours& b) const { return b.closed.end; }
  std::optional<Instant> operator()(const BuilderBusy& b) const { return b.until; }
  std::optional<Instant> operator()(const NotReadyYet& b) const { return b.until; }
  std::optional<Instant> operator()(const TooCold& b) const { return b.until; }
  std::optional<Instant> operator()(const SkinsFirst&) const { return std::nullopt; }
  std::optional<Instant> operator()(const BesideHeat& b) const { return b.until; }
  std::optional<Instant> operator()(const PotGels&) const { return std::nullopt; }  // set for good
  std::optional<Instant> operator()(const BenchBusy& b) const { return b.until; }
};

struct GlueUpOf {
  GlueUpId operator()(const HeldGear& b) const {
    return b.held.holder.what == Holder::What::glue_up ? GlueUpId{b.held.holder.id} : GlueUpId{};
  }
  GlueUpId operator()(const BuilderBusy& b) const { return b.with; }
  GlueUpId operator()(const NotReadyYet& b) const { return b.waits_for; }
  GlueUpId operator()(const BesideHeat& b) const { return b.with; }
  GlueUpId operator()(const BenchBusy& b) const { return b.with; }
  template <class T>
  GlueUpId operator()(const T&) const {
    return {};
  }
};

// From query.after on.
Why explain(const Floor& f, const SlotQuery& query) {
  const Hours hours = f.hours_for(query.builder);
  const SlotView view = view_of(f, hours);
  const auto slot = earliest_slot(view, query);
  Why why{.wanted = query.after};
  if (slot) why.start = slot->times.stage_begin;
  const Instant last =
      query.waits_for ? std::max(query.after, query.waits_for->until) : query.after;
  why.blockers = least_blockers(f, query, why.start.value_or(last + kHorizon));
  return why;
}

}  // namespace

std::vector<Blocker> least_blockers(const Floor& f, const SlotQuery& query, Instant end) {
  WhyFacts facts{f, query, end};
  const Met on_the_way = met(facts, query.after);
  if (on_the_way.start) return least_blockers(f, query, *on_the_way.start);
  const Facts all = facts.by_preference(on_the_way.facts);
  const Facts least = Explanation{facts, query.after}.of(all);
  std::vector<Blocker> out;
  for (const auto fact : least) out.push_back(facts.told(fact, least));
  std::stable_sort(out.begin(), out.end(), [](const Blocker& a, const Blocker& b) {
    return ends(a).value_or(kNever) > ends(b).value_or(kNever);
  });
  return out;
}

std::optional<Instant> ends(const Blocker& blocker) { return std::visit(Ends{}, blocker); }
GlueUpId glue_up_of(const Blocker& blocker) { return std::visit(GlueUpOf{}, blocker); }

Result<Why, Refusal> why_not_earlier(const Floor& f, const Reserve& wanted, Instant now) {
  auto query = query_of(f, wanted, now);
  if (!query) return Unexpected{query.error()};
  if (wanted.start) {
    query->after = *wanted.start;
    const Hours hours = f.hours_for(query->builder);
    if (slot_at(view_of(f, hours), *query, *wanted.start))
      return Why{.wanted = *wanted.start, .start = *wanted.start};
  }
  return explain(f, *query);
}

Result<Why, Refusal> why_not_earlier(const Floor& f, GlueUpId id, Instant now) {
  const GlueUp* g = f.glue_up(id);
  if (!g) return Unexpected{Refusal{NoSuch{Thing::glue_up, id.value}}};
  if (g->progress != Progress::reserved && g->progress != Progress::displaced)
    return Unexpected{Refusal{WrongProgress{id, g->progress}}};
  auto query = query_again(f, *g, std::max(g->wanted_from, now), now);
  if (!query) return Unexpected{query.error()};
  if (g->outside_hours) query->attended = SlotQuery::Hours::ignore;
  return explain(f, *query);
}

}  // namespace squeezeout
