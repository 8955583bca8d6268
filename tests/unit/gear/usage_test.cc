// The step function against one number a second, through many blocks.

#include "common/gear/usage.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>

#include "common/gear/ledger.h"

namespace squeezeout {
namespace {

constexpr int kSeconds = 900;
Instant t(int s) { return Instant{Seconds{s}}; }

struct Naive {
  std::array<int, kSeconds> levels{};

  void add(int begin, int end, int count) {
    for (int s = begin; s < end; ++s) levels[static_cast<std::size_t>(s)] += count;
  }
  // Its level, and the first instant after its last one at which the level, without the asker's part, is another one; the asker's
  // ends part what is equal.
  Usage::Peak peak(int begin, int end, int own_begin, int own_end, int own_count) const {
    const auto level = [&](int s) {
      const bool own = own_begin <= s && s < own_end;
      return s < kSeconds ? levels[static_cast<std::size_t>(s)] - (own ? own_count : 0) : 0;
    };
    Usage::Peak peak;
    int last = -1;
    for (int s = begin; s < end; ++s) {
      if (level(s) > 0 && level(s) >= peak.level) peak.level = level(s), last = s;
    }
    if (last < 0) return peak;
    int over = last + 1;
    while (over < kSeconds && level(over) == level(last) &&
           (own_count == 0 || (over != own_begin && over != own_end)))
      ++over;
    peak.last_end = t(over);
    return peak;
  }
};

RC_GTEST_PROP(Usage, AgreesWithANumberASecond, ()) {
  Usage usage;
  Naive naive;
  struct Added {
    int begin, end, count;
  };
  std::vector<Added> all;
  const int adds = *rc::gen::inRange(1, 400);
  const int longest = *rc::gen::element(6, 60, kSeconds);
  for (int i = 0; i < adds; ++i) {
    if (!all.empty() && *rc::gen::inRange(0, 3) == 0) {  // one goes again
      const auto gone = *rc::gen::inRange<std::size_t>(0, all.size());
      const Added a = all[gone];
      usage.add({t(a.begin), t(a.end)}, -a.count);
      naive.add(a.begin, a.end, -a.count);
      all[gone] = all.back();
      all.pop_back();
      continue;
    }
    const int begin = *rc::gen::inRange(0, kSeconds);
    const int end = std::min(kSeconds, begin + *rc::gen::inRange(1, longest + 1));
    const Added a{begin, end, *rc::gen::inRange(1, 4)};
    usage.add({t(a.begin), t(a.end)}, a.count);
    naive.add(a.begin, a.end, a.count);
    all.push_back(a);
  }
  for (int s = 0; s < kSeconds; ++s)
    RC_ASSERT(usage.level(t(s)) == naive.levels[static_cast<std::size_t>(s)]);
  for (int i = 0; i < 60; ++i) {
    const int begin = *rc::gen::inRange(0, kSeconds);
    const int end = begin + *rc::gen::inRange(0, kSeconds);
    Added own{0, 0, 0};
    if (!all.empty() && i % 2 == 1) own = all[*rc::gen::inRange<std::size_t>(0, all.size())];
    RC_ASSERT(usage.peak({t(begin), t(end)}, {{t(own.begin), t(own.end)}, own.count}) ==
              naive.peak(begin, std::min(end, kSeconds), own.begin, own.end, own.count));
  }
}

TEST(Usage, ALevelThatIsKeptForGoodNeverEnds) {
  Usage usage;
  usage.add({t(10), kNever}, 2);
  EXPECT_EQ(usage.peak({t(0), t(20)}, {}), (Usage::Peak{2, kNever}));
  EXPECT_EQ(usage.peak({t(0), t(10)}, {}), Usage::Peak{});
}

// Who overlaps a span, by end, through many blocks.
RC_GTEST_PROP(GearLedger, HoldersAgreeWithLookingAtEveryClaim, ()) {
  constexpr GearKindId kKind{1};
  GearLedger ledger;
  ledger.set_stock(kKind, 1'000'000);
  std::vector<HeldBy> all;
  const int claims = *rc::gen::inRange(1, 400);
  for (int i = 1; i <= claims; ++i) {
    const Holder who = Holder::of(GlueUpId{static_cast<std::uint32_t>(i)});
    const int begin = *rc::gen::inRange(0, kSeconds);
    const HeldBy held{
        who, *rc::gen::inRange(1, 4), {t(begin), t(begin + *rc::gen::inRange(1, 200))}};
    ledger.put(who, {{kKind, held.count, held.span}});
    all.push_back(held);
  }
  for (int i = 0; i < claims / 2; ++i) {
    const auto gone = *rc::gen::inRange<std::size_t>(0, all.size());
    ledger.put(all[gone].holder, {});
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(gone));
  }
  std::sort(all.begin(), all.end(), [](const HeldBy& a, const HeldBy& b) {
    return std::tie(a.span.end, a.span.begin, a.holder) <
           std::tie(b.span.end, b.span.begin, b.holder);
  });
  for (int i = 0; i < 20; ++i) {
    const int begin = *rc::gen::inRange(0, kSeconds);
    const Span span{t(begin), t(begin + *rc::gen::inRange(1, 100))};
    std::vector<HeldBy> expected;
    for (const HeldBy& h : all) {
      if (h.span.overlaps(span)) expected.push_back(h);
    }
    RC_ASSERT(ledger.holders(kKind, span) == expected);
    const std::size_t most = *rc::gen::inRange<std::size_t>(0, 20);
    expected.resize(std::min(expected.size(), most));
    RC_ASSERT(ledger.holders(kKind, span, most) == expected);
  }
}

}  // namespace
}  // namespace squeezeout
