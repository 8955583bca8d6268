#include "common/plan/open_line.h"

namespace squeezeout {

OpenLine::OpenLine(const Hours* hours, Instant from, Instant limit)
    : hours_(hours), known_(from), limit_(limit) {}

std::optional<Instant> OpenLine::next(Seconds length, Instant t) {
  if (!hours_) return t;
  const auto behind =
      std::partition_point(spans_.begin(), spans_.end(), [&](const Span& s) { return s.end <= t; });
  auto i = static_cast<std::size_t>(behind - spans_.begin());
  if (i > 0 && i == spans_.size()) --i;  // the last known span may still grow across midnight
  for (;;) {
    if (i < spans_.size()) {
      const Instant s = std::max(t, spans_[i].begin);
      if (s < spans_[i].end && s + length <= spans_[i].end) return s;
    }
    if (i + 1 < spans_.size()) {
      ++i;
    } else if (!grow()) {
      return std::nullopt;
    }
  }
}

bool OpenLine::grow() {
  if (known_ >= limit_) return false;
  const Instant end = known_ + step_;
  step_ = std::min<Seconds>(2 * step_, std::chrono::days{32});
  for (const Span& s : hours_->open_spans({known_, end})) {
    if (!spans_.empty() && spans_.back().end == s.begin) {
      spans_.back().end = s.end;
    } else {
      spans_.push_back(s);
    }
  }
  known_ = end;
  return true;
}

}  // namespace squeezeout
