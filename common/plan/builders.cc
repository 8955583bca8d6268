#include "common/plan/builders.h"

#include <algorithm>

namespace squeezeout {
namespace {

constexpr Seconds kLongestAttended = std::chrono::hours{24};

}  // namespace

void BuilderLedger::put(BuilderId builder, GlueUpId glue_up, std::vector<Span> attended) {
  const auto place = [&](const auto& spans, const Attended& a) {
    return spans.behind([&](const Attended& other) { return other < a; });
  };
  if (const auto old = by_glue_up_.find(glue_up); old != by_glue_up_.end()) {
    auto& spans = lanes_[old->second.first].attended;
    for (const Span& s : old->second.second)
      spans.erase(spans.here_or_next(place(spans, {s, glue_up})));
    by_glue_up_.erase(old);
  }
  std::erase_if(attended, [](const Span& s) { return s.empty(); });
  if (attended.empty() || !builder) return;
  Lane& lane = lanes_[builder];
  for (Span& s : attended) {
    s.begin = std::max(s.begin, s.end - kLongestAttended);
    lane.longest = std::max(lane.longest, s.length());
    lane.attended.insert(place(lane.attended, {s, glue_up}), {s, glue_up});
  }
  by_glue_up_.emplace(glue_up, std::pair{builder, std::move(attended)});
}

std::optional<BusyWith> BuilderLedger::busy(BuilderId builder, Span span, GlueUpId except) const {
  std::optional<BusyWith> last;
  each(builder, span, [&](const Attended& a) {
    if (a.glue_up != except && (!last || a.span.end >= last->span.end))
      last = BusyWith{a.glue_up, a.span};
  });
  return last;
}

std::vector<BusyWith> BuilderLedger::within(BuilderId builder, Span span) const {
  std::vector<BusyWith> out;
  each(builder, span, [&](const Attended& a) { out.push_back({a.glue_up, a.span}); });
  return out;
}

}  // namespace squeezeout
