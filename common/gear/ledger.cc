#include "common/gear/ledger.h"

#include <algorithm>

#include "common/base/check.h"

namespace squeezeout {

void GearLedger::Earliest::pull(const std::vector<ByEnd>& claims) {
  begin = kNever;
  for (const ByEnd& c : claims) begin = std::min(begin, c.begin);
}

void GearLedger::set_stock(GearKindId kind, int count, Instant since) {
  Lane& lane = lanes_[kind];
  // More stock than before cannot break what was promised under the smaller one, so its beginning may stay.
  if (count < lane.stock || lane.since == Instant::min()) lane.since = since;
  lane.stock = count;
}

int GearLedger::stock(GearKindId kind) const {
  const auto it = lanes_.find(kind);
  return it == lanes_.end() ? 0 : it->second.stock;
}

Instant GearLedger::stock_since(GearKindId kind) const {
  const auto it = lanes_.find(kind);
  return it == lanes_.end() ? Instant::min() : it->second.since;
}

void GearLedger::put(Holder holder, std::vector<Claim> claims) {
  std::erase_if(claims, [](const Claim& c) { return c.span.empty() || c.count <= 0; });
  std::sort(claims.begin(), claims.end());
  if (const auto old = by_holder_.find(holder); old != by_holder_.end()) {
    for (const Claim& c : old->second) {
      Lane& lane = lanes_[c.kind];
      lane.usage.add(c.span, -c.count);
      const ByEnd gone{c.span.end, c.span.begin, holder, c.count};
      lane.by_end.erase(
          lane.by_end.here_or_next(lane.by_end.behind([&](const ByEnd& e) { return e < gone; })));
    }
    count_ -= old->second.size();
    by_holder_.erase(old);
  }
  for (std::size_t i = 0; i < claims.size(); ++i) {
    const Claim& c = claims[i];
    CHECK(i == 0 || claims[i - 1].kind != c.kind);  // one claim a kind: peak() takes one own span
    CHECK(c.span.length() <= kMaxClaim);
    Lane& lane = lanes_[c.kind];
    lane.usage.add(c.span, c.count);
    const ByEnd more{c.span.end, c.span.begin, holder, c.count};
    lane.by_end.insert(lane.by_end.behind([&](const ByEnd& e) { return e < more; }), more);
    CHECK(lane.usage.peak(c.span.intersect({lane.since, kNever}), {}).level <= lane.stock);
  }
  count_ += claims.size();
  if (!claims.empty()) by_holder_.emplace(holder, std::move(claims));
}

const std::vector<Claim>& GearLedger::claims_of(Holder holder) const {
  static const std::vector<Claim> kNone;
  const auto it = by_holder_.find(holder);
  return it == by_holder_.end() ? kNone : it->second;
}

Usage::Peak GearLedger::peak(GearKindId kind, Span span, Holder except) const {
  const auto it = lanes_.find(kind);
  if (it == lanes_.end()) return {};
  return it->second.usage.peak(span, own(kind, except));
}

int GearLedger::free_over(GearKindId kind, Span span, Holder except) const {
  return std::max(0, stock(kind) - peak(kind, span, except).level);
}

std::vector<HeldBy> GearLedger::holders(GearKindId kind, Span span, std::size_t most) const {
  std::vector<HeldBy> out;
  const auto it = lanes_.find(kind);
  if (it == lanes_.end() || span.empty()) return out;
  const auto& by_end = it->second.by_end;
  auto p = by_end.behind([&](const ByEnd& e) { return e.end <= span.begin; });
  for (const auto& all = by_end.all(); p.block < all.size(); p = {p.block + 1, 0}) {
    const auto& block = all[p.block];
    if (block.summary.begin >= span.end) continue;
    for (std::size_t i = p.index; i < block.items.size(); ++i) {
      const ByEnd& c = block.items[i];
      if (c.begin >= span.end) continue;
      if (out.size() == most) return out;
      out.push_back({c.holder, c.count, {c.begin, c.end}});
    }
  }
  return out;
}

Usage::Own GearLedger::own(GearKindId kind, Holder holder) const {
  if (holder.id != 0) {
    for (const Claim& c : claims_of(holder)) {
      if (c.kind == kind) return {c.span, c.count};
    }
  }
  return {};
}

const Usage& GearLedger::usage(GearKindId kind) const {
  static const Usage kNone;
  const auto it = lanes_.find(kind);
  return it == lanes_.end() ? kNone : it->second.usage;
}

}  // namespace squeezeout
