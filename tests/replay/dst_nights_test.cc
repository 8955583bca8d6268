// Golden journals: a glue-up clamped over each DST night, in two zones, told in the shop's own clock and in elapsed time. The
// files in golden/ come from make.py beside them, which shares nothing with this program and has tz rules of its own; the events
// are replayed and must give the same floor.

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "common/time/rfc3339.h"
#include "tests/support/floor/small_shop.h"

namespace squeezeout::testing {
namespace {

using namespace std::chrono_literals;

struct Night {
  const char *file, *zone, *evening;
};

std::string told(const Floor& f, const std::vector<Event>& events) {
  static constexpr const char* kWhat[] = {
      "reserved", "moved",   "cancelled", "started", "clamps on", "clamps off", "scraped",
      "late",     "spoiled", "undone",    "overran", "displaced", "finished"};
  std::ostringstream out;
  for (const Event& e : events) {
    const auto* c = std::get_if<GlueUpChanged>(&e);
    if (!c) continue;
    const GlueUp& g = c->after;
    const auto line = [&](const char* what, Instant t) {
      out << "  " << what << " " << rfc3339(t, *f.zone) << "\n";
    };
    out << kWhat[static_cast<std::size_t>(c->what)] << "\n";
    line("stage  ", g.times.stage_begin);
    line("open   ", g.times.open_begin);
    line("clamped", g.times.clamped_begin);
    line("off from", off_from(g));
    line("release", g.times.release_begin);
    line("free   ", g.times.release_end);
    line("ready  ", g.times.ready_at);
    out << "  dwell at least " << g.demand.dwell / 1min << " min, gear held "
        << (g.off_at.value_or(g.times.release_end) - g.times.stage_begin) / 1min << " min\n";
  }
  return out.str();
}

TEST(DstNights, GoldenJournals) {
  for (const Night& n :
       {Night{"dublin_spring.txt", "Europe/Dublin", "2026-03-28T19:00:00+00:00"},
        Night{"dublin_autumn.txt", "Europe/Dublin", "2026-10-24T19:00:00+01:00"},
        Night{"new_york_spring.txt", "America/New_York", "2026-03-07T19:00:00-05:00"},
        Night{"new_york_autumn.txt", "America/New_York", "2026-10-31T19:00:00-04:00"}}) {
    Shop shop = small_shop(n.zone);
    for (auto& day : shop.hours.weekday)
      day = {{6 * 60, 22 * 60}};  // open on weekends, closed from 22:00 to 6:00
    shop.recipes[1].dwell = 10h;
    Bench b{at(n.evening), shop};
    const GlueUpId id = b.reserve(kBinding, kAda);
    b.wait(5min);
    ASSERT_TRUE(b.press(Start{id}));
    b.wait(4min);
    ASSERT_TRUE(b.press(ClampsOn{id, b.now()}));
    b.set(b.glue_up(id).times.release_begin);
    ASSERT_TRUE(b.press(ClampsOff{id, b.now()}));
    EXPECT_GE(*b.glue_up(id).off_at - *b.glue_up(id).clamped_at, 10h)
        << n.file;  // elapsed, whatever the clocks did

    std::ifstream file{std::string{"tests/replay/golden/"} + n.file};
    std::ostringstream golden;
    golden << file.rdbuf();
    EXPECT_EQ(told(b.floor(), b.events()), golden.str()) << n.file;

    Floor replayed;
    for (const Event& e : b.events()) squeezeout::apply(replayed, e);
    EXPECT_EQ(floor_hash(replayed), floor_hash(b.floor()));
  }
}

}  // namespace
}  // namespace squeezeout::testing
