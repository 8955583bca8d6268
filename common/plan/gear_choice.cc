#include "common/plan/gear_choice.h"

#include <algorithm>

namespace squeezeout {

GearChoice::GearChoice(const GearLedger& gear, std::span<const GearKind> kinds,
                       std::span<const GearNeed> needs, Holder except)
    : needs_(needs) {
  std::vector<const GearKind*> good;
  for (const GearNeed& need : needs) {
    good.clear();
    for (const GearKind& k : kinds) {
      if (good_enough(k, need)) good.push_back(&k);
    }
    std::sort(good.begin(), good.end(),
              [](const GearKind* a, const GearKind* b) { return less_capable(*a, *b); });
    auto& choices = choices_.emplace_back();
    for (const GearKind* k : good) {
      auto at = std::find_if(lanes_.begin(), lanes_.end(),
                             [&](const Lane& l) { return l.kind == k->id; });
      if (at == lanes_.end()) {
        lanes_.push_back({k->id, &gear.usage(k->id), gear.own(k->id, except), gear.stock(k->id)});
        at = std::prev(lanes_.end());
      }
      choices.push_back(static_cast<std::size_t>(at - lanes_.begin()));
    }
  }
  given_.assign(needs.size(), std::vector<int>(lanes_.size(), 0));
}

int GearChoice::free_over(std::size_t lane, Span span) {
  Lane& l = lanes_[lane];
  if (l.seen != look_) {
    l.seen = look_;
    const Usage::Peak peak = l.usage->peak(span, l.own);
    l.free = std::max(0, l.stock - peak.level);
    l.until = peak.level > 0 ? peak.last_end : kNever;
  }
  return l.free;
}

int GearChoice::sum_over(std::size_t need, Span span) {
  int sum = 0;
  for (const std::size_t l : choices_[need]) {
    sum += free_over(l, span);
    if (sum >= needs_[need].count) break;
  }
  return sum;
}

Instant GearChoice::until(std::size_t first, std::size_t last) const {
  Instant out = kNever;
  for (std::size_t n = first; n <= last; ++n) {
    for (const std::size_t l : choices_[n]) out = std::min(out, lanes_[l].until);
  }
  return out;
}

int GearChoice::push(std::size_t need, int wanted) {
  for (const std::size_t l : choices_[need]) {  // least capable first
    if (const int take = std::min(wanted, left_[l]); take > 0) {
      left_[l] -= take;
      given_[need][l] += take;
      return take;
    }
  }
  for (const std::size_t l : choices_[need]) {
    if (tried_[l]) continue;
    tried_[l] = true;
    for (std::size_t other = 0; other < given_.size(); ++other) {
      if (other == need || given_[other][l] == 0) continue;
      const int moved = push(other, std::min(wanted, given_[other][l]));
      if (moved == 0) continue;
      given_[other][l] -= moved;
      given_[need][l] += moved;
      return moved;
    }
  }
  return 0;
}

std::optional<GearChoice::Short> GearChoice::flow(std::size_t needs, Span span) {
  left_.resize(lanes_.size());
  for (std::size_t l = 0; l < lanes_.size(); ++l) left_[l] = free_over(l, span);
  for (auto& row : given_) std::fill(row.begin(), row.end(), 0);
  for (std::size_t n = 0; n < needs; ++n) {
    for (int left = needs_[n].count; left > 0;) {
      tried_.assign(lanes_.size(), false);
      const int moved = push(n, left);
      if (moved == 0) return Short{n, needs_[n].count - left, false, until(0, n)};
      left -= moved;
    }
  }
  return std::nullopt;
}

std::optional<GearChoice::Short> GearChoice::over(Span span, std::size_t first) {
  ++look_;
  for (std::size_t i = 0; i < needs_.size(); ++i) {
    const std::size_t n = (first + i) % needs_.size();
    if (const int sum = sum_over(n, span); sum < needs_[n].count)
      return Short{n, sum, true, until(n, n)};
  }
  return flow(needs_.size(), span);
}

std::optional<GearChoice::Short> GearChoice::still(const Short& is, Span span) {
  ++look_;
  if (!is.alone) return flow(is.need + 1, span);
  const int sum = sum_over(is.need, span);
  if (sum >= needs_[is.need].count) return std::nullopt;
  return Short{is.need, sum, true, until(is.need, is.need)};
}

std::vector<Held> GearChoice::held() const {
  std::vector<Held> out;
  for (std::size_t l = 0; l < lanes_.size(); ++l) {
    int count = 0;
    for (const auto& row : given_) count += row[l];
    if (count > 0) out.push_back({lanes_[l].kind, count});
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<GearKindId> GearChoice::kinds_of(std::size_t need) const {
  std::vector<GearKindId> out;
  for (const std::size_t l : choices_[need]) out.push_back(lanes_[l].kind);
  return out;
}

int GearChoice::owned(std::size_t need) const {
  int sum = 0;
  for (const std::size_t l : choices_[need]) sum += lanes_[l].stock;
  return sum;
}

}  // namespace squeezeout
