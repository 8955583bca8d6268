#pragma once
// Attended time of builders: who is busy with what, when.
//   Shape    a span that is longer than a day counts with its last day
//   Cost     a look passes the spans that begin in the window, and before it as far back as the builder's longest one reaches

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "common/base/ids.h"
#include "common/gear/blocks.h"
#include "common/time/span.h"

namespace squeezeout {

struct BusyWith {
  GlueUpId glue_up;
  Span span;
};

class BuilderLedger {
 public:
  void put(BuilderId builder, GlueUpId glue_up,
           std::vector<Span> attended);  // replaces; a builder 0 with no spans removes
  // Of the attended spans that overlap, not counting `except`, the one that ends last.
  std::optional<BusyWith> busy(BuilderId builder, Span span, GlueUpId except = {}) const;
  // The same of all builders but one, of the glue-ups for which counts(GlueUpId).
  template <class F>
  std::optional<BusyWith> others_busy(BuilderId but, Span span, F counts) const {
    std::optional<BusyWith> last;
    for (const auto& [builder, lane] : lanes_) {
      if (builder == but) continue;
      each(builder, span, [&](const Attended& a) {
        if (counts(a.glue_up) && (!last || a.span.end >= last->span.end))
          last = BusyWith{a.glue_up, a.span};
      });
    }
    return last;
  }
  // All attended spans that overlap, in order of begin.
  std::vector<BusyWith> within(BuilderId builder, Span span) const;

 private:
  struct Attended {
    Span span;
    GlueUpId glue_up;
    friend auto operator<=>(const Attended&, const Attended&) = default;
  };
  struct NoSummary {
    void push(const std::vector<Attended>&) {}
    void pull(const std::vector<Attended>&) {}
  };
  struct Lane {
    Blocks<Attended, NoSummary> attended;
    Seconds longest{0};  // that was ever put
  };
  template <class F>
  void each(BuilderId builder, Span span, F f) const {
    const auto lane = lanes_.find(builder);
    if (lane == lanes_.end()) return;
    const auto& spans = lane->second.attended;
    const Instant from = span.begin - lane->second.longest;
    auto p = spans.behind([&](const Attended& a) { return a.span.begin < from; });
    for (const auto& all = spans.all(); p.block < all.size(); p = {p.block + 1, 0}) {
      const auto& items = all[p.block].items;
      for (std::size_t i = p.index; i < items.size(); ++i) {
        if (items[i].span.begin >= span.end) return;
        if (items[i].span.overlaps(span)) f(items[i]);
      }
    }
  }

  std::map<BuilderId, Lane> lanes_;
  std::map<GlueUpId, std::pair<BuilderId, std::vector<Span>>> by_glue_up_;
};

}  // namespace squeezeout
