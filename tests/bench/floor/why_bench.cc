// Workload: a shop of 18 builders with 400 glue-ups reserved as people asked for them; somebody asks of each why it is not sooner,
// and what else a wish could do. And the same on the demo's busy week.
// Goals: an explanation within 20 ms on the demo's floor, within 200 ms at 400 glue-ups.
//   Clock    CPU time of the one thread, so that other work on the machine does not count

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "common/floor/why.h"
#include "common/time/rfc3339.h"
#include "tests/bench/floor/busy_floor.h"
#include "tests/support/cpu_clock.h"

namespace squeezeout::bench {
namespace {

const Instant kNow = *parse_rfc3339("2026-11-23T16:00:00Z");  // a Monday

struct Took {
  std::vector<double> ms;
  std::size_t facts = 0;
  void time(const std::function<std::size_t()>& ask) {
    const double begin = testing::thread_cpu_seconds();
    facts += ask();
    ms.push_back((testing::thread_cpu_seconds() - begin) * 1e3);
  }
  std::string told() {
    std::sort(ms.begin(), ms.end());
    if (ms.empty()) return "none";
    return fmt::format("{} asked, {} answers: p50 {:.2f} ms, p99 {:.2f} ms, worst {:.2f} ms",
                       ms.size(), facts, ms[ms.size() / 2], ms[ms.size() * 99 / 100], ms.back());
  }
};

void run(const char* name, const Floor& floor) {
  Took whys, wishes, others, chains;
  for (const auto& [id, g] : floor.glue_ups) {
    if (g.progress != Progress::reserved) continue;
    whys.time([&] {
      const auto why = why_not_earlier(floor, id, kNow);
      return why ? why->blockers.size() : 0;
    });
    chains.time([&] { return critical_chain(floor, id, kNow).size(); });
  }
  for (const Recipe& recipe : floor.shop->recipes) {
    for (const Builder& builder : floor.shop->builders) {
      const Reserve wanted{.recipe = recipe.id, .builder = builder.id, .after = kNow};
      wishes.time([&] {
        const auto why = why_not_earlier(floor, wanted, kNow);
        return why ? why->blockers.size() : 0;
      });
      others.time([&] { return alternatives(floor, wanted, kNow).size(); });
    }
  }
  fmt::print("{}\n  of a glue-up: {}\n  of a wish:    {}\n  other ways:   {}\n  chains:       {}\n",
             name, whys.told(), wishes.told(), others.told(), chains.told());
}

}  // namespace
}  // namespace squeezeout::bench

int main() {
  using namespace squeezeout::bench;
  run("the demo's shop, 80 glue-ups reserved", busy_floor({}, kNow));
  run("three times the shop, 400 glue-ups reserved",
      busy_floor({.times = 3, .builds = 80, .steps = 5}, kNow));
}
